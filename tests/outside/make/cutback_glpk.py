#!/usr/bin/env python3
"""Writes tests/outside/cutback_glpk.json: floors of several layers as cut problems, each solved by
GLPK 5.0 (glpsol, exact on integers below 2^53). Run from the repository: python3 tests/outside/make/cutback_glpk.py
The test only reads the JSON, so GLPK is needed here and not in the checks."""
import json
import os
import random
import re
import subprocess
import tempfile


def floor(seed):
    """Two or three layers over a deck of planks; rot spreads from one spot and fades."""
    rng = random.Random(seed)
    rows, bays, layers = rng.randint(5, 10), rng.randint(4, 7), rng.randint(1, 3)
    index = lambda layer, row, bay: (layer * rows + row) * bays + bay
    centre = (rng.uniform(0, rows), rng.uniform(0, bays))
    case = {"id": f"floor-{seed}", "out_cents": [], "stay_cents": [], "must_go": [], "must_stay": [], "pairs": [], "implies": []}
    for layer in range(layers):
        for row in range(rows):
            for bay in range(bays):
                away = ((row - centre[0]) / 2.5) ** 2 + ((bay - centre[1]) / 1.5) ** 2
                chance = min(0.98, rng.uniform(0.6, 1.3) / (1 + away))
                case["out_cents"].append(int(1800 * (1 - chance) * rng.uniform(0.8, 1.2)) + rng.choice([0, 0, 700]))
                case["stay_cents"].append(int(5400 * chance * rng.uniform(0.8, 1.2)))
                here = index(layer, row, bay)
                if rng.random() < 0.02:
                    case["must_go"].append(here)
                if bay + 1 < bays:
                    case["pairs"].append([here, index(layer, row, bay + 1), rng.choice([275, 730])])
                if row + 1 < rows:
                    case["pairs"].append([here, index(layer, row + 1, bay), rng.choice([0, 470])])
                if layer > 0:  # layer 0 lies on top; the one above goes with a lap to one side
                    case["implies"].append([here, index(layer - 1, row, bay)])
                    if bay + 1 < bays and rng.random() < 0.5:
                        case["implies"].append([here, index(layer - 1, row, bay + 1)])
    bound = set(case["must_go"])
    changed = True
    while changed:
        before = len(bound)
        bound |= {u for low, u in case["implies"] if low in bound}
        changed = len(bound) > before
    free = [i for i in range(len(case["out_cents"])) if i not in bound]
    case["must_stay"] = sorted(rng.sample(free, min(3, len(free))))
    return case


def lp(case):
    base = sum(case["stay_cents"])
    lines = ["Minimize", " obj: base"]
    for i, (out, stay) in enumerate(zip(case["out_cents"], case["stay_cents"])):
        lines.append(f" {'+' if out >= stay else '-'} {abs(out - stay)} x{i}")
    for k, (a, b, cents) in enumerate(case["pairs"]):
        lines.append(f" + {cents} d{k}")
    lines.append("Subject To")
    for k, (a, b, cents) in enumerate(case["pairs"]):
        lines += [f" d{k} - x{a} + x{b} >= 0", f" d{k} - x{b} + x{a} >= 0"]
    lines += [f" x{u} - x{low} >= 0" for low, u in case["implies"]]
    lines += ["Bounds", f" base = {base}"]
    for i in range(len(case["out_cents"])):
        lines.append(f" x{i} = 1" if i in case["must_go"] else f" x{i} = 0" if i in case["must_stay"] else f" 0 <= x{i} <= 1")
    # All x as whole numbers: the optimum is then GLPK's own, not an argument about the relaxation.
    lines += ["General"] + [f" x{i}" for i in range(len(case["out_cents"]))] + ["End", ""]
    return "\n".join(lines)


def solve(case):
    with tempfile.TemporaryDirectory() as folder:
        with open(os.path.join(folder, "p.lp"), "w") as f:
            f.write(lp(case))
        subprocess.run(["glpsol", "--lp", "p.lp", "-o", "p.txt"], cwd=folder, check=True, stdout=subprocess.DEVNULL)
        text = open(os.path.join(folder, "p.txt")).read()
    assert "INTEGER OPTIMAL" in text, case["id"]
    return round(float(re.search(r"Objective:\s+obj = (\S+)", text).group(1)))


def main():
    cases = [floor(seed) for seed in range(1, 19)]
    for case in cases:
        case["optimum_cents"] = solve(case)
        print(case["id"], len(case["out_cents"]), "pieces", case["optimum_cents"], "cents")
    version = subprocess.run(["glpsol", "--version"], capture_output=True, text=True).stdout.split("\n")[0]
    out = {"source": version, "made_by": "tests/outside/make/cutback_glpk.py", "cases": cases}
    here = os.path.dirname(os.path.abspath(__file__))
    with open(os.path.join(here, "..", "cutback_glpk.json"), "w") as f:
        json.dump(out, f, separators=(",", ":"))
        f.write("\n")


main()
