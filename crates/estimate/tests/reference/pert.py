"""PERT (beta) and triangular quantiles by scipy. Run: python3 pert.py > pert.csv"""
import scipy
from scipy.stats import beta, triang

print(f"# scipy {scipy.__version__}")
print("shape,low,likely,high,p,quantile")
for a, c, b in [(10, 20, 60), (0, 0, 1), (5, 9, 9), (100, 101, 900), (3, 5, 7)]:
    for p in (0.001, 0.05, 0.1, 0.5, 0.9, 0.95, 0.999):
        print(f"triangular,{a},{c},{b},{p},{triang((c - a) / (b - a), loc=a, scale=b - a).ppf(p):.10g}")
        print(f"pert,{a},{c},{b},{p},{beta(1 + 4 * (c - a) / (b - a), 1 + 4 * (b - c) / (b - a), loc=a, scale=b - a).ppf(p):.10g}")
