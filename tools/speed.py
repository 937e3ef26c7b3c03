#!/usr/bin/env python3
"""Measures and writes docs/speed.md: tools/speed.py (needs glpk-utils, coinor-cbc, calculix-ccx, wrk, time).

Cut plans against GLPK and CBC, decks against CalculiX, whole assessments of both demo jobs natively and in
WebAssembly, growth as exponents, the office under load. By hand, never part of ./test: it takes some minutes
and the machine should be idle. What a part needs and does not find is said in its place.
"""
import json, math, os, platform, random, re, resource, shutil, socket, statistics, subprocess, sys, tempfile, time, urllib.request

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
AWLMARK = os.path.join(ROOT, "build/release/awlmark")
sys.path.insert(0, os.path.join(ROOT, "tests/outside/make"))


def cpu(words, text=None):
    """Processor seconds, peak MB and output of a program."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run(words, input=text, capture_output=True, text=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime, done


def table(head, rows):
    out = ["| " + " | ".join(head) + " |", "|" + "---|" * len(head)]
    return out + ["| " + " | ".join(str(c) for c in row) + " |" for row in rows] + [""]


def cut_problem(kinds, seed):
    draw = random.Random(seed)
    stock = [{"length_in": length, "price": price} for length, price in ((96, 5.2), (120, 6.9), (144, 8.1), (192, 11.4))]
    pieces = [{"length_in": round(draw.uniform(9, 94) * 8) / 8, "count": draw.randint(1, 9)} for _ in range(kinds)]
    return {"stock": stock, "pieces": pieces, "kerf_in": 0.125}


def as_program(problem, most=40):
    """The same by assignment, as one writes it without column generation: y sticks, x pieces on a stick."""
    rows, binary, general, cost, bounds = [], [], [], [], []
    need = sum(p["count"] for p in problem["pieces"])
    sticks = [(s, k) for s in range(len(problem["stock"])) for k in range(min(most, need))]
    for s, k in sticks:
        stock = problem["stock"][s]
        binary.append(f"y{s}_{k}")
        cost.append(f"{stock['price']} y{s}_{k}")
        fill = " + ".join(f"{p['length_in'] + problem['kerf_in']} x{s}_{k}_{i}" for i, p in enumerate(problem["pieces"]))
        rows.append(f" c{s}_{k}: {fill} - {stock['length_in'] + problem['kerf_in']} y{s}_{k} <= 0")
        general += [f"x{s}_{k}_{i}" for i in range(len(problem["pieces"]))]
        if k:
            rows.append(f" o{s}_{k}: y{s}_{k - 1} - y{s}_{k} >= 0")
    for i, p in enumerate(problem["pieces"]):
        rows.append(f" d{i}: " + " + ".join(f"x{s}_{k}_{i}" for s, k in sticks) + f" >= {p['count']}")
    return "Minimize\n cost: " + " + ".join(cost) + "\nSubject To\n" + "\n".join(rows) + "\nBounds\n" + "\n".join(bounds) + \
        "\nBinaries\n " + "\n ".join(binary) + "\nGenerals\n " + "\n ".join(general) + "\nEnd\n"


LIMIT_S = 30


def cut_plans():
    rows = []
    for kinds in (4, 8, 12, 20, 30):
        problem = cut_problem(kinds, 100 + kinds)
        ours, done = cpu([AWLMARK, "reckon", "cut-plan"], json.dumps(problem))
        answer = json.loads(done.stdout)
        row = [kinds, sum(p["count"] for p in problem["pieces"]), f"{ours:.3f} s, {answer['cost']:.2f}, {'proven' if answer['proven'] else 'not proven'}"]
        with tempfile.TemporaryDirectory() as folder:
            path = os.path.join(folder, "cut.lp")
            open(path, "w").write(as_program(problem))
            if shutil.which("glpsol"):
                took, done = cpu(["glpsol", "--lp", path, "--cuts", "--tmlim", str(LIMIT_S), "-o", path + ".out"])
                text = open(path + ".out").read() if os.path.exists(path + ".out") else ""
                found = re.search(r"Objective:\s*cost = ([\d.e+]+)", text)
                proven = "INTEGER OPTIMAL" in text
                row.append(f"{took:.2f} s, {float(found[1]):.2f}, {'proven' if proven else 'stopped'}" if found and float(found[1]) > 0 else f"{took:.0f} s, nothing found")
            else:
                row.append("glpsol is not here")
            if shutil.which("cbc"):
                took, done = cpu(["cbc", path, "sec", str(LIMIT_S), "solve", "solution", path + ".cbc", "quit"])
                text = open(path + ".cbc").read() if os.path.exists(path + ".cbc") else ""
                found = re.search(r"objective value\s+([\d.]+)", text)
                row.append(f"{took:.2f} s, {float(found[1]):.2f}, {'proven' if text.startswith('Optimal') else 'stopped'}" if found else f"{took:.0f} s, nothing found")
            else:
                row.append("cbc is not here")
        rows.append(row)
    return ["## Cut plan against GLPK and CBC", "",
            f"Random lists (seeds 104 to 130), four stock lengths, kerf 1/8 in.; processor time, cost, proof. The solvers get the assignment program, "
            f"as one writes it down, and {LIMIT_S} s; ours generates columns. `awlmark reckon cut-plan`, `glpsol --cuts`, `cbc`.", ""] + \
        table(["kinds", "pieces", "awlmark", "GLPK", "CBC"], rows)


def decks():
    bench = os.path.join(ROOT, "build/bench/bench/bench_grillage")
    if not os.path.exists(bench) or not shutil.which("ccx"):
        return ["## Decks against CalculiX", "", "Not measured: " + ("ccx" if os.path.exists(bench) else "bench_grillage") + " is not here.", ""]
    import grillage_ccx
    ours = json.loads(subprocess.run([bench, os.path.join(ROOT, "tests/outside/grillage_ccx.json")], capture_output=True, text=True).stdout)
    rows = []
    for case in grillage_ccx.CASES[:1] + grillage_ccx.CASES[4:5] + grillage_ccx.CASES[7:9]:
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        grillage_ccx.run(json.loads(json.dumps(case)))
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        theirs = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
        rows.append([case["id"], f"{ours[case['id']] * 1000:.2f} ms", f"{theirs * 1000:.0f} ms", f"{theirs / max(ours[case['id']], 1e-6):.0f}"])
    return ["## Decks against CalculiX", "",
            "The same decks as a grillage and as S8R shells (its own start counts in); they agree within the tolerance of `tests/outside/grillage_ccx.json`, "
            "0.5 to 4 percent. Processor time, ours the median of nine.", ""] + table(["deck", "awlmark", "CalculiX", "times"], rows)


def assess():
    rows = []
    for name in sorted(os.listdir(os.path.join(ROOT, "examples"))):
        if not name.endswith(".json"):
            continue
        taken = [cpu([AWLMARK, "assess", os.path.join(ROOT, "examples", name), "--json"])[0] for _ in range(5)]
        rows.append([name[:-5], f"{statistics.median(taken):.2f} s"])
    wasm = "not built"
    if os.path.exists(os.path.join(ROOT, "build/wasm/engine/whole.mjs")):
        done = subprocess.run(["node", "--no-experimental-fetch", os.path.join(ROOT, "tests/page/same-numbers.mjs")], capture_output=True, text=True)
        for row in rows:
            found = re.search(re.escape(row[0]) + r".*WebAssembly (\d+) ms", done.stdout)
            row.append(f"{int(found[1]) / 1000:.2f} s" if found else wasm)
    else:
        rows = [row + [wasm] for row in rows]
    return ["## A whole job", "", "`awlmark assess JOB --json`, median of five in processor time; WebAssembly under Node by the clock, first run, compiling included. The goal is 0.5 s.", ""] + \
        table(["job", "native", "WebAssembly"], rows)


def room_job(width, depth, marks, layers=3):
    draw = random.Random(7)
    kinds = [{"id": "sheet", "material": "sheet_vinyl", "thickness_in": 0.09}, {"id": "under", "material": "plywood_underlayment", "thickness_in": 0.25}]
    kinds += [{"id": f"f{i}", "material": "felt", "thickness_in": 0.03} for i in range(max(0, layers - 3))]
    kinds += [{"id": "deck", "material": "board", "thickness_in": 0.75, "runs": "x", "face_width_in": 5.5}]
    job = {"format": "awlmark-job", "version": 1, "job": {"name": "speed (invented)", "year_built": 1990, "below": "crawl_space", "storey": "ground"},
           "room": {"outline_in": [[0, 0], [width, 0], [width, depth], [0, depth]]}, "layers": kinds[-max(1, layers):],
           "sources": [{"id": "s", "at_in": [width * 0.7, depth * 0.8], "kind": "supply_leak", "water_category": 1}], "marks": []}
    for i in range(marks):
        at = [round(draw.uniform(1, width - 1), 2), round(draw.uniform(1, depth - 1), 2)]
        near = math.hypot(at[0] - width * 0.7, at[1] - depth * 0.8) < 0.25 * width
        job["marks"].append({"id": f"m{i}", "at_in": at, "layer": "deck", "tool": "awl", "reads": draw.choice(["soft", "gone", "soft", "sound"]) if near else "sound"})
    return job


def slope(points):
    xs, ys = [math.log(x) for x, _ in points], [math.log(max(1e-4, y)) for _, y in points]
    mx, my = statistics.mean(xs), statistics.mean(ys)
    return sum((x - mx) * (y - my) for x, y in zip(xs, ys)) / sum((x - mx) ** 2 for x in xs)


def growth():
    rows = []

    def sweep(what, sizes, make, act):
        points = []
        for size in sizes:
            took, done = cpu([AWLMARK] + act, json.dumps(make(size)))
            if done.returncode != 0:
                points.append((size, None, done.stderr.strip().splitlines()[:1]))
                continue
            points.append((size, took, None))
        good = [(s, t) for s, t, _ in points if t]
        rows.append([what, ", ".join(f"{s}: {t:.2f} s" if t else f"{s}: refused" for s, t, _ in points), f"{slope(good[-3:]):.1f}" if len(good) > 2 else ""])

    survey = ["survey", "-", "--json"]
    sweep("marks (10 x 8 ft)", (10, 20, 40, 80, 160, 320), lambda n: room_job(120, 96, n), survey)
    sweep("cells (30 marks; room's side, ft)", (6, 8, 12, 16, 24), lambda n: room_job(12 * n, 12 * n, 30), survey)
    sweep("layers (30 marks)", (1, 2, 3, 6, 12), lambda n: room_job(120, 96, 30, n), survey)
    sweep("pieces of a cut plan (kinds)", (5, 10, 20, 40), lambda n: cut_problem(n, n), ["reckon", "cut-plan"])
    return ["## Growth", "", "Processor time of `awlmark survey` (and of one cut plan) as one thing grows; the exponent is the slope of the last three on a log-log plot.", ""] + \
        table(["what grows", "times", "exponent"], rows)


def office():
    head = ["## The office under load", ""]
    if not shutil.which("wrk"):
        return head + ["Not measured: wrk is not here.", ""]
    with tempfile.TemporaryDirectory() as folder:
        page = os.path.join(folder, "page")
        os.makedirs(page)
        open(os.path.join(page, "index.html"), "w").write("<!doctype html>" + " " * 2000)
        port = 20000 + os.getpid() % 20000
        office = subprocess.Popen([AWLMARK, "serve", "--dir", page, "--data", os.path.join(folder, "o.db"), "--port", str(port), "--rate", "100000000"], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        try:
            for _ in range(200):
                try:
                    socket.create_connection(("127.0.0.1", port), 1).close()
                    break
                except OSError:
                    time.sleep(0.05)
            script = os.path.join(folder, "push.lua")
            # Each request is a new job: pushes to one job would be merges of one document.
            open(script, "w").write('''local n = 0
request = function()
  n = n + 1
  return wrk.format("POST", "/api/jobs/load-" .. tostring({}):sub(8) .. "-" .. n, {["Content-Type"] = "application/json"},
    '{"base":0,"document":{"format":"awlmark-job","version":1,"marks":[]}}')
end
''')
            body = json.dumps({"base": 0, "document": room_job(120, 96, 60)}).encode()
            urllib.request.urlopen(urllib.request.Request(f"http://127.0.0.1:{port}/api/jobs/first", body, {"Content-Type": "application/json"})).read()
            rows = []
            for what, words in (("page", [f"http://127.0.0.1:{port}/"]), ("pull a job", [f"http://127.0.0.1:{port}/api/jobs/first"]), ("push new jobs", ["-s", script, f"http://127.0.0.1:{port}"])):
                done = subprocess.run(["wrk", "-t2", "-c8", "-d8s", "--latency"] + words, capture_output=True, text=True).stdout
                rate, p99 = re.search(r"Requests/sec:\s*([\d.]+)", done), re.search(r"99%\s*(\S+)", done)
                bad = re.search(r"Socket errors: (.*)", done)
                non = re.search(r"Non-2xx or 3xx responses: (\d+)", done)
                rows.append([what, rate[1] if rate else "-", p99[1] if p99 else "-", bad[1] if bad else "none", non[1] if non else 0])
        finally:
            office.terminate()
            office.wait()
        verify = subprocess.run([AWLMARK, "verify", "--data", os.path.join(folder, "o.db")], capture_output=True, text=True)
    return head + ["`wrk -t2 -c8 -d8s` on loopback, SQLite, rate limit lifted (`--rate`); the job pulled has 60 marks, each push is a new job, synced to the disk before it is answered. "
                   f"Afterwards `awlmark verify`: {'all is what it was' if verify.returncode == 0 else verify.stderr.strip()}.", ""] + \
        table(["what", "answers a second", "99 %", "socket errors", "other than 2xx"], rows)


def main():
    if not os.path.exists(AWLMARK):
        raise SystemExit("build first: tools/build.sh release awlmark")
    model = next((line.split(":")[1].strip() for line in open("/proc/cpuinfo") if line.startswith("model name")), platform.machine())
    lines = ["# Speed", "",
             f"Written by `tools/speed.py` on {time.strftime('%Y-%m-%d')}: {model}, {os.cpu_count()} cores, load {os.getloadavg()[0]:.1f} when it began "
             "(figures taken on a busy machine are too high). Processor time unless it says otherwise.", ""]
    for part in (assess, cut_plans, decks, growth, office):
        print(part.__name__, "...", flush=True)
        lines += part()
    lines += ["The field against gstat, scikit-learn and an exact Cholesky: `bench/field/field.py` ([bench](../bench/README.md)).", ""]
    open(os.path.join(ROOT, "docs/speed.md"), "w").write("\n".join(lines))
    print("wrote docs/speed.md")


if __name__ == "__main__":
    main()
