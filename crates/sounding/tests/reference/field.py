"""Reference for the field: the textbook formula with numpy's solver. Run: python field.py > field.csv"""
import numpy as np

blows = [(0.2, 0.1, 0.1), (0.5, 0.1, 0.2), (0.9, 0.12, 0.8), (1.3, 0.3, 0.9), (1.0, 0.32, 0.7), (0.4, 0.5, 0.1), (2.0, 0.5, 0.3)]
seams, frames = [0.2, 0.4], [0.6, 1.2, 1.8]
along, across, barrier, spread, scatter = 0.8, 0.3, 0.25, 0.4, 0.1


def warp(x, y):
    return np.array([x / along + barrier * sum(f < x for f in frames), y / across + barrier * sum(s < y for s in seams)])


def k(a, b):
    r = np.sqrt(3) * np.abs(a - b)
    return spread**2 * np.prod((1 + r) * np.exp(-r))


at = [warp(x, y) for x, y, _ in blows]
v = np.array([b[2] for b in blows])
K = np.array([[k(a, b) for b in at] for a in at]) + scatter**2 * np.eye(len(at))
print(f"# numpy {np.__version__}; made by field.py\nalong_m,across_m,value,sd")
for x, y in [(0.3, 0.1), (1.1, 0.3), (0.7, 0.45), (1.25, 0.15)]:
    c = np.array([k(warp(x, y), a) for a in at])
    print(x, y, f"{v.mean() + c @ np.linalg.solve(K, v - v.mean()):.12g}", f"{np.sqrt(spread**2 - c @ np.linalg.solve(K, c)):.12g}", sep=",")
