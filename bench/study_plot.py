#!/usr/bin/python3
"""Makes the tables and pictures of docs/study.md from what the benches wrote.

study_plot.py OPENINGS.csv CALIBRATION.json [CALIBRATION_GUIDED.json] (called by tools/study.sh).
The tables go between the marker comments in docs/study.md; everything else there is left alone."""
import csv
import json
import re
import sys
from collections import defaultdict

import matplotlib

matplotlib.use("svg")
matplotlib.rcParams["svg.hashsalt"] = "awlmark"
matplotlib.rcParams["font.family"] = "sans-serif"
import matplotlib.pyplot as plt
import numpy as np

DOC = "docs/study.md"
ORDER = ["guided", "guided_on", "grid", "spread", "chase", "random"]
LABEL = {"guided": "guided, stops when told", "guided_on": "guided, never stops", "grid": "12-in. grid, outwards from the soft spot", "spread": "12-in. grid, farthest first",
         "chase": "chasing the edge", "random": "anywhere"}
COLOUR = {"guided": "#8a3b12", "guided_on": "#c4632d", "grid": "#3f6f8f", "spread": "#7aa37a", "chase": "#b08a2e", "random": "#8c8c8c"}


def put(text, name, table):
    pattern = re.compile(rf"(<!-- {name}:begin[^>]*-->\n).*?(<!-- {name}:end -->)", re.S)
    assert pattern.search(text), f"no markers {name} in {DOC}"
    return pattern.sub(lambda m: m.group(1) + table + m.group(2), text)


def read_openings(path):
    loss, notebook, opened = defaultdict(dict), defaultdict(dict), defaultdict(dict)
    for row in csv.DictReader(open(path)):
        key = row["strategy"], int(row["n"])
        loss[key][int(row["leak"])] = float(row["loss"])
        notebook[key][int(row["leak"])] = float(row["notebook_loss"])
        opened[key][int(row["leak"])] = int(row["opened"])
    return loss, notebook, opened


def curve(loss, strategy, most, leaks):
    return np.array([[loss[strategy, n][leak] for leak in leaks] for n in range(1, most + 1)])


def first_reaching(mean, level):
    return next((str(n + 1) for n, value in enumerate(mean) if value <= level), f"not by {len(mean)}")


def openings(path):
    loss, notebook, opened = read_openings(path)
    names = [s for s in ORDER if (s, 1) in loss]
    most = max(n for s, n in loss if s == names[0])
    leaks = sorted(set.intersection(*(set(loss[s, most]) for s in names)))
    curves = {s: curve(loss, s, most, leaks) for s in names}
    means = {s: c.mean(axis=1) for s, c in curves.items()}
    lines = [f"Mean loss in dollars over {len(leaks)} leaks (plus or minus the standard error of the mean of the paired difference to guided).\n\n"]
    lines.append("| openings | " + " | ".join(LABEL[s] for s in names) + " |\n|---|" + "---|" * len(names) + "\n")
    for n in [k for k in (1, 2, 4, 6, 8, 10, 12, 15, 18, 20) if k <= most]:
        cells = []
        for s in names:
            cell = f"{means[s][n - 1]:.0f}"
            if s != "guided" and "guided" in curves:
                gap = curves[s][n - 1] - curves["guided"][n - 1]
                cell += f" ± {gap.std(ddof=1) / np.sqrt(len(leaks)):.0f}"
            cells.append(cell)
        lines.append(f"| {n} | " + " | ".join(cells) + " |\n")
    if "guided" in names and most >= 18:
        for g in [s for s in names if s.startswith("guided")]:
            at8 = means[g][7]
            lines.append(f"\n*{LABEL[g]}* after 8 openings: {at8:.0f}. Reached by " +
                         "; ".join(f"{LABEL[s]}: {first_reaching(means[s], at8)}" for s in names if not s.startswith("guided")) + ".\n")
            for s in ("grid", "chase"):
                lines.append(f"It reaches what {LABEL[s]} has after 18 ({means[s][17]:.0f}) after {first_reaching(means[g], means[s][17])}.\n")
        rivals = ("grid", "chase")
        by_nearest = {s: np.mean(list(notebook[s, 18].values())) for s in names if not s.startswith("guided")}
        lines.append("\nDecided without the survey, each spot taken to be as at its nearest opening, 18 openings leave: " +
                     "; ".join(f"{LABEL[s]} {v:.0f}" for s, v in by_nearest.items()) + ".\n")
        total = {s: [means[s][n - 1] + 45 * np.mean([opened[s, n][leak] for leak in leaks]) for n in range(1, most + 1)] for s in names}
        lines.append("\nWith each opening charged at $45, the least that decision and openings cost together on average: " +
                     "; ".join(f"{LABEL[s]} {min(total[s]):.0f} (after {int(np.argmin(total[s])) + 1})" for s in names) + ".\n")
        stopped = [opened["guided", most][leak] for leak in leaks]
        lines.append(f"Guided said stop before {most} on {sum(k < most for k in stopped)} of {len(leaks)} leaks; it made {np.mean(stopped):.1f} openings on average.\n")
        wins = {s: int((curves["guided"][7] < curves[s][7] - 1e-9).sum()) for s in rivals}
        lines.append("After 8 openings guided was cheaper than " + ", ".join(f"{LABEL[s]} on {w}" for s, w in wins.items()) + f" of {len(leaks)} leaks.\n")
    fig, ax = plt.subplots(figsize=(7.2, 4.4))
    for s in names:
        ax.plot(range(1, most + 1), means[s], color=COLOUR[s], lw=2.4 if s.startswith("guided") else 1.5, ls="--" if s == "guided_on" else "-", label=LABEL[s])
    ax.set(xlabel="openings made", ylabel="loss of the decision, $ (mean)", xlim=(1, most), ylim=(0, None))
    ax.set_xticks(range(2, most + 1, 2))
    ax.grid(alpha=0.25)
    ax.legend(frameon=False)
    ax.spines[["top", "right"]].set_visible(False)
    fig.tight_layout()
    fig.savefig("docs/pictures/openings.svg", metadata={"Date": None})
    return "".join(lines)


def calibration(paths):
    fig, ax = plt.subplots(figsize=(4.8, 4.6))
    ax.plot([0, 1], [0, 1], color="#bbbbbb", lw=1)
    ax.fill_between([0.75, 0.85], [0.7, 0.7], [0.9, 0.9], color="#8a3b12", alpha=0.12, lw=0)
    summary = ["| placed | openings | cells called 80 %: truly unsound | cells so called | p10 to p90 holds the true area | true area below / above | mean true, p50 (sf) | Brier |\n"
               "|---|---|---|---|---|---|---|---|\n"]
    tenths = []
    for path, style in zip(paths, ["-", "--"]):
        data = json.load(open(path))
        for k, c in enumerate(data["counts"]):
            summary.append(f"| {data['placed']} | {c['openings']} | {100 * c['called_80']['was']:.0f} % | {c['called_80']['cells']:.0f} | "
                           f"{100 * c['within_p10_p90']:.0f} % of {c['areas']} | {c['below_p10']} / {c['above_p90']} | {c['mean_true_sf']:.1f}, {c['mean_p50_sf']:.1f} | {c['brier']:.3f} |\n")
            said = [t["said"] for t in c["tenths"] if t["cells"]]
            was = [t["was"] for t in c["tenths"] if t["cells"]]
            shade = ["#c98d63", "#8a3b12", "#4a1f09"][min(k, 2)]
            ax.plot(said, was, style, color=shade, marker="o", ms=3.5, lw=1.4, label=f"{c['openings']} openings, {data['placed']}")
        last = data["counts"][-1]
        tenths.append(f"\n{data['placed'].capitalize()} places, {last['openings']} openings, {data['leaks']} leaks:\n\n| said | was | cells |\n|---|---|---|\n")
        tenths += [f"| {100 * t['said']:.1f} % | {100 * t['was']:.1f} % | {t['cells']:.0f} |\n" for t in last["tenths"] if t["cells"]]
    ax.set(xlabel="chance of unsound that the survey gave", ylabel="share of those cells truly unsound", xlim=(0, 1), ylim=(0, 1))
    ax.legend(frameon=False, fontsize=8)
    ax.spines[["top", "right"]].set_visible(False)
    fig.tight_layout()
    fig.savefig("docs/pictures/reliability.svg", metadata={"Date": None})
    return "".join(summary + tenths)


def main():
    text = open(DOC).read()
    if sys.argv[1] != "-":
        text = put(text, "openings", openings(sys.argv[1]))
    if len(sys.argv) > 2:
        text = put(text, "calibration", calibration(sys.argv[2:]))
    open(DOC, "w").write(text)


if __name__ == "__main__":
    main()
