#!/usr/bin/python3
"""Every speed target with what was measured beside it: bash tests/bench/run.sh --targets [--all].

Processor time of whole processes; for ccx of ccx alone, without the writing of its deck. Two runs of each, the faster one counts:
the first run of dolfinx compiles its forms.
"""
import importlib, json, math, os, resource, subprocess, sys

HERE = os.path.dirname(os.path.abspath(__file__))
REFERENCE = os.path.join(HERE, "..", "reference")
BUILD = os.path.join("build", "tests")
PROGRAMS = {"ccx": "calculix-ccx", "dolfinx": "python3-dolfinx", "getfem": "python3-getfem"}


def children():
    return resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime


def spent(job):
    """Processor time of the processes that a job starts [s], and its result."""
    start = children()
    result = job()
    return children() - start, result


def ours(case, size):
    def once():
        out = subprocess.run(["bash", os.path.join(HERE, "run.sh"), "--peer-case", case, "--size", size],
                             capture_output=True, text=True, check=True)
        return json.loads(out.stdout)
    return min((once() for _ in range(3)), key=lambda r: r["user_s"])


def problem(case, size):
    path = os.path.join("build", "reference", "bench_%s_%s.json" % (case, size))
    os.makedirs(os.path.dirname(path), exist_ok=True)
    if not os.path.exists(path):
        with open(path, "w") as f:
            subprocess.run([os.path.join(BUILD, "reference_export_problem"), "peer", case, "--size", size], stdout=f, check=True)
    return os.path.abspath(path)


def installed(package):
    out = subprocess.run(["dpkg-query", "--show", "--showformat=${db:Status-Status}", package], capture_output=True, text=True)
    return out.stdout == "installed"


def theirs(program, case, size):
    path = problem(case, size)
    if program == "ccx":
        sys.path.insert(0, REFERENCE)
        from problem import Problem
        driver = importlib.import_module("ccx_driver")
        job = lambda: driver.solve(Problem(path), os.path.dirname(path))
    else:
        job = lambda: subprocess.run([sys.executable, os.path.join(REFERENCE, "compare.py"), "--child", program, path, "{}"],
                                     capture_output=True, check=True, env=dict(os.environ, OMP_NUM_THREADS="1"))
    return min(spent(job)[0] for _ in range(2))


def say(line, target, measured, **more):
    print(json.dumps({"line": line, "target": target, "measured": measured, **more}), flush=True)


def peer_lines(case, size):
    own = ours(case, size)
    times = {}
    for program, package in PROGRAMS.items():
        if not installed(package):
            continue
        try:
            times[program] = theirs(program, case, size)
        except Exception as error:
            print("%s, case %s, %s: %s" % (program, case, size, error), file=sys.stderr)
    more = {"hoofload_s": own["user_s"], "others_s": times, "iterations": own["iterations"], "laps_s": own["laps_s"]}
    fastest = min(times.values()) / own["user_s"] if times else None
    say("case %s, %s, fastest other program over hoofload" % (case, size), ">= 10" if case == "c" else ">= 4", fastest, **more)
    if case == "c" and "ccx" in times:
        say("case c, %s, ccx over hoofload" % size, ">= 50" if size == "5k" else ">= 30", times["ccx"] / own["user_s"])


def size_lines():
    # The mean of several runs: a solve at 5 thousand nodes takes a few ticks of the clock that counts processor time.
    def mean(size, runs):
        all_runs = [ours("c", size) for _ in range(runs)]
        return {**all_runs[0], "user_s": sum(run["user_s"] for run in all_runs) / runs}
    small, large = mean("5k", 20), mean("80k", 3)
    say("growth of a cold solve from 5 to 80 thousand nodes, exponent", "<= 1.3",
        math.log(large["user_s"] / small["user_s"]) / math.log(large["nodes"] / small["nodes"]))
    say("peak memory at 80 thousand nodes [kB a degree of freedom]", "<= 1.5", large["rss_MiB"] * 1048.576 / (2 * large["nodes"]))


def start_lines(lines):
    """A whole process that shows a kept solution, over a warm variant with its building (the mean of those measured)."""
    for model in ["axisymmetric", "sagittal"]:
        warm = [r["with_building_ms"] / 1e3 for r in lines if r["line"].startswith("warm variant, " + model) and "with_building_ms" in r]
        kept = os.path.join("build", "tests", "first-%s.solved" % model)
        if os.path.exists(kept):
            os.remove(kept)
        job = lambda: subprocess.run([os.path.join(BUILD, "bench_targets"), "--first", model, kept], capture_output=True, check=True)
        job()
        whole = min(spent(job)[0] for _ in range(5))
        if warm:
            say("start of the process to first result of a kept model, %s" % model, "<= 3 warm variants", whole / (sum(warm) / len(warm)),
                process_s=whole, warm_variants_s=warm)


def main():
    every = "--all" in sys.argv[1:]
    for size in ["5k", "20k", "80k"] if every else ["5k"]:
        peer_lines("c", size)
        peer_lines("a", size)
    size_lines()
    out = subprocess.run([os.path.join(BUILD, "bench_targets")], stdout=subprocess.PIPE, text=True)
    print(out.stdout, end="", flush=True)
    start_lines([json.loads(line) for line in out.stdout.splitlines()])


if __name__ == "__main__":
    main()
