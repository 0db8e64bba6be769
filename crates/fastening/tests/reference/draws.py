"""Writes the reference cases for the statistics of draws: scipy.stats on a grid. Run: python3 draws.py"""
import random, sys
import numpy, scipy
from scipy import stats

random.seed(20)
head = f"# Made by tests/reference/draws.py with scipy {scipy.__version__}, numpy {numpy.__version__}, Python {sys.version.split()[0]}.\n"
with open("hypergeometric.csv", "w") as f:
    f.write(head + "population,bad,drawn,k,pmf,cdf\n")
    for _ in range(200):
        n_all = random.choice([10, 20, 50, 100, 400, 1000, 5000, 20000])
        bad = random.randint(0, min(n_all, max(1, n_all // random.choice([1, 2, 5, 20]))))
        drawn = random.randint(1, min(n_all, random.choice([8, 16, 40, 200, 1000])))
        mean = drawn * bad / n_all
        low, high = max(0, drawn - (n_all - bad)), min(drawn, bad)
        k = min(high, max(low, round(mean + random.gauss(0, 1) * (1 + mean) ** 0.5)))
        d = stats.hypergeom(n_all, bad, drawn)
        f.write(f"{n_all},{bad},{drawn},{k},{d.pmf(k):.17g},{d.cdf(k):.17g}\n")
with open("clopper-pearson.csv", "w") as f:
    f.write(head + "drawn,bad,confidence,lower,upper\n")
    for _ in range(200):
        n = random.choice([1, 2, 5, 8, 16, 24, 40, 100, 500, 2000])
        x = random.randint(0, n)
        c = random.choice([0.8, 0.9, 0.95, 0.99])
        ci = stats.binomtest(x, n).proportion_ci(c, method="exact")
        f.write(f"{n},{x},{c},{ci.low:.17g},{ci.high:.17g}\n")
with open("beta-binomial.csv", "w") as f:
    f.write(head + "left,bad,good,k,pmf,cdf,quantile_95\n")
    for _ in range(200):
        left = random.choice([0, 1, 4, 16, 84, 384, 1000, 4000])
        a = random.choice([0.5, 1, 2, 3, 5.5, 12])
        b = random.choice([0.5, 1, 7, 15, 29, 60])
        d = stats.betabinom(left, a, b)
        k = random.randint(0, left)
        f.write(f"{left},{a},{b},{k},{d.pmf(k):.17g},{d.cdf(k):.17g},{int(d.ppf(0.95))}\n")
with open("quantiles.csv", "w") as f:
    f.write(head + "degrees,p,t,normal\n")
    for df in [1, 2, 3, 5, 9, 30]:
        for p in [0.025, 0.1, 0.5, 0.9, 0.975, 0.995]:
            f.write(f"{df},{p},{stats.t.ppf(p, df):.17g},{stats.norm.ppf(p):.17g}\n")
