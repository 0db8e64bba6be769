"""Totals of the invented estimate by numpy and scipy, 4,000,000 trials. Run: python3 totals.py > totals.csv"""
import csv, os
import numpy as np, scipy
from scipy.stats import beta, norm, triang

HERE = os.path.dirname(os.path.abspath(__file__))


def rows(name):
    with open(os.path.join(HERE, "..", "data", name)) as f:
        return list(csv.DictReader(line for line in f if not line.startswith("#")))


def spread(r, shape):
    a, c, b = (float(r[k]) for k in ("low", "likely", "high"))
    if shape == "triangular":
        return triang((c - a) / (b - a), loc=a, scale=b - a)
    return beta(1 + 4 * (c - a) / (b - a), 1 + 4 * (b - c) / (b - a), loc=a, scale=b - a)


items, rate = rows("items.csv"), rows("rates.csv")[0]
N, CHUNK = 4_000_000, 500_000
print(f"# numpy {np.__version__}, scipy {scipy.__version__}, {N} trials, numpy default_rng(7); type-7 quantiles")
print("shape,rates,dependence,p10,p50,p90,mean,sd")
for shape in ("triangular", "pert"):
    for rated in (0, 1):
        for dependence in (0.0, 0.5, 1.0):
            rng = np.random.default_rng(7)
            parts = []
            for _ in range(N // CHUNK):
                common = rng.standard_normal(CHUNK)
                r = spread(rate, shape)
                # Quantiles from a fine table: scipy's own beta quantile is slow for so many draws.
                table = lambda d: (np.linspace(d.ppf(0), d.ppf(1), 20001), d.cdf(np.linspace(d.ppf(0), d.ppf(1), 20001)))
                draw = lambda d, u: np.interp(u, table(d)[1], table(d)[0])
                rates = draw(r, rng.random(CHUNK)) if rated else 1.0
                total = np.zeros(CHUNK)
                for item in items:
                    z = np.sqrt(dependence) * common + np.sqrt(1 - dependence) * rng.standard_normal(CHUNK)
                    x = draw(spread(item, shape), norm.cdf(z)) * (rng.random(CHUNK) < float(item["probability"]))
                    total += x * (rates if item["trade"] == "shipwright" else 1.0)
                parts.append(total)
            t = np.concatenate(parts)
            q = np.quantile(t, [0.1, 0.5, 0.9])
            print(f"{shape},{rated},{dependence},{q[0]:.3f},{q[1]:.3f},{q[2]:.3f},{t.mean():.3f},{t.std(ddof=1):.3f}")
