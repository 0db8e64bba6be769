"""Robust location and bootstrap by scipy and numpy, and beta quantiles. Run: python3 robust.py > robust.csv"""
import numpy as np, scipy
from scipy.stats import beta, binom, bootstrap, median_abs_deviation

print(f"# numpy {np.__version__}, scipy {scipy.__version__}; bootstrap: percentile, 90 %, 200000 resamples, default_rng(3)")
print("figures,median,mad,hodges_lehmann,bootstrap_low,bootstrap_high,rank_low,rank_high,coverage_percent")
rng = np.random.default_rng(11)
for n in (3, 4, 7, 8, 11, 20, 35):
    x = np.round(np.exp(rng.normal(10.3, 0.35, n)), -1)
    pairs = [(x[i] + x[j]) / 2 for i in range(n) for j in range(i, n)]
    b = bootstrap((x,), np.median, confidence_level=0.9, n_resamples=200_000, method="percentile", rng=np.random.default_rng(3), batch=20000)
    k = 1
    while 1 - 2 * binom.cdf(k, n, 0.5) >= 0.9:
        k += 1
    s = np.sort(x)
    cover = 100 * (1 - 2 * binom.cdf(k - 1, n, 0.5))
    print(",".join([" ".join(f"{v:.0f}" for v in x)] + [f"{v:.10g}" for v in (np.median(x), median_abs_deviation(x), np.median(pairs), b.confidence_interval.low, b.confidence_interval.high, s[k - 1], s[n - k], cover)]))
