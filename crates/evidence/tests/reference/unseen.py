"""Quantiles of Beta(0.5 + found, 0.5 + clear) by scipy. Run: python3 unseen.py > unseen.csv"""
import scipy
from scipy.stats import beta

print(f"# scipy {scipy.__version__}, scipy.stats.beta.ppf at 0.05 and 0.95")
print("found,clear,low,high")
for found, clear in [(0, 0), (0, 5), (1, 9), (3, 3), (10, 90), (40, 2), (200, 100)]:
    b = beta(0.5 + found, 0.5 + clear)
    print(f"{found},{clear},{b.ppf(0.05):.12g},{b.ppf(0.95):.12g}")
