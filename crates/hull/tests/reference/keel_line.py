"""Reference for the keel line: numpy.linalg.lstsq with covariance. Run: python keel_line.py > keel_line.csv"""
import numpy as np

print(f"# numpy {np.__version__}; made by keel_line.py")
print("case,shape,a_mm,b_mm,delta_mm,sd_a,sd_b,sd_delta,chi_squared")
cases = {
    "hog": (np.arange(9.0), np.array([0, 9, 15, 21, 22, 21, 17, 8, 1.0]), np.full(9, 2.0)),
    "sag": (np.arange(11.0), np.array([0, -4, -7, -11, -12, -12, -13, -10, -8, -3, 1.0]), np.full(11, 2.0)),
    "uneven": (np.array([0.2, 0.9, 2.3, 3.1, 4.4, 6.0, 7.7]), np.array([3, 8, 19, 20, 24, 17, 4.0]), np.array([1, 2, 1, 3, 1, 2, 1.0])),
}
for name, (x, z, sd) in cases.items():
    xi = (x - x.min()) / (x.max() - x.min())
    shapes = {"parabola": 4 * xi * (1 - xi), "beam": 16 / 5 * (xi - 2 * xi**3 + xi**4)}
    for shape, phi in shapes.items():
        J = np.stack([np.ones_like(xi), xi, phi], axis=1) / sd[:, None]
        t, *_ = np.linalg.lstsq(J, z / sd, rcond=None)
        C = np.linalg.inv(J.T @ J)
        chi = np.sum((z / sd - J @ t) ** 2)
        print(name, shape, *(f"{v:.10f}" for v in [*t, *np.sqrt(np.diag(C)), chi]), sep=",")
