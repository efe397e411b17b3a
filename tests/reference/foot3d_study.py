#!/usr/bin/env python3
"""The sagittal and the axisymmetric model against the foot in three dimensions, solved by CalculiX.

  foot3d_study.py PROGRAM WORK solve [FOOT SHOEING MESH]...   decks, solutions; WORK/<name>.result.json (done ones are kept)
  foot3d_study.py PROGRAM WORK constant                       the white line's constant from load 1 of the reference foot
  foot3d_study.py PROGRAM WORK write JSON MARKDOWN            both models beside it, into those two files

Units mm, N, MPa; every value is for a vertical force of 2500 N on the whole foot.
"""
import json
import math
import pathlib
import subprocess
import sys
import time

PROGRAM, WORK = sys.argv[1], pathlib.Path(sys.argv[2])
LOADS = {"load 1": 0.0, "load 2": 15.0}  # centre of pressure ahead of the joint, mm


def asked(*words):
    """One line of JSON from the C++ program."""
    done = subprocess.run([PROGRAM, *map(str, words)], capture_output=True, text=True)
    if done.returncode:
        raise SystemExit(done.stderr.strip())
    return json.loads(done.stdout) if done.stdout.strip() else None


NAMES = asked("list")
REFERENCE = NAMES["feet"][0]


def stem(foot, shoeing, mesh):
    return WORK / "-".join((foot, shoeing, mesh)).replace(" ", "_")


def runs():
    """Three meshes of the reference foot, the middle one of the others."""
    for shoeing in NAMES["shoeings"]:
        for mesh in NAMES["meshes"]:
            yield REFERENCE, shoeing, mesh
        for foot in NAMES["feet"][1:]:
            yield foot, shoeing, "medium"


def printed(path):
    """Per step, what CalculiX printed: {"U": {node: [3]}, "RF": ..., "S": {element: [6], mean over its points}}."""
    steps, kind, block, sums = [], None, None, {}
    for line in path.read_text().splitlines():
        words = line.split()
        if not words:
            continue
        if not (words[0].lstrip("-").isdigit()):
            kind = "U" if line.startswith(" displacements") else "RF" if line.startswith(" forces") else \
                "S" if line.startswith(" stresses") else None
            if kind == "U":
                steps.append({"U": {}, "RF": {}, "S": {}})
            if kind:
                block, sums = steps[-1][kind], {}
            continue
        if kind in ("U", "RF"):
            block[int(words[0])] = [float(w) for w in words[1:4]]
        elif kind == "S":
            element, values = int(words[0]), [float(w) for w in words[2:8]]
            n, total = sums.get(element, (0, [0.0] * 6))
            sums[element] = (n + 1, [a + b for a, b in zip(total, values)])
            n, total = sums[element]
            block[element] = [t / n for t in total]
    return steps


def solve3(matrix, right):
    """Gauss, three unknowns."""
    a = [row[:] + [b] for row, b in zip(matrix, right)]
    for i in range(3):
        p = max(range(i, 3), key=lambda k: abs(a[k][i]))
        a[i], a[p] = a[p], a[i]
        for k in range(3):
            if k != i:
                f = a[k][i] / a[i][i]
                a[k] = [u - f * v for u, v in zip(a[k], a[i])]
    return [a[i][3] / a[i][i] for i in range(3)]


def answer(deck, steps):
    """Quantities of both loads, by superposition of the three motions of the bone."""
    facts, force = deck["facts"], deck["force"]
    modes = {name: [sum(w * step[r["of"]][i][c] for i, c, w in r["terms"]) for step in steps]
             for name, r in deck["readings"].items()}
    K = [modes["bone Fx"], modes["bone Fy"], modes["bone M"]]
    out = {"nodes": int(facts["nodes"]),
           "asymmetry": max(abs(K[i][j] - K[j][i]) / math.sqrt(abs(K[i][i] * K[j][j])) for i in range(3) for j in range(3))}
    for load, ahead in LOADS.items():
        q = solve3(K, [0.0, -force / 2, -force / 2 * ahead])
        at = {name: sum(m * x for m, x in zip(values, q)) for name, values in modes.items()}
        v = {"sink": -q[1], "rotation": -math.degrees(q[2]), "bone x": q[0],
             "dorsal strain": at["dorsal strain"], "quarter strain": at["quarter strain"],
             "heel spread": at["heel spread"], "coronet x": at["coronet x"]}
        lamellae = 0
        for part in ("toe", "quarter", "heel"):
            v["lamellar traction " + part] = -at[f"lamellae {part} Fy"] / facts[f"lamellae {part} area"]
            v["lamellar force " + part] = -2 * at[f"lamellae {part} Fy"]
            lamellae -= at[f"lamellae {part} Fy"]
        v["bone share lamellae"] = 200 * lamellae / force
        v["bone share sole"] = -200 * at["corium Fy"] / force
        ground = {k: 200 * at.get("ground " + k, 0) / force for k in ("ring", "plate", "packing")}
        v["ground share shoe"] = ground["ring"]
        v["ground share packing"] = ground["plate"] + ground["packing"]
        v["share through packing"] = 200 * at.get("through packing", 0) / force
        for where in ("tip", "middle"):
            for kind in ("corium", "sole"):
                for suffix in ("", ", mid-line"):
                    name = f"{kind} pressure {where}"
                    if name + suffix in at:
                        v[name + suffix] = 1000 * at[name + suffix]
        out[load] = v
    out["areas"] = {k: v for k, v in facts.items() if "area" in k}
    return out


def solved(foot, shoeing, mesh):
    """The 3D answer; CalculiX runs only if it is not there yet."""
    at = stem(foot, shoeing, mesh)
    result = pathlib.Path(f"{at}.result.json")
    if not result.exists():
        subprocess.run([PROGRAM, "deck", foot, shoeing, mesh, str(at)], check=True)
        start = time.process_time(), time.time()
        log = subprocess.run(["ccx", at.name], cwd=WORK, capture_output=True, text=True, env={"PATH": "/usr/bin:/bin",
                             "OMP_NUM_THREADS": "1"})
        pathlib.Path(f"{at}.log").write_text(log.stdout + log.stderr)
        if "*ERROR" in log.stdout or log.returncode:
            raise SystemExit(f"ccx failed: {at}.log")
        steps = printed(pathlib.Path(f"{at}.dat"))
        if len(steps) != 3:
            raise SystemExit(f"ccx printed {len(steps)} of 3 steps: {at}.log")
        got = answer(json.loads(pathlib.Path(f"{at}.json").read_text()), steps)
        result.write_text(json.dumps(got, indent=1))
        print(f"{foot}, {shoeing}, {mesh}: {got['nodes']} nodes, {time.time() - start[1]:.0f} s", file=sys.stderr)
    return json.loads(result.read_text())


if __name__ == "__main__":
    WORK.mkdir(parents=True, exist_ok=True)
    what = sys.argv[3]
    if what == "solve":
        rest = sys.argv[4:]
        for run in ([rest] if rest else runs()):
            got = solved(*run)
            if rest:
                print(json.dumps(got, indent=1))
