"""Drying of a plank with moisture-dependent diffusivity, by general-purpose tools: the reference for the solver.

Method of lines on a fine grid of its own (500 equal cells, arithmetic means between cells), integrated by
scipy.integrate.solve_ivp (Radau, relative tolerance 1e-9). Nothing here is shared with the Rust solver but the
equations. Run:  pip install scipy numpy && python nonlinear_drying.py > ../data/nonlinear-drying.csv
"""

import platform

import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.sparse import diags

R = 1.9872


def by_gravity(g, m, t_c):
    """Siau (1984) Eqs 6.11-6.22, m2/s across the grain."""
    t = t_c + 273.15
    f = 1.8 * t_c + 32
    l1 = 0.839 + 0.0000202 * f - 0.00000156 * f * f
    l2 = 3.56 + 0.00392 * f - 0.0000445 * f * f
    l3 = 0.0219 + 0.0000164 * f
    dh_du = -100 * l2 * l1**m * np.log(l1) * np.exp(-(l2 * l1**m + l3))
    bound = 0.07 * np.exp(-(9200 - 70 * m) / (R * t))
    air = 0.220 * (t / 273) ** 1.75
    p0 = 8.75e7 * np.exp(-10400 / (R * t))
    wall = 1.54 / (1 + 0.015 * m)
    vapour = 18 * air * p0 * dh_du / (wall * 6236.37 * t)
    lumen = 1 - g / 1.54
    a = np.sqrt(lumen)
    return 1e-4 * bound * vapour / ((1 - lumen) * (bound + vapour * (1 - a)))


def oak(_g, m, t_c):
    """Red oak desorption equation of the Simpson (1993) type, m2/s."""
    return 19.2e-4 * np.exp(-5280 / (t_c + 273.15)) * np.exp(1.15 * m / 100)


def dry(d, g, t_c, half_m, s, m0, me, days):
    n = 500
    dx = half_m / n

    def rate(_t, m):
        dd = d(g, m, t_c)
        flux = np.zeros(n + 1)  # positive outwards
        flux[1:n] = -0.5 * (dd[1:] + dd[:-1]) * (m[1:] - m[:-1]) / dx
        flux[n] = (m[-1] - me) / (0.5 * dx / dd[-1] + 1 / s)
        return -(flux[1:] - flux[:-1]) / dx

    band = diags([np.ones(n - 1), np.ones(n), np.ones(n - 1)], [-1, 0, 1])
    out = solve_ivp(rate, (0, days[-1] * 86400), np.full(n, m0), method="Radau", rtol=1e-9, atol=1e-9,
                    t_eval=[x * 86400 for x in days], jac_sparsity=band)
    return out.y.mean(axis=0), out.y[0], out.y[-1]


DAYS = [0.5, 1, 2, 4, 7, 14, 30, 60, 90, 180]
CASES = [
    # name, equation, gravity, temperature, half thickness m, emission m/s, from %, towards %
    ("larch_drying", by_gravity, 0.55, 15.0, 0.015, 1e-7, 28.0, 12.0),
    ("cedar_drying_fast", by_gravity, 0.33, 25.0, 0.009, 1e-7, 26.0, 8.0),
    ("oak_drying_in_shed", oak, 0.0, 12.0, 0.020, 3e-8, 28.0, 14.0),
    ("mahogany_wetting", by_gravity, 0.50, 20.0, 0.0125, 1e-7, 9.0, 20.0),
]

print(f"# scipy {scipy.__version__}, numpy {np.__version__}, Python {platform.python_version()}: "
      "solve_ivp Radau on 500 cells, see tests/reference/nonlinear_drying.py")
print("case,gravity,temp_c,half_thickness_m,emission_m_s,mc_start_percent,target_percent,day,mean_percent,"
      "core_percent,outer_cell_percent")
for name, d, g, t, half, s, m0, me in CASES:
    mean, core, outer = dry(d, g, t, half, s, m0, me, DAYS)
    for day, a, b, c in zip(DAYS, mean, core, outer):
        print(f"{name},{g},{t},{half},{s},{m0},{me},{day},{a:.7f},{b:.7f},{c:.7f}")
