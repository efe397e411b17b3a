#!/usr/bin/python3
"""Solves hoofload's exported problems with other programs and compares the readings.

usage: compare.py EXPORTER WORK [--only START] [--values FILE --table FILE]

EXPORTER is the program built from export_problem.cpp, WORK a folder for decks. --values keeps the readings as JSON (what the
tests of hoofload compare against), --table writes the page. Without them the rows are printed only.
"""
import argparse, importlib, json, os, subprocess, sys, time
from problem import Problem, read

PROGRAMS = ["ccx", "dolfinx", "getfem"]
# (key, exporter's arguments, programs, options of a program)
RUNS = [("peer %s %s" % (v, size), ["peer", v, "--size", size], PROGRAMS, {}) for size in ("5k", "20k") for v in "abc"]
RUNS += [("peer %s 5k kappa 1500" % v, ["peer", v, "--size", "5k", "--kappa", "1500"], PROGRAMS, {}) for v in "bc"]
RUNS += [("peer c 5k kn 10000", ["peer", "c", "--size", "5k"], ["dolfinx"], {"kn": 10000.0})]
SINK = {"a": "0.4", "b": "0.1", "c": "0.1"}      # mm; b, c: a Newton method without a line search goes no further
RUNS += [("foot %s" % v, ["foot", v, "--sink", SINK[v]], ["ccx", "dolfinx"], {}) for v in "abc"]
RUNS += [("foot %s fine" % v, ["foot", v, "--sink", SINK[v], "--density", "2"], ["dolfinx"], {}) for v in "abc"]
RUNS += [("sheet %s" % v, ["sheet", v], ["ccx", "dolfinx"], {}) for v in "ab"]
RUNS += [("sheet %s fine" % v, ["sheet", v, "--density", "2"], ["dolfinx"], {}) for v in "ab"]


def child(program, path, options):
    """One program in a process of its own: a failure of one leaves the others alone."""
    p = Problem(path)
    u = importlib.import_module(program + "_driver").solve(p, os.path.dirname(path), **options)
    print("READING" + json.dumps(read(p, u)))


def ask(program, path, options):
    out = subprocess.run([sys.executable, os.path.abspath(__file__), "--child", program, path, json.dumps(options)],
                         capture_output=True, text=True, env=dict(os.environ, OMP_NUM_THREADS="1"))
    found = [line for line in out.stdout.splitlines() if line.startswith("READING")]
    if not found:
        return {"failed": (out.stderr.strip().splitlines() or ["no output"])[-1][:200]}
    return json.loads(found[0][7:])


def run(exporter, work, only):
    rows = {}
    for key, arguments, programs, options in RUNS:
        if not key.startswith(only):
            continue
        path = os.path.join(work, key.replace(" ", "_") + ".json")
        with open(path, "w") as f:
            subprocess.run([exporter] + arguments, stdout=f, check=True)
        given = json.load(open(path))
        row = {"nodes": len(given["X"]), "hoofload": given["ours"], "hoofload, displacement triangles": given["ours_displacement"]}
        for program in programs:
            start = time.time()
            row[program] = ask(program, path, options)
            print("%s %s %.1f s" % (key, program, time.time() - start), file=sys.stderr)
        rows[key] = row
        print(json.dumps({key: row}), flush=True)
    return rows


def main():
    if sys.argv[1:2] == ["--child"]:
        return child(sys.argv[2], sys.argv[3], json.loads(sys.argv[4]))
    ap = argparse.ArgumentParser(description=__doc__)
    ap.add_argument("exporter")
    ap.add_argument("work")
    ap.add_argument("--only", default="")
    ap.add_argument("--values")
    ap.add_argument("--table")
    a = ap.parse_args()
    os.makedirs(a.work, exist_ok=True)
    rows = run(os.path.abspath(a.exporter), os.path.abspath(a.work), a.only)
    if a.values and a.only and os.path.exists(a.values):
        rows = {**json.load(open(a.values))["rows"], **rows}
    rows = {key: rows[key] for key, *_ in RUNS if key in rows}
    if a.values:
        with open(a.values, "w") as f:
            json.dump({"command": "bash tests/reference/run.sh", "rows": rows}, f, indent=1)
            f.write("\n")
    if a.table:
        import page
        open(a.table, "w").write(page.text(rows))


if __name__ == "__main__":
    main()
