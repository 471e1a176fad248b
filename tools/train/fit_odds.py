"""Fits the odds of matcher/belly (head end, strip laid right, gate) on tables of evet-laying-facts, and prints them.

usage: fit_odds.py head|laid UNSEEN.csv [UNSEEN.csv...] [--seen SEEN.csv...]
       fit_odds.py gate TABLE.csv [TABLE.csv...]
UNSEEN: tables of networks that never saw the world they were asked about; SEEN: of the shipped one, only for the
constant of `laid`. Logistic models, ridge 1 on standardised weights.
"""

import csv
import sys

import numpy as np

LAID_RIGHT = 0.12  # belly lengths


def photos_of(paths):
    """One list of rows a photo, numbers as floats."""
    out = []
    for path in paths:
        grouped = {}
        with open(path, newline="") as file:
            for row in csv.DictReader(file):
                key = (row["subject"], row["individual"], row["difficulty"])
                grouped.setdefault(key, []).append({k: float(v) for k, v in row.items()})
        out += grouped.values()
    return [min(rows, key=lambda row: row["rank"]) for rows in out]


def fit(inputs, target, constant=True, only_positive=False, ridge=1.0):
    """Weights, the constant first; without a constant the inputs are not centred."""
    mean = inputs.mean(0) if constant else np.zeros(inputs.shape[1])
    spread = inputs.std(0) + (0 if constant else np.abs(inputs.mean(0))) + 1e-9
    z = np.hstack([np.full((len(inputs), 1), float(constant)), (inputs - mean) / spread])
    kept = np.ones(z.shape[1], bool)
    while True:
        x, penalty = z[:, kept], ridge * np.eye(kept.sum())
        penalty[0, 0] = 1e-9 if constant else 1.0
        w = np.zeros(kept.sum())
        for _ in range(100):
            p = 1 / (1 + np.exp(-x @ w))
            w += np.linalg.solve((x * (p * (1 - p))[:, None]).T @ x + penalty, x.T @ (target - p) - penalty @ w)
        wrong = np.flatnonzero(kept)[1:][w[1:] < 0]
        if not only_positive or len(wrong) == 0:
            break
        kept[wrong] = False
    full = np.zeros(z.shape[1])
    full[kept] = w
    return np.concatenate([[full[0] - (full[1:] * mean / spread).sum()], full[1:] / spread])


def head(unseen, _):
    names = [f"{look}_{what}" for look in ("close", "wide")
             for what in ("coordinates", "head", "tail", "fore_limbs", "hind_limbs")]
    rows = [r for r in unseen if r["subject"] == 0 and r["along"] >= 0 and r["landing"] <= 0.1]
    inputs = np.array([[8 * np.tanh(r[n] / 8) if n.endswith("coordinates") else r[n] for n in names] for r in rows])
    sign = np.array([1.0 if r["head_right"] else -1.0 for r in rows])[:, None]
    # Evidence turned round must say the opposite, so there is no constant.
    weights = fit(inputs * sign, np.ones(len(rows)), constant=False, only_positive=True)[1:]
    return dict(zip(names, weights)), len(rows)


def laid(unseen, seen):
    def table(rows):
        rows = [r for r in rows if r["subject"] == 0 and r["along"] >= 0]
        return (np.array([[np.sqrt(r["mask_covered"] * r["strip_on_belly"]), r["field_agrees"], r["bend_deg"] / 90,
                           max(r["close_coordinates"], 0) / 10, r["length_over_extent"] - 1] for r in rows]),
                np.array([float(r["landing"] < LAID_RIGHT) for r in rows]))

    inputs, target = table(unseen)
    weights = fit(inputs, target)
    if seen:
        sets = [table(unseen), table(seen)]

        def cost(shift):
            return sum(np.mean(np.log1p(np.exp(-np.where(y > 0.5, 1, -1) * (weights[0] + shift + x @ weights[1:]))))
                       for x, y in sets)

        weights[0] += min(np.linspace(-1, 3, 81), key=cost)
    return dict(zip(("constant", "outline_match", "field_agrees", "bend", "steepness", "longer"), weights)), len(target)


def gate(rows, _):
    def log_odds(p):
        p = min(max(p, 1e-4), 1 - 1e-4)
        return np.log(p / (1 - p))

    rows = [r for r in rows if r["looked_closer"] and r["along"] >= 0 and r["subject"] != 5]
    inputs = np.array([[log_odds(r[k]) for k in ("first_look", "second_look", "small_kind")] for r in rows])
    target = np.array([float(r["subject"] == 0) for r in rows])
    return dict(zip(("constant", "first_look", "second_look", "small_kind"), fit(inputs, target))), len(rows)


def main():
    kinds = {"head": head, "laid": laid, "gate": gate}
    if len(sys.argv) < 3 or sys.argv[1] not in kinds:
        sys.exit(__doc__)
    paths = sys.argv[2:]
    split = paths.index("--seen") if "--seen" in paths else len(paths)
    weights, count = kinds[sys.argv[1]](photos_of(paths[:split]), photos_of(paths[split + 1:]))
    print(f"{count} photos")
    for name, weight in weights.items():
        print(f"{name:20} {weight:8.3f}")


if __name__ == "__main__":
    main()
