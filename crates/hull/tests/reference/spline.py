"""Reference values for the splines: scipy.interpolate. Run: python spline.py > spline.csv"""
import numpy as np, scipy
from scipy.interpolate import CubicSpline, make_lsq_spline, PchipInterpolator

x = np.array([0, 1, 2.5, 4, 5.5, 7, 8.0])
y = np.array([0, 0.62, 1.05, 1.2, 1.13, 0.78, 0.35])
at = [0.5, 1.75, 3.25, 4.75, 6.25, 7.5]
print(f"# scipy {scipy.__version__}, numpy {np.__version__}; made by spline.py")
print("curve,x,value,slope")
curves = {
    "natural": CubicSpline(x, y, bc_type="natural"),
    "clamped": CubicSpline(x, y, bc_type=((1, 0.8), (1, -0.5))),
    "not-a-knot": CubicSpline(x, y, bc_type="not-a-knot"),
}
for name, c in curves.items():
    for t in at:
        print(f"{name},{t},{c(t):.12f},{c(t, 1):.12f}")
    print(f"{name} integral,0,{c.integrate(0, 8):.12f},0")
lsq = make_lsq_spline(x, y, [0, 0, 0, 0, 4, 8, 8, 8, 8], k=3)
for i, c in enumerate(lsq.c):
    print(f"least squares coefficient,{i},{c:.12f},0")
for t in at + [3.0]:
    print(f"least squares,{t},{lsq(t):.12f},0")
w = np.array([1, 2, 1, 0.5, 1, 3, 1.0])
lsq = make_lsq_spline(x, y, [0, 0, 0, 0, 4, 8, 8, 8, 8], k=3, w=np.sqrt(w))
for t in at:
    print(f"weighted,{t},{lsq(t):.12f},0")
