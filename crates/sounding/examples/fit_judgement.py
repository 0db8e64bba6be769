"""Fits the model of the judgement from blows of invented walks (examples/descriptions.rs).

Run: python fit_judgement.py BLOWS.csv > ../data/judgement_weights.csv     (needs numpy)
Five normal distributions of one covariance (linear discriminant), over differences from the references of the same boat and
member, drawn towards those of the whole boat by SHRINK blows. The temper is chosen by leaving out whole boats. Seeds below 900
are for choosing, from 900 on for testing.
"""
import csv, sys
import numpy as np

SHRINK, SHARED = 3.0, 0.5
MECHANISMS = ["Solid", "Loose", "Checked", "Void", "Decay"]
PRIORS = np.array([0.6, 0.0733, 0.0733, 0.0734, 0.18])
rows = [r for r in csv.DictReader(open(sys.argv[1])) if None not in r.values()]
assert all(int(r["seed"]) < 900 for r in rows), "seeds from 900 on are kept for testing"
names = list(rows[0])[10:]
x = np.array([[float(r[n]) if r[n] else np.nan for n in names] for r in rows])
column = lambda n: np.array([r[n] for r in rows])
seed, member, place = column("seed").astype(int), column("member").astype(int), column("place").astype(int)
reference, clean = column("reference") == "1", column("clean") == "1"
state = np.array([MECHANISMS.index(m) for m in column("mechanism")])
sound = np.array([0, 1, 1, 1, 2])[state]
d, between = np.full_like(x, np.nan), []
for s in sorted(set(seed)):
    own = reference & clean & (seed == s)
    if own.sum() < 6:
        continue
    boat = np.nanmedian(x[own], axis=0)
    for m in sorted(set(member)):
        k = own & (member == m)
        here = (seed == s) & (member == m)
        centre = boat
        if k.any():
            middle = np.nanmedian(x[k], axis=0)
            centre = np.where(np.isnan(middle), boat, (k.sum() * middle + SHRINK * boat) / (k.sum() + SHRINK))
            if k.sum() >= 3:
                between.append(middle - boat)
        d[here] = x[here] - centre
use = ~reference & ~np.isnan(d).all(axis=1)
scale = np.nanstd(d[use], axis=0)
z = d / scale


def fit(rows):
    mean = np.array([np.nanmean(z[rows & (state == k)], axis=0) for k in range(5)])
    # What was not measured is left where its group's mean is, for the covariance only.
    away = np.where(np.isnan(z), 0, z - mean[state])[rows]
    share = (~np.isnan(z[rows])).mean(axis=0)
    s = away.T @ away / len(away)
    s /= np.sqrt(np.outer(share, share))
    return mean, 0.85 * s + 0.15 * np.diag(np.diag(s))


def squares(mean, s, rows):
    out = np.zeros((rows.sum(), 5))
    for i, v in enumerate(z[rows]):
        ok = ~np.isnan(v)
        inverse = np.linalg.inv(s[np.ix_(ok, ok)])
        for k in range(5):
            e = v[ok] - mean[k][ok]
            out[i, k] = e @ inverse @ e
    return out


boats = sorted(set(seed[use]))
fold = np.array([boats.index(s) % 6 if s in boats else -1 for s in seed])
left = np.zeros((len(x), 5))
for f in range(6):
    mean, s = fit(use & (fold != f))
    left[use & (fold == f)] = squares(mean, s, use & (fold == f))


def probabilities(temper, squares):
    log = -0.5 * temper * squares + np.log(PRIORS)
    p = np.exp(log - log.max(axis=1, keepdims=True))
    p /= p.sum(axis=1, keepdims=True)
    return np.stack([p[:, 0], p[:, 1:4].sum(axis=1), p[:, 4]], axis=1)


loss = lambda t: -np.log(probabilities(t, left[use])[np.arange(use.sum()), sound[use]] + 1e-12).mean()
temper = min(np.arange(0.3, 1.3, 0.05), key=loss)
p = probabilities(temper, left[use])
print("left-out boats: accuracy %.3f, Brier %.3f, dead called solid %.3f" % (
    (p.argmax(1) == sound[use]).mean(), ((p - np.eye(3)[sound[use]]) ** 2).sum(1).mean(),
    (p.argmax(1)[sound[use] == 2] == 0).mean()), file=sys.stderr)
mean, s = fit(use)
print(f"# made by fit_judgement.py from {use.sum()} blows on {len(boats)} invented boats; numpy {np.__version__}")
print(f"temper,{temper:.2f}\nshared,{SHARED}\nshrink,{SHRINK}")
table = [("priors", PRIORS), ("scale", scale), ("between", np.nanvar(np.array(between), axis=0) / scale**2)]
table += [(m.lower(), mean[k]) for k, m in enumerate(MECHANISMS)] + [("covariance", row) for row in s]
for word, values in table:
    print(word, *(f"{v:.6g}" for v in values), sep=",")
