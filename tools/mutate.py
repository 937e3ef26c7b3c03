#!/usr/bin/env python3
"""Breaks lines on purpose, one at a time, and says which tests notice. Called by tools/mutate.sh.

tools/mutants.json lists them: `file`, `find` (text that stands once in the file), `replace`, `tests` (rooms whose tests are
asked; `golden` asks the golden findings), `why` (what goes wrong for a person). Lines are found by their text: a mutant whose
text is gone or stands twice is stale and told as such. All happens in a copy of the tree under build/mutate.
"""
import argparse
import json
import pathlib
import re
import subprocess
import sys
import time

ROOT = pathlib.Path(__file__).resolve().parents[1]
COPY = ROOT / "build/mutate/tree"
BUILD = COPY / "build/release"
GOLDEN = "golden"


def run(command, **more):
    return subprocess.run(command, cwd=COPY, capture_output=True, text=True, **more)


def copy_tree():
    """The files that git knows, as they stand now; times are kept where nothing changed, so that little is built again."""
    files = subprocess.run(["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"], cwd=ROOT, capture_output=True, text=True, check=True)
    want = {f for f in files.stdout.split("\0") if f and (ROOT / f).is_file() and not f.startswith("web/")}
    for file in want:
        to = COPY / file
        text = (ROOT / file).read_bytes()
        if not to.exists() or to.read_bytes() != text:
            to.parent.mkdir(parents=True, exist_ok=True)
            to.write_bytes(text)
            to.chmod((ROOT / file).stat().st_mode)
    for old in COPY.rglob("*"):
        name = str(old.relative_to(COPY))
        if old.is_file() and not name.startswith(("build/", ".deps", ".node")) and name not in want:
            old.unlink()
    for link in (".deps", ".node"):
        if (ROOT / link).exists() and not (COPY / link).exists():
            (COPY / link).symlink_to((ROOT / link).resolve())


def target(test):
    return "awlmark" if test == GOLDEN else f"test_{test}"


def build(tests):
    return run(["cmake", "--build", str(BUILD), "--target", *sorted({target(t) for t in tests})])


def ask(test, limit):
    """Names of the cases that fail (the first of each room), or None where all pass."""
    if test == GOLDEN:
        command = ["python3", "tests/golden/golden.py", str(BUILD / "awlmark")]
    else:
        command = [str(BUILD / "tests" / f"test_{test}"), "--gtest_brief=1", "--gtest_fail_fast"]
    try:
        result = run(command, timeout=limit)
    except subprocess.TimeoutExpired:
        return f"{test}: does not end"
    if result.returncode == 0:
        return None
    if test == GOLDEN:
        return "golden: " + ", ".join(re.findall(r"^([\w-]+): ", result.stdout, flags=re.M))
    failed = re.findall(r"^\[  FAILED  \] ([\w/.]+)", result.stdout, flags=re.M)
    return f"{test}: {failed[0] if failed else 'ends with ' + str(result.returncode)}"


def one(mutant, limits):
    path = COPY / mutant["file"]
    text = path.read_text(encoding="utf-8") if path.exists() else ""
    if text.count(mutant["find"]) != 1:
        return "stale", [f"the text stands {text.count(mutant['find'])} times"]
    try:
        path.write_text(text.replace(mutant["find"], mutant["replace"]), encoding="utf-8")
        built = build(mutant["tests"])
        if built.returncode != 0:
            errors = re.findall(r"error: .*", built.stdout)
            return "does not compile", errors[:1]
        noticed = [n for n in (ask(t, limits[t]) for t in mutant["tests"]) if n]
        return ("noticed" if noticed else "not noticed"), noticed
    finally:
        path.write_text(text, encoding="utf-8")


def cell(text):
    text = " ".join(text.split()).replace("|", "\\|")
    return text if len(text) <= 90 else text[:87] + "..."


def write_table(mutants, results, commit):
    tried = [r for r in results if r[0] in ("noticed", "not noticed")]
    noticed = sum(r[0] == "noticed" for r in tried)
    lines = [
        "# Lines broken on purpose",
        "",
        "Written by `tools/mutate.sh`, run by hand (it is no part of `./test`). Each line was broken alone in a copy of the tree, the tests named beside it",
        "in `tools/mutants.json` were built and run, and the first case of each room that failed is told.",
        "",
        f"{noticed} of {len(tried)} noticed, {noticed / max(1, len(tried)):.0%}; {len(mutants)} listed, {len(mutants) - len(tried)} not tried (stale, not compiling"
        f" or left out of this run). Commit {commit}.",
        "",
        "| file | line | broken | result |",
        "|---|---|---|---|",
    ]
    for mutant, (verdict, by) in zip(mutants, results):
        told = "; ".join(by) if verdict == "noticed" else f"**{verdict}**" + (f" ({by[0]})" if by else "")
        lines.append(f"| {mutant['file'].removeprefix('engine/')} | `{cell(mutant['find'])}` | `{cell(mutant['replace'])}` | {cell(told)} |")
    (ROOT / "docs/mutants.md").write_text("\n".join(lines) + "\n", encoding="utf-8")


def main():
    parser = argparse.ArgumentParser(prog="tools/mutate.sh", description=__doc__.split("\n\n")[0])
    parser.add_argument("only", nargs="?", default="", help="only mutants whose file matches this pattern")
    parser.add_argument("--list", default=str(ROOT / "tools/mutants.json"))
    parser.add_argument("--minutes", type=float, default=1e9, help="start no further mutant after this long")
    parser.add_argument("--check", action="store_true", help="only say which are stale")
    parser.add_argument("--table", action="store_true", help="write docs/mutants.md")
    arguments = parser.parse_args()
    mutants = json.loads(pathlib.Path(arguments.list).read_text(encoding="utf-8"))["mutants"]
    chosen = [m for m in mutants if re.search(arguments.only, m["file"])]
    if arguments.check:
        stale = [m for m in chosen if (ROOT / m["file"]).read_text(encoding="utf-8").count(m["find"]) != 1 if (ROOT / m["file"]).exists()]
        stale += [m for m in chosen if not (ROOT / m["file"]).exists()]
        for m in stale:
            print(f"stale: {m['file']}: {m['find']}")
        print(f"{len(chosen) - len(stale)} of {len(chosen)} stand")
        return 1 if stale else 0

    start = time.monotonic()
    copy_tree()
    configure = ["cmake", "--preset", "release", "-DAWLMARK_TESTS=ON", "-DAWLMARK_UNITY=OFF"]
    tests = sorted({t for m in chosen for t in m["tests"]})
    for step in (run(configure), build(tests)):
        if step.returncode != 0:
            sys.exit(step.stdout[-4000:] + step.stderr[-2000:])
    limits = {}
    for test in tests:
        before = time.monotonic()
        if failed := ask(test, 1200):
            sys.exit(f"{failed}: fails with nothing broken; mend that first")
        limits[test] = 30 + 10 * (time.monotonic() - before)
    print(f"whole: {len(tests)} rooms pass, {time.monotonic() - start:.0f} s", flush=True)

    results = {}
    for i, mutant in enumerate(chosen):
        if time.monotonic() - start > 60 * arguments.minutes:
            print(f"out of time; {len(chosen) - i} not tried")
            break
        verdict, by = one(mutant, limits)
        results[id(mutant)] = (verdict, by)
        print(f"{verdict:12} {mutant['file']}: {cell(mutant['find'])} -> {cell(mutant['replace'])}  {'; '.join(by)}", flush=True)
    build(tests)  # leave the copy whole
    tried = [r for r in results.values() if r[0] in ("noticed", "not noticed")]
    print(f"{sum(r[0] == 'noticed' for r in tried)} of {len(tried)} noticed, {time.monotonic() - start:.0f} s")
    if arguments.table:
        commit = subprocess.run(["git", "rev-parse", "--short", "HEAD"], cwd=ROOT, capture_output=True, text=True).stdout.strip()
        write_table(mutants, [results.get(id(m), ("not tried", [])) for m in mutants], commit)
    return 0


if __name__ == "__main__":
    sys.exit(main())
