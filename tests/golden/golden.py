#!/usr/bin/env python3
"""Golden findings: what the engine answers for the demo jobs and the small jobs of tests/golden/jobs, kept to six digits.

    tests/golden/golden.py AWLMARK            compares; differences or a missing file fail
    tests/golden/golden.py AWLMARK look       shows every difference
    tests/golden/golden.py AWLMARK accept     keeps the findings as they are now

Kept is all that a person reads. Long lists of numbers (fields over cells) are kept as their count, least, most, sum and a
sum weighted by place, so that a field that moves or turns is noticed. The first reason by each rule is kept in full, the
others as a checksum of their words and figures; pieces that stay, and many that go for one reason, are told together. The version of the engine is left out.
"""
import json
import math
import pathlib
import subprocess
import sys
import zlib

ROOT = pathlib.Path(__file__).resolve().parents[2]
KEPT = ROOT / "tests/golden/findings"
REPEATED = ("member", "kind", "ratio")  # of a check: they stand in its id, or follow from demand and capacity
LONG = 8  # numbers in a list that is kept as a summary
MANY = 12  # pieces of a layer that come out for one reason and are still told one by one
SHOWN = 30  # differences shown for each job unless asked for all


def six(x):
    """Six significant digits; what is nothing but rounding is nothing."""
    if isinstance(x, bool) or isinstance(x, int):
        return x
    if not math.isfinite(x) or abs(x) < 1e-9:
        return 0.0
    x = float(f"{x:.6g}")
    return int(x) if x == int(x) and abs(x) < 1e15 else x


def is_number(x):
    return isinstance(x, (int, float)) and not isinstance(x, bool)


def summary(values):
    there = [(i, v) for i, v in enumerate(values) if v is not None]
    out = {"numbers": len(there), "null": len(values) - len(there)}
    if there:
        out.update(least=six(min(v for _, v in there)), most=six(max(v for _, v in there)))
        out.update(sum=six(math.fsum(v for _, v in there)), by_place=six(math.fsum(v * (i + 1) for i, v in there) / len(values)))
    return out


def kept(value, rules):
    """`rules` are those whose reason stands in full already; the next one is kept as a sum over its words and figures."""
    if isinstance(value, dict):
        out = {k: kept(v, rules) for k, v in value.items() if not (k in REPEATED and "reason" in value)}
        reason = value.get("reason")
        if isinstance(reason, dict) and "rule" in reason:
            if reason["rule"] in rules:
                out["reason"] = f"{zlib.crc32(json.dumps(out['reason']).encode()):08x}"
            rules.add(reason["rule"])
        return out
    if isinstance(value, list):
        if len(value) > LONG and all(v is None or is_number(v) for v in value):
            return summary(value)
        return [kept(v, rules) for v in value]
    return six(value) if is_number(value) else value


def fold_pieces(cut_back):
    """Pieces that come out are kept, unless more than a dozen of a layer do for one reason; those, and the ones that stay, are
    told together: how many, their area, their chances by place."""
    groups = {}
    for p in cut_back["pieces"]:
        name = f"{p['layer']}, out: {p['why']}" if p["out"] else f"{p['layer']}, stays"
        groups.setdefault(name, []).append(p)
    told = []
    for name, pieces in groups.items():
        if pieces[0]["out"] and len(pieces) <= MANY:
            told += pieces
        else:
            area, chances = math.fsum(p["area_sf"] for p in pieces), [p["p_unsound"] for p in pieces]
            told.append({"id": name, "pieces": len(pieces), "area_sf": area, "p_unsound": summary(chances)})
    cut_back["pieces"] = told


def findings_of(awlmark, job):
    run = subprocess.run([awlmark, "assess", str(job), "--json"], capture_output=True, text=True, timeout=600)
    if run.returncode != 0:
        raise SystemExit(f"{job.relative_to(ROOT)}: assess fails ({run.returncode})\n{run.stderr}")
    findings = json.loads(run.stdout)
    findings.pop("engine", None)
    if findings.get("cut_back"):
        fold_pieces(findings["cut_back"])
    return kept(findings, set())


def written(value, indent=""):
    """JSON with one line for whatever fits on it, so that a diff of the file can be read too."""
    line = json.dumps(value, ensure_ascii=False)
    flat = isinstance(value, list) and not any(isinstance(v, (dict, list)) and len(v) > 2 for v in value)
    if not isinstance(value, (dict, list)) or len(indent) + len(line) <= 150 or flat and all(not isinstance(v, str) for v in value):
        return line
    inner = indent + " "
    if isinstance(value, dict):
        body = [f"{inner}{json.dumps(k, ensure_ascii=False)}: {written(v, inner)}" for k, v in value.items()]
        return "{\n" + ",\n".join(body) + f"\n{indent}}}"
    return "[\n" + ",\n".join(inner + written(v, inner) for v in value) + f"\n{indent}]"


def named(items):
    """Items of a list by id (or layer, item, at) where each has its own; by place otherwise."""
    for key in ("id", "layer", "item", "at"):
        names = [i.get(key) if isinstance(i, dict) else None for i in items]
        if items and all(isinstance(n, str) for n in names) and len(set(names)) == len(names):
            return dict(zip(names, items))
    return dict(enumerate(items))


def differences(old, new, at=""):
    if type(old) is type(new) and isinstance(old, dict) or isinstance(old, list) and isinstance(new, list):
        lists = isinstance(old, list)
        a, b = (named(old), named(new)) if lists else (old, new)
        if lists and (set(map(type, a)) | set(map(type, b))) == {int, str}:
            a, b = dict(enumerate(old)), dict(enumerate(new))
        out = []
        for key in list(a) + [k for k in b if k not in a]:
            place = f"{at}[{key}]" if lists else f"{at}.{key}" if at else str(key)
            if key not in b:
                out.append(f"{place}: gone (was {short(a[key])})")
            elif key not in a:
                out.append(f"{place}: new, {short(b[key])}")
            else:
                out += differences(a[key], b[key], place)
        if lists and not out and list(a) != list(b):
            out.append(f"{at}: in another order")
        return out
    if old == new and type(old) is type(new):
        return []
    share = f" ({(new - old) / abs(old):+.2%})" if is_number(old) and is_number(new) and old else ""
    return [f"{at}: {short(old)} -> {short(new)}{share}"]


def short(value):
    text = json.dumps(value, ensure_ascii=False)
    return text if len(text) <= 200 else text[:197] + "..."


def main():
    awlmark = str(pathlib.Path(sys.argv[1]).resolve())
    act = sys.argv[2] if len(sys.argv) > 2 else "compare"
    if act not in ("compare", "look", "accept"):
        raise SystemExit(__doc__)
    jobs = sorted(ROOT.glob("tests/golden/jobs/*.json")) + sorted(ROOT.glob("examples/*.json"))
    wrong = 0
    KEPT.mkdir(exist_ok=True)
    for stray in sorted(set(KEPT.glob("*.json")) - {KEPT / job.name for job in jobs}):
        print(f"{stray.relative_to(ROOT)}: no job has this name")
        if act == "accept":
            stray.unlink()
        else:
            wrong += 1
    for job in jobs:
        new = findings_of(awlmark, job)
        file = KEPT / job.name
        if act == "accept":
            file.write_text(written(new) + "\n", encoding="utf-8")
            continue
        if not file.exists():
            print(f"{job.stem}: no golden findings; look at the answer, then keep it with tools/golden.sh accept")
            wrong += 1
            continue
        found = differences(json.loads(file.read_text(encoding="utf-8")), new)
        if found:
            wrong += 1
            print(f"{job.stem}: {len(found)} differences")
            for line in found if act == "look" else found[:SHOWN]:
                print("  " + line)
    if act == "accept":
        print(f"kept the findings of {len(jobs)} jobs in {KEPT.relative_to(ROOT)}; `git diff` shows what changed")
    elif wrong:
        print("tools/golden.sh look shows all of it; if it is meant, tools/golden.sh accept keeps it")
    else:
        print(f"findings of {len(jobs)} jobs are the golden ones")
    return 1 if wrong and act == "compare" else 0


if __name__ == "__main__":
    sys.exit(main())
