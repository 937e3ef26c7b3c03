#!/usr/bin/env python3
"""Makes tests/outside/grillage_ccx.json with CalculiX (Debian calculix-ccx, command ccx).

Planks are orthotropic S8R shells, each with its own nodes. A tongue is an equation that gives the two
facing edge nodes the same down movement; a missing tongue has none; a panel seam inside one sheet
shares its nodes instead. A plank broken over a support has its own nodes on either side of it.
Supports hold the down movement of all nodes on their line; where `twist_held` is false only that of
each plank's middle line. Read: down movement at `read_at_in` on each plank's middle line.

Units: pounds, inches, psi. Usage: python3 tests/outside/make/grillage_ccx.py
"""
import json, os, re, subprocess, tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
OUT = os.path.join(HERE, "..", "grillage_ccx.json")


def run(case):
    i = case["inputs"]
    along = i["mesh"]["along"]          # elements per inch of length, as a count per plank
    across = i["mesh"]["across"]        # elements across one plank
    length = i["supports_in"][-1]
    width, t = i["width_in"], i["thickness_in"]
    broken = {(b["plank"], b["at_in"]) for b in i["broken"]}
    one_sheet = "cross_e_psi" in i
    nodes, elements, number = {}, [], {}
    coords = []

    def node(plank, ix, iy, side):
        # ix counts half elements along, iy half elements across from the plank's low edge
        x = length * ix / (2 * along)
        y = plank * width + width * iy / (2 * across)
        cut = any(abs(x - at) < 1e-9 and p == plank for p, at in broken)
        key = (None if one_sheet else plank, round(x, 6), round(y, 6), side if cut else 0)
        if key not in number:
            number[key] = len(coords) + 1
            coords.append((x, y, plank, ix, iy))
        return number[key]

    for p in range(i["planks"]):
        for a in range(along):
            for c in range(across):
                x0, y0 = 2 * a, 2 * c
                # side -1: as the end of the element before a cut; +1: as its start after
                n = lambda dx, dy: node(p, x0 + dx, y0 + dy, 1 if dx == 0 else -1)
                elements.append([n(0, 0), n(2, 0), n(2, 2), n(0, 2), n(1, 0), n(2, 1), n(1, 2), n(0, 1)])

    lines = ["*NODE,NSET=NALL"]
    lines += ["%d,%.8f,%.8f,0." % (k + 1, c[0], c[1]) for k, c in enumerate(coords)]
    lines += ["*ELEMENT,TYPE=S8R,ELSET=EALL"]
    lines += [",".join(map(str, [k + 1] + e)) for k, e in enumerate(elements)]
    ex, ey, g = i["e_psi"], i.get("cross_e_psi", i.get("plank_cross_e_psi", i["e_psi"] / 20)), i["g_psi"]
    lines += ["*MATERIAL,NAME=WOOD", "*ELASTIC,TYPE=ENGINEERING CONSTANTS",
              "%.6e,%.6e,%.6e,0.,0.,0.,%.6e,%.6e," % (ex, ey, ey, g, 50 * g), "%.6e" % (50 * g),
              "*ORIENTATION,NAME=ALONG", "1.,0.,0.,0.,1.,0.",
              "*SHELL SECTION,ELSET=EALL,MATERIAL=WOOD,ORIENTATION=ALONG", "%.6f" % t]
    bound, pairs = [], []
    by_place = {}
    for k, (x, y, p, ix, iy) in enumerate(coords):
        by_place.setdefault((round(x, 6), round(y, 6)), []).append((k + 1, p))
        on_line = any(abs(x - s) < 1e-9 for s in i["supports_in"])
        middle = iy == across
        if on_line and (i["twist_held"] or middle):
            bound.append(k + 1)
    held = set(bound)
    if not one_sheet:
        for (x, y), found in sorted(by_place.items()):
            planks = sorted({p for _, p in found})
            if len(planks) != 2 or planks[0] in i["no_tongue_after"]:
                continue
            # at a break both sides of a plank are tied to the first node of the other plank
            first = [n for n, p in found if p == planks[0]][0]
            if all(n in held for n, _ in found):
                continue
            for n, p in found:
                if n != first and p == planks[1]:
                    pairs.append((n, first))
    for n, first in pairs:
        lines += ["*EQUATION", "2", "%d,3,1.,%d,3,-1." % (n, first)]
    lines += ["*BOUNDARY"] + ["%d,3,3" % n for n in bound]
    # in-plane movement and drilling are not loaded: hold the plane
    lines += ["NALL,1,2"]
    lines += ["*STEP", "*STATIC"]
    for load in i["loads"]:
        if load["kind"] == "uniform":
            lines += ["*DLOAD", "EALL,P,%.8e" % (-load["psf"] / 144.0)]
        else:
            x = load["at_in"]
            y = (load["plank"] + 0.5) * width
            n = [n for n, p in by_place[(round(x, 6), round(y, 6))]][0]
            lines += ["*CLOAD", "%d,3,%.8e" % (n, -load["lb"])]
    lines += ["*NODE PRINT,NSET=NALL", "U", "*END STEP"]
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "deck")
        open(path + ".inp", "w").write("\n".join(lines) + "\n")
        out = subprocess.run(["ccx", path], cwd=folder, capture_output=True, text=True)
        if not os.path.exists(path + ".dat"):
            raise SystemExit(out.stdout[-2000:])
        down = {}
        for row in open(path + ".dat"):
            m = re.match(r"\s*(\d+)\s+(\S+)\s+(\S+)\s+(\S+)\s*$", row)
            if m:
                down[int(m.group(1))] = -float(m.group(4))
    if not down:
        raise SystemExit("no results: " + out.stdout[-2000:])
    read = []
    for p in range(i["planks"]):
        place = (round(i["read_at_in"], 6), round((p + 0.5) * width, 6))
        read.append(down[by_place[place][0][0]])
    case["expected"] = {"down_in": [float("%.7g" % d) for d in read]}
    return case


def base(id, **changes):
    inputs = {"supports_in": [0, 48], "planks": 9, "width_in": 5.25, "thickness_in": 1.5, "e_psi": 1.6e6,
              "g_psi": 1.0e5, "twist_held": True, "broken": [], "no_tongue_after": [], "loads": [],
              "read_at_in": 24, "mesh": {"along": 24, "across": 2}}
    tolerance = changes.pop("tolerance_rel")
    why = changes.pop("why")
    inputs.update(changes)
    return {"id": id, "inputs": inputs, "tolerance_rel": tolerance, "tolerance_why": why,
            "source": "CalculiX, made by tests/outside/make/grillage_ccx.py", "edition": version(), "status": "computed"}


def version():
    out = subprocess.run(["ccx", "-v"], capture_output=True, text=True).stdout
    return "CalculiX " + (re.search(r"Version\s+([\d.]+)", out) or re.search(r"([\d.]+)", out)).group(1)


SHEAR = ("shells bend by shear too, and a plank 1.5 in. thick on 48 in. loses about 1 % to it; a point load "
         "dents a shell between its nodes, a beam not")
CASES = [
    base("deck-point-tongues", loads=[{"kind": "point", "lb": 300, "at_in": 24, "plank": 4}], tolerance_rel=0.03, why=SHEAR),
    base("deck-point-off-centre", loads=[{"kind": "point", "lb": 300, "at_in": 12, "plank": 1}], read_at_in=24, tolerance_rel=0.03, why=SHEAR),
    base("deck-point-edge-plank", loads=[{"kind": "point", "lb": 300, "at_in": 24, "plank": 0}], tolerance_rel=0.03, why=SHEAR),
    base("deck-cut-in-plank", loads=[{"kind": "point", "lb": 300, "at_in": 24, "plank": 4}], no_tongue_after=[3, 4], tolerance_rel=0.03, why=SHEAR),
    base("deck-two-spans", supports_in=[0, 48, 96], loads=[{"kind": "point", "lb": 300, "at_in": 24, "plank": 4}],
         mesh={"along": 48, "across": 2}, tolerance_rel=0.03, why=SHEAR),
    base("deck-two-spans-one-broken", supports_in=[0, 48, 96], broken=[{"plank": 4, "at_in": 48}],
         loads=[{"kind": "point", "lb": 300, "at_in": 24, "plank": 4}], mesh={"along": 48, "across": 2}, tolerance_rel=0.03, why=SHEAR),
    base("deck-twist-free", twist_held=False, plank_cross_e_psi=1.6e6, loads=[{"kind": "point", "lb": 300, "at_in": 24, "plank": 4}], tolerance_rel=0.03, why=SHEAR),
    base("deck-uniform-mixed", supports_in=[0, 48, 96], planks=8, broken=[{"plank": p, "at_in": 48} for p in (0, 2, 4, 6)],
         loads=[{"kind": "uniform", "psf": 60}], mesh={"along": 48, "across": 2}, tolerance_rel=0.03, why=SHEAR),
    base("panel-orthotropic-point", planks=16, width_in=3, thickness_in=0.75, cross_e_psi=4e5, supports_in=[0, 24, 48],
         loads=[{"kind": "point", "lb": 300, "at_in": 12, "plank": 7}], read_at_in=12, mesh={"along": 32, "across": 1}, tolerance_rel=0.04,
         why="a strip of the grillage is flat across its own 3 in.; the plate curves within it, most under the load"),
    base("panel-orthotropic-uniform", planks=16, width_in=3, thickness_in=0.75, cross_e_psi=4e5, supports_in=[0, 24, 48],
         loads=[{"kind": "uniform", "psf": 100}], read_at_in=12, mesh={"along": 32, "across": 1}, tolerance_rel=0.005, why=SHEAR),
]

if __name__ == "__main__":
    cases = [run(case) for case in CASES]
    json.dump({"what": "decks of planks and panels by finite elements", "maker": "tests/outside/make/grillage_ccx.py", "cases": cases},
              open(OUT, "w"), indent=1)
    print("wrote", len(cases), "cases")
