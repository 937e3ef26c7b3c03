#!/usr/bin/env python3
"""bench/field: the engine's field against gstat, scikit-learn and SciPy, in one run, as ratios.

    bench/field/field.py BUILD [PYTHON ...]

BUILD holds bench/bench_field. PYTHON: interpreters for rivals.py, /usr/bin/python3 (Debian's) when
none is given; add one whose NumPy brings OpenBLAS, since Debian's reference BLAS makes the exact
Cholesky rival about twenty times slower than it need be. Everything is held to one thread and timed in
processor time. Missing programs are said to be missing, never guessed."""
import json
import os
import subprocess
import sys
import tempfile


def ask(name, command):
    one_thread = {**os.environ, "OMP_NUM_THREADS": "1", "OPENBLAS_NUM_THREADS": "1"}
    try:
        done = subprocess.run(command, env=one_thread, capture_output=True, text=True)
    except FileNotFoundError:
        print(f"{name}: not here ({command[0]})", file=sys.stderr)
        return {}
    if done.returncode != 0:
        print(f"{name}: failed\n{done.stderr}", file=sys.stderr)
        return {}
    return json.loads(done.stdout)


def main():
    build, pythons = sys.argv[1], sys.argv[2:] or ["/usr/bin/python3"]
    here = os.path.dirname(os.path.abspath(__file__))
    with tempfile.TemporaryDirectory() as folder:
        ours = ask("engine", [f"{build}/bench/bench_field", folder])
        rivals = [("gstat", ask("gstat", ["Rscript", f"{here}/field.R", folder]))]
        rivals += [(f"python {i + 1}", ask(p, [p, f"{here}/rivals.py", folder])) for i, p in enumerate(pythons)]
    print("| task, 60 points, 64 x 64 grid | program | ms | engine ms | program / engine |\n|---|---|---|---|---|")
    tasks = [("mean and variance", "krige_ms", "krige_ms"), ("binary: fit", "binary_fit_ms", "binary_fit_ms"),
             ("binary: fit and predict", "binary_fit_predict_ms", "binary_fit_predict_ms"), ("100 conditional draws", "draws100_ms", "draws100_ms"),
             ("100 conditional draws, nearest 60", "draws100_nmax60_ms", "draws100_ms")]
    for title, theirs, mine in tasks:
        for name, found in rivals:
            if theirs in found and mine in ours:
                print(f"| {title} | {name} | {found[theirs]:.1f} | {ours[mine]:.2f} | {found[theirs] / ours[mine]:.1f} |")
    for name, found in rivals:
        print(f"\n{name}: {found.get('versions', 'missing')}")


if __name__ == "__main__":
    main()
