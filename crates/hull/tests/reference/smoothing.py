"""Reference for the smoothing spline: the same minimisation by numpy alone, with scipy's make_smoothing_spline at the
penalty found. Run: python smoothing.py > smoothing.csv"""
import numpy as np, scipy
from scipy.interpolate import make_smoothing_spline
from scipy.optimize import brentq

rng = np.random.default_rng(7)
x = np.array([0, 0.7, 1.5, 2.2, 3.1, 4.0, 4.8, 5.9, 7.0, 8.0])
sd = 0.01
y = np.sin(x / 3) + rng.normal(0, sd * 1.5, x.size)
w = np.full(x.size, 1 / sd**2)
gap = lambda e: np.sum(w * (make_smoothing_spline(x, y, w=w, lam=10**e)(x) - y) ** 2) - x.size
e = brentq(gap, -8, 8)
f = make_smoothing_spline(x, y, w=w, lam=10**e)
print(f"# scipy {scipy.__version__}, numpy {np.__version__}; made by smoothing.py; sd {sd}")
print("x,y,smooth")
for a, b in zip(x, y):
    print(f"{a},{b:.15f},{f(a):.12f}")
