"""Strakes of equal girth share and girths of the Wigley boat, L 8, B 2.4, T 1, by quadrature.
Run: python wigley_strakes.py strakes > ../data/wigley-strakes.csv (or: girths > ../data/wigley-girths.csv)"""
import sys
import numpy as np, scipy
from scipy.integrate import quad
from scipy.optimize import brentq

L, B, T, N = 8.0, 2.4, 1.0, 6
print(f"# scipy {scipy.__version__}, numpy {np.__version__}; made by wigley_strakes.py")
half = lambda x, z: B / 2 * (1 - (2 * x / L) ** 2) * (1 - (z / T) ** 2)
k = lambda x: B / T * (1 - (2 * x / L) ** 2)

def girth(x, z):
    """Closed form from the keel (z = -T) up to z: the section is a parabola, y' = -k z / T."""
    f = lambda c: T / 2 * (c * np.sqrt(1 + (k(x) * c) ** 2) + (np.arcsinh(k(x) * c) / k(x) if k(x) > 1e-9 else c))
    return f(1.0) - f(-z / T)

def height(x, share):
    return brentq(lambda z: girth(x, z) - share * girth(x, 0), -T, 0, xtol=1e-13) if 0 < share < 1 else (-T if share <= 0 else 0.0)

def density(x, z):
    yx = -B / 2 * 8 * x / L**2 * (1 - (z / T) ** 2)
    yz = -B / 2 * (1 - (2 * x / L) ** 2) * 2 * z / T**2
    return np.sqrt(1 + yx**2 + yz**2)

nodes, weights = np.polynomial.legendre.leggauss(60)
if sys.argv[1] == "strakes":
    print("strake_from_garboard,true_area_m2,centreline_length_m,area_on_expansion_drawing_m2")
    for j in range(1, N + 1):
        area = sum(w * L / 2 * quad(lambda z: density(x, z), height(x, (j - 1) / N), height(x, j / N), epsabs=1e-12)[0]
                   for x, w in zip(nodes * L / 2, weights))
        drawn = sum(w * L / 2 * girth(x, 0) / N for x, w in zip(nodes * L / 2, weights))
        xs = np.linspace(-L / 2, L / 2, 4001)
        zs = np.array([height(x, (j - 0.5) / N) for x in xs])
        length = np.sum(np.sqrt(np.diff(xs) ** 2 + np.diff(half(xs, zs)) ** 2 + np.diff(zs) ** 2))
        print(f"{j},{area:.6f},{length:.5f},{drawn:.6f}")
else:
    print("station,x_from_midships_m,half_breadth_at_waterline_m,half_section_area_m2,girth_keel_to_waterline_m")
    for i in range(11):
        x = -L / 2 + L * i / 10
        print(f"{i},{x:.2f},{half(x, 0):.6f},{half(x, 0) * 2 / 3 * T:.6f},{girth(x, 0):.6f}")
