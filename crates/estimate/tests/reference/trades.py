"""Totals of lines that go together by trade and over all, by numpy and scipy, 4,000,000 trials.
Run: python3 trades.py > trades.csv"""
import numpy as np, scipy
from scipy.stats import norm, triang

# Lines (10, 20, 60) times k, of trade a, b or none: invented.
LINES = [(1.0, "a"), (2.5, "a"), (2.0, "b"), (0.5, "b"), (1.5, "")]
SPREAD = triang(0.2, loc=10, scale=50)
N, CHUNK = 4_000_000, 500_000

print(f"# numpy {np.__version__}, scipy {scipy.__version__}, {N} trials, numpy default_rng(11), multivariate normal scores")
print("dependence,trade_dependence,p10,p50,p90,sd")
for dependence, within in ((0.0, 0.6), (0.0, 1.0), (0.25, 0.75), (0.4, 0.4)):
    # The correlation matrix is written out here, not built from factors, so that it checks the factors.
    corr = np.array([[1.0 if i == j else within if t and t == u else dependence for j, (_, u) in enumerate(LINES)] for i, (_, t) in enumerate(LINES)])
    rng = np.random.default_rng(11)
    parts = []
    for _ in range(N // CHUNK):
        z = rng.multivariate_normal(np.zeros(len(LINES)), corr, size=CHUNK, method="eigh")
        x = SPREAD.ppf(norm.cdf(z))
        parts.append(x @ np.array([k for k, _ in LINES]))
    t = np.concatenate(parts)
    q = np.quantile(t, [0.1, 0.5, 0.9])
    print(f"{dependence},{within},{q[0]:.3f},{q[1]:.3f},{q[2]:.3f},{t.std(ddof=1):.3f}")
