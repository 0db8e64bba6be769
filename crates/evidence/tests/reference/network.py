"""Posteriors of 1,000 random observation sets by a general-purpose Bayesian network library (pyAgrum, lazy propagation
and variable elimination of its own), from the same data files, fitted and built here independently of the Rust code.

Writes network.csv: versions in the first line; then one line a set: the set, the plank's seven probabilities, and for
the network P(fastening holding) and P(frame sound). Run: python3 network.py > network.csv
"""
import csv, math, os, random, sys
import numpy, pyagrum as gum, scipy
from scipy.optimize import brentq

HERE = os.path.dirname(os.path.abspath(__file__))
DATA = os.path.join(HERE, "..", "..", "data")
PLANK = ["sound", "surface_checks", "loose", "decayed", "iron_sick", "borer", "repaired"]
FAST = ["holding", "wasted", "slack"]
FRAME = ["sound", "decayed", "iron_sick", "cracked"]


def rows(name):
    with open(os.path.join(DATA, name)) as f:
        return list(csv.DictReader(line for line in f if not line.startswith("#")))


readings = {}
for r in rows("likelihoods.csv"):
    key = (r["group"], r["observation"])
    readings.setdefault(key, (r["node"], {}))[1][r["hypothesis"]] = float(r["p_observation_given_hypothesis"])
names = list(readings)
fast = {r["plank"]: [float(r[s]) for s in FAST] for r in rows("fastening_given_plank.csv")}
frame = {(r["plank"], r["fastening"]): [float(r[s]) for s in FRAME] for r in rows("frame_given_plank_and_fastening.csv")}
resting = {(r["group"], r["observation"]): [float(r[s]) for s in FAST] for r in rows("readings_resting_on_fastening.csv")}


def frame_row(p, s):
    return frame.get((p, s)) or frame.get((p, "any")) or frame[("any", s)]


def fit(weights, given, wanted):
    sigma = lambda x: 1.0 / (1.0 + math.exp(-x))
    shifted = lambda d: [sigma(math.log(g / (1 - g)) + d) for g in given]
    return shifted(brentq(lambda d: numpy.dot(weights, shifted(d)) - wanted, -40, 40, xtol=1e-15, rtol=1e-15, maxiter=1000))


def network(prior, plank_only, used):
    bn = gum.BayesNet()
    bn.add(gum.LabelizedVariable("plank", "", PLANK))
    bn.cpt("plank").fillWith(prior)
    if not plank_only:
        bn.add(gum.LabelizedVariable("fastening", "", FAST))
        bn.add(gum.LabelizedVariable("frame", "", FRAME))
        for a, b in (("plank", "fastening"), ("plank", "frame"), ("fastening", "frame")):
            bn.addArc(a, b)
        for p in PLANK:
            bn.cpt("fastening")[{"plank": p}] = fast[p]
            for s in FAST:
                bn.cpt("frame")[{"plank": p, "fastening": s}] = frame_row(p, s)
    for key in used:
        node, table = readings[key]
        name = key[1]
        bn.add(gum.LabelizedVariable(name, "", ["no", "yes"]))
        if node == "frame":
            bn.addArc("frame", name)
            for f in FRAME:
                bn.cpt(name)[{"frame": f}] = [1 - table[f], table[f]]
        elif key in resting and not plank_only:
            bn.addArc("plank", name)
            bn.addArc("fastening", name)
            for p in PLANK:
                for s, q in zip(FAST, fit(fast[p], resting[key], table[p])):
                    bn.cpt(name)[{"plank": p, "fastening": s}] = [1 - q, q]
        else:
            bn.addArc("plank", name)
            for p in PLANK:
                bn.cpt(name)[{"plank": p}] = [1 - table[p], table[p]]
    return bn


def main():
    draw = random.Random(41)
    out = sys.stdout
    out.write(f"# python {sys.version.split()[0]}, pyagrum {gum.__version__}, scipy {scipy.__version__}, numpy {numpy.__version__}\n")
    out.write("set,p\n")
    groups = sorted({g for g, _ in names})
    for n in range(1000):
        plank_only = n % 2 == 0
        weights = [draw.randint(1, 20) for _ in PLANK]
        usable = [g for g in groups if g != "frame"] if plank_only else groups
        chosen = draw.sample(usable, draw.randint(1, len(usable)))
        # One reading a group: how several of one group are reduced to one is tested by itself.
        used = sorted((draw.choice([k for k in names if k[0] == g]) for g in chosen), key=names.index)
        yes = [draw.random() < 0.5 for _ in used]
        prior = [w / sum(weights) for w in weights]
        bn = network(prior, plank_only, used)
        engine = gum.LazyPropagation(bn) if n % 4 < 2 else gum.VariableElimination(bn)
        for key, y in zip(used, yes):
            engine.addEvidence(key[1], "yes" if y else "no")
        figures = list(engine.posterior("plank").tolist())
        if not plank_only:
            figures += [engine.posterior("fastening").tolist()[0], engine.posterior("frame").tolist()[0]]
        code = " ".join(("" if y else "-") + str(names.index(k)) for k, y in zip(used, yes))
        mode = "t" if plank_only else "n"
        out.write(f"{mode} {' '.join(map(str, weights))}|{code},{' '.join(f'{x:.10g}' for x in figures)}\n")


main()
