"""Fits the weights of the blow score from candidates of invented walks (examples/candidates.rs).

Run: python fit_blow.py CUES.csv … > ../data/blow_weights.csv     (needs numpy and scikit-learn)
The score is a committee of three small networks of one hidden layer (rectified units), written as one layer three times as
wide; cues are standardised and held within four deviations. Seeds below 900 are for choosing, from 900 on for testing.
"""
import csv, sys
import numpy as np
import sklearn
from sklearn.neural_network import MLPClassifier
from sklearn.preprocessing import StandardScaler

rows = [r for f in sys.argv[1:] for r in csv.DictReader(open(f)) if r.get("band_8") not in (None, "")]
assert all(int(r["seed"]) < 900 for r in rows), "seeds from 900 on are kept for testing"
cues = list(rows[0])[8:]
x = np.array([[float(r[c]) for c in cues] for r in rows])
# A candidate more than 30 ms from a blow is no blow; what lies between 10 and 30 ms late is an echo of one, and left out.
near = np.array([abs(float(r["nearest_s"])) for r in rows])
keep = (near < 0.012) | (near > 0.03)
y = (near < 0.03).astype(int)[keep]
scaler = StandardScaler().fit(x)
z = np.clip(scaler.transform(x), -4, 4)[keep]
hidden, out, bias = [], [], 0.0
for seed in range(3):
    net = MLPClassifier((14,), alpha=0.3, max_iter=250, early_stopping=True, validation_fraction=0.12, n_iter_no_change=25,
                        random_state=seed).fit(z, y)
    hidden += [np.r_[net.intercepts_[0][j], net.coefs_[0][:, j]] for j in range(14)]
    out += list(net.coefs_[1][:, 0] / 3)
    bias += net.intercepts_[1][0] / 3
print(f"# made by fit_blow.py from {len(y)} sudden sounds, {y.sum()} of them blows; scikit-learn {sklearn.__version__}")
for kind, values in [("mean", scaler.mean_), ("scale", scaler.scale_), *(("hidden", h) for h in hidden), ("out", np.r_[bias, out])]:
    print(kind, *(f"{v:.6g}" for v in values), sep=",")
