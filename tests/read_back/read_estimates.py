#!/usr/bin/env python3
"""Reads what `evet estimate` writes, as JSON and as CSV, the way somebody else's script would, and works parts of it
out again by another road: the likelihood of movement between ponds by walking every path, and the yearly trend.

Usage: read_estimates.py EVET. Standard library alone.
"""
import csv
import json
import math
import pathlib
import random
import subprocess
import sys
import tempfile

PONDS = ("Heron Pool", "Mill Ditch")
SURVIVAL, RECAPTURE, MOVING = 0.75, 0.5, {0: 0.25, 1: 0.1}
DATES = ["2031-04-10", "2032-04-08", "2033-04-14", "2034-04-09", "2035-04-11", "2036-04-10"]
# Names that a table must quote, or it falls apart.
STAGES = ("adult", 'adult, "old"')


def drawn_histories(seed=7, each=45):
    chance = random.Random(seed)
    rows = []
    for first in range(len(DATES) - 1):
        for pond in range(2):
            for _ in range(each):
                at, seen = pond, [None] * len(DATES)
                seen[first] = at
                for later in range(first + 1, len(DATES)):
                    if chance.random() >= SURVIVAL:
                        break
                    if chance.random() < MOVING[at]:
                        at = 1 - at
                    if chance.random() < RECAPTURE:
                        seen[later] = at
                rows.append(("N-%03d" % (len(rows) + 1), seen, chance.choice(STAGES)))
    return rows


def write_histories(rows, path):
    with open(path, "w", newline="", encoding="utf-8") as file:
        table = csv.writer(file)
        table.writerow(["animal", *DATES, "stage"])
        for name, seen, stage in rows:
            table.writerow([name, *("0" if s is None else PONDS[s] for s in seen), stage])


def number(text):
    """Empty: not told. 'inf' is a number to Python, R and spreadsheets' scripts alike."""
    return None if text in ("", None) else float(text)


def check(condition, message):
    if not condition:
        sys.exit("read_estimates.py: " + message)


def close(one, other, within=1e-6):
    return abs(one - other) <= within * (1 + abs(other))


def chance_of_rest(seen, occasion, at, last, survival, recapture, moving):
    if occasion == len(seen):
        return 1.0
    total = 1 - survival[at] if occasion > last else 0.0
    for to in (0, 1):
        if seen[occasion] is not None and seen[occasion] != to:
            continue
        caught = recapture[to] if seen[occasion] is not None else 1 - recapture[to]
        total += survival[at] * moving[at][to] * caught * chance_of_rest(
            seen, occasion + 1, to, last, survival, recapture, moving)
    return total


def movement_log_likelihood(rows, survival, recapture, moves):
    moving = [[1 - moves[0], moves[0]], [moves[1], 1 - moves[1]]]
    known, total = {}, 0.0
    for _, seen, _ in rows:
        key = tuple(seen)
        if key not in known:
            told = [i for i, pond in enumerate(seen) if pond is not None]
            known[key] = math.log(chance_of_rest(seen, told[0] + 1, seen[told[0]], told[-1], survival, recapture, moving))
        total += known[key]
    return total


def by_pond(row, quantity, group):
    """The two chances of a quantity that is the same in both ponds or has a value in each."""
    values = {}
    for estimate in row["estimates"]:
        if estimate["of"]["quantity"] == quantity and estimate["of"]["kind"] == "value":
            values[estimate["of"]["groups"].get(group)] = estimate["value"]
    return [values.get(pond, values.get(None)) for pond in PONDS]


def check_movement(report, rows):
    found = [row for row in report["models"] if row.get("family") == "movement"]
    check(len(found) == 8, "eight models of movement are fitted unasked, not %d" % len(found))
    for row in found:
        chances = [by_pond(row, "survival", "place"), by_pond(row, "recapture", "place"), by_pond(row, "moving", "from")]
        best = movement_log_likelihood(rows, *chances)
        check(close(best, row["log_likelihood"], 1e-8),
              "%s: %r by paths, %r in the report" % (row["description"], best, row["log_likelihood"]))
        # It is the summit: no step along a parameter of the model climbs.
        for which, free in enumerate(chances):
            alike = free[0] == free[1]
            for step in (-0.05, 0.05):
                for pond in ((0, 1),) if alike else ((0,), (1,)):
                    moved = [list(one) for one in chances]
                    for at in pond:
                        logit = math.log(moved[which][at] / (1 - moved[which][at])) + step
                        moved[which][at] = 1 / (1 + math.exp(-logit))
                    check(movement_log_likelihood(rows, *moved) < best + 1e-7, row["description"] + ": not the summit")


def t_point(level, freedom):
    """Student's t by Simpson's rule and bisection."""
    scale = math.gamma((freedom + 1) / 2) / math.sqrt(freedom * math.pi) / math.gamma(freedom / 2)

    def share(x, pieces=2000):
        step = x / pieces
        total = 0.0
        for i in range(pieces + 1):
            weight = 1 if i in (0, pieces) else 4 if i % 2 else 2
            total += weight * (1 + (i * step) ** 2 / freedom) ** (-(freedom + 1) / 2)
        return 0.5 + scale * total * step / 3

    low, high = 0.0, 100.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if share(middle) < 0.5 + level / 2 else (low, middle)
    return low


def check_trend(report):
    from datetime import date
    days = [date.fromisoformat(d).toordinal() for d in DATES]
    numbers = [e for e in report["answer"] if e["of"]["quantity"] == "N" and e["of"]["index"] and not e["of"]["groups"]
               and e["value"] is not None]
    at = [(days[e["of"]["index"] - 1] - days[0]) / 365.25 for e in numbers]
    y = [math.log(e["value"]) for e in numbers]
    v = [math.log1p((e["standard_error"] / e["value"]) ** 2) for e in numbers]

    def line(process):
        w = [1 / (one + process) for one in v]
        x0 = sum(a * b for a, b in zip(w, at)) / sum(w)
        y0 = sum(a * b for a, b in zip(w, y)) / sum(w)
        xx = sum(a * (x - x0) ** 2 for a, x in zip(w, at))
        slope = sum(a * (x - x0) * (z - y0) for a, x, z in zip(w, at, y)) / xx
        return sum(a * (z - y0 - slope * (x - x0)) ** 2 for a, x, z in zip(w, at, y)), slope, math.sqrt(1 / xx)

    low, high = 0.0, 100.0
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if line(middle)[0] > len(y) - 2 else (low, middle)
    _, slope, error = line(low)
    told = next(e for e in report["answer"] if e["of"]["quantity"] == "yearly trend")
    half = t_point(report["level"], len(y) - 2) * error
    check(close(told["value"], math.exp(slope)), "yearly trend: %r, not %r" % (told["value"], math.exp(slope)))
    check(close(told["intervals"][0]["lower"], math.exp(slope - half), 1e-4), "lower limit of the yearly trend")
    check(close(told["intervals"][0]["upper"], math.exp(slope + half), 1e-4), "upper limit of the yearly trend")
    spread = next(e for e in report["answer"] if e["of"]["quantity"] == "spread between years")
    check(abs(spread["value"] - math.sqrt(low)) < 1e-5, "spread between years")


def check_tables(report, folder):
    with open(folder / "estimates.csv", newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    answers = [row for row in rows if row["model"] == "answer"]
    check(len(answers) == len(report["answer"]), "estimates.csv and the JSON answer differ in length")
    for row, estimate in zip(answers, report["answer"]):
        check(row["parameter"] == estimate["parameter"], "order of estimates.csv")
        for column, value in (("estimate", estimate["value"]), ("standard_error", estimate["standard_error"]),
                              ("lower", estimate["intervals"][0]["lower"]), ("upper", estimate["intervals"][0]["upper"])):
            told = number(row[column])
            check((told is None) == (value is None), "%s of %s is told in one place" % (column, row["parameter"]))
            check(value is None or told == float(value) or close(told, float(value)), column + " of " + row["parameter"])
    check(any(STAGES[1] in row["group"] for row in rows), "a name with a comma and quotation marks came through")
    of_models = sum(len(row["estimates"]) for row in report["models"])
    check(len(rows) == len(answers) + of_models, "every estimate of every model has its row")
    for row in rows:
        value, low, high = number(row["estimate"]), number(row["lower"]), number(row["upper"])
        if value is not None and low is not None:
            check(low <= value + 1e-9 and value <= high + 1e-9, "the interval of %(parameter)s holds it" % row)
    with open(folder / "models.csv", newline="", encoding="utf-8") as file:
        models = list(csv.DictReader(file))
    fitted = [row for row in report["models"] if "family" in row]
    check(len(models) == len(fitted), "models.csv lists the models with a likelihood")
    weights = {}
    for row, model in zip(models, fitted):
        check(row["description"] == model["description"], "order of models.csv")
        k, n = int(row["parameters"]), model["sample_size"]
        if math.isfinite(number(row["aicc"])):
            again = number(row["minus_two_log_likelihood"]) + 2 * k + 2 * k * (k + 1) / (n - k - 1)
            check(close(again, number(row["aicc"])), "AICc of " + row["description"])
        weights[row["family"]] = weights.get(row["family"], 0) + number(row["weight"])
    for family, weight in weights.items():
        check(close(weight, 1), "weights of %s sum to %r" % (family, weight))
    with open(folder / "tests.csv", newline="", encoding="utf-8") as file:
        for row in csv.DictReader(file):
            check(0 <= number(row["p_value"]) <= 1, "p of " + row["test"])


def main():
    check(len(sys.argv) == 2, "give the program evet")
    rows = drawn_histories()
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        write_histories(rows, folder / "histories.csv")
        done = subprocess.run([sys.argv[1], "estimate", "--csv", str(folder / "histories.csv"), "--json", "--tables",
                               str(folder / "tables")], capture_output=True, text=True)
        check(done.returncode == 0, "evet estimate ended with %d: %s" % (done.returncode, done.stderr))
        report = json.loads(done.stdout)
        check(report["design"] == "open", "six springs of one night each are an open study")
        check_tables(report, folder / "tables")
        check_movement(report, rows)
        check_trend(report)
    print("read back: %d estimates of the answer, %d models" % (len(report["answer"]), len(report["models"])))


if __name__ == "__main__":
    main()
