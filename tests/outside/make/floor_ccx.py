#!/usr/bin/env python3
"""Makes tests/outside/floor_ccx.json with CalculiX (Debian calculix-ccx, command ccx).

One whole floor: eight joists over two girders that run through over three posts each. Beams are B32R with
their own nodes; where a joist crosses a girder an equation gives both nodes the same down movement.
Shear stiffness is set a hundred times that of wood, for the engine's beams have no shear deflection.
Two load cases, so that any floor of this shape follows by adding: 1 lb/in. on every joist; 1 lb/in. on both
girders. Read: the reaction of every post, and the down movement of each joist's middle against its rests.

Units: pounds, inches, psi. Usage: python3 tests/outside/make/floor_ccx.py
"""
import json, os, re, subprocess, tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
OUT = os.path.join(HERE, "..", "floor_ccx.json")
E, G = 1.6e6, 1.6e8
JOISTS = [8 + 16 * k for k in range(8)]
GIRDERS = [0.0, 120.0]
POSTS = [0.0, 64.0, 128.0]
ENDS = (-12.0, 132.0)          # of the joists, along y
STEP = 4.0                     # half an element


class Deck:
    def __init__(self):
        self.nodes, self.elements, self.equations, self.fixed = [], {"JOISTS": [], "GIRDERS": []}, [], []

    def beam(self, name, points):
        ids = []
        for p in points:
            self.nodes.append(p)
            ids.append(len(self.nodes))
        for a in range(0, len(ids) - 2, 2):
            self.elements[name].append(ids[a:a + 3])
        return ids


def steps(low, high):
    count = int(round((high - low) / STEP))
    return [low + (high - low) * k / count for k in range(count + 1)]


def build(loaded):
    d = Deck()
    girder_nodes = []
    for y in GIRDERS:
        xs = steps(POSTS[0], POSTS[-1])
        ids = d.beam("GIRDERS", [(x, y, 0.0) for x in xs])
        girder_nodes.append(dict(zip(xs, ids)))
        for k, x in enumerate(POSTS):
            n = girder_nodes[-1][x]
            d.fixed += [(n, 3), (n, 2)] + ([(n, 1), (n, 4)] if k == 0 else [])
    middles = []
    for x in JOISTS:
        ys = steps(*ENDS)
        ids = d.beam("JOISTS", [(float(x), y, 0.0) for y in ys])
        by_y = dict(zip(ys, ids))
        for g, y in enumerate(GIRDERS):
            d.equations.append((by_y[y], girder_nodes[g][float(x)]))
        d.fixed += [(ids[0], 1), (ids[-1], 1), (ids[0], 2), (ids[0], 5)]
        middles.append((by_y[60.0], by_y[0.0], by_y[120.0]))
    lines = ["*NODE,NSET=NALL"] + ["%d,%.6f,%.6f,%.6f" % ((k + 1,) + p) for k, p in enumerate(d.nodes)]
    number = 0
    for name, section, normal in (("JOISTS", (1.5, 9.25), "1.,0.,0."), ("GIRDERS", (3.5, 9.25), "0.,1.,0.")):
        lines.append("*ELEMENT,TYPE=B32R,ELSET=%s" % name)
        for e in d.elements[name]:
            number += 1
            lines.append(",".join(map(str, [number] + e)))
        lines += ["*BEAM SECTION,ELSET=%s,MATERIAL=WOOD,SECTION=RECT" % name, "%.4f,%.4f" % section, normal]
    lines += ["*MATERIAL,NAME=WOOD", "*ELASTIC,TYPE=ENGINEERING CONSTANTS", "%.6e,%.6e,%.6e,0.,0.,0.,%.6e,%.6e," % (E, E, E, G, G), "%.6e" % G]
    for joist, girder in d.equations:
        lines += ["*EQUATION", "2", "%d,3,1.,%d,3,-1." % (joist, girder)]
    lines.append("*BOUNDARY")
    lines += ["%d,%d" % f for f in d.fixed]
    lines += ["*STEP", "*STATIC", "*CLOAD"]
    share = {}
    for e in d.elements[loaded]:
        for n, part in zip(e, (1 / 6, 4 / 6, 1 / 6)):      # a quadratic edge's share of an even load
            share[n] = share.get(n, 0) + part * 2 * STEP
    lines += ["%d,3,-%.9f" % item for item in sorted(share.items())]
    posts = [girder_nodes[g][x] for g in range(2) for x in POSTS]
    lines += ["*NSET,NSET=POSTS", ",".join(map(str, posts)), "*NODE PRINT,NSET=POSTS", "RF", "*NODE PRINT,NSET=NALL", "U", "*END STEP"]
    return "\n".join(lines) + "\n", posts, middles, share


def run(loaded):
    text, posts, middles, share = build(loaded)
    with tempfile.TemporaryDirectory() as folder:
        with open(os.path.join(folder, "floor.inp"), "w") as f:
            f.write(text)
        log = subprocess.run(["ccx", "floor"], cwd=folder, capture_output=True, text=True)
        path = os.path.join(folder, "floor.dat")
        if not os.path.exists(path):
            raise SystemExit(log.stdout[-3000:])
        data = open(path).read()
    blocks = re.split(r"\n\s*(forces|displacements) \(", data)
    read = {}
    for kind, body in zip(blocks[1::2], blocks[2::2]):
        rows = {}
        for row in re.findall(r"^\s*(\d+)\s+(\S+)\s+(\S+)\s+(\S+)\s*$", body, re.M):
            rows[int(row[0])] = float(row[3])
        read[kind] = rows
    down = read["displacements"]
    # The force printed at a node is what comes out of the beam there: a load put on that very node joins it.
    return {"post_lb": [read["forces"][n] + share.get(n, 0) for n in posts],
            "joist_middle_in": [-(down[m] - (down[a] + down[b]) / 2) for m, a, b in middles],
            "applied_lb": 144.0 * 8 if loaded == "JOISTS" else 256.0}


if __name__ == "__main__":
    version = subprocess.run(["ccx", "-v"], capture_output=True, text=True).stdout.strip()
    out = {"made_by": "tests/outside/make/floor_ccx.py", "program": version.replace("This is Version", "CalculiX"), "e_psi": E,
           "joists_at_in": JOISTS, "girders_at_in": GIRDERS, "posts_at_in": POSTS, "joist_ends_in": list(ENDS),
           "on_joists_1_pli": run("JOISTS"), "on_girders_1_pli": run("GIRDERS")}
    with open(OUT, "w") as f:
        json.dump(out, f, indent=1)
        f.write("\n")
    print(json.dumps(out, indent=1))
