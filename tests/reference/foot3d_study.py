#!/usr/bin/env python3
"""The sagittal and the axisymmetric model against the foot in three dimensions, solved by CalculiX.

  foot3d_study.py PROGRAM WORK solve [FOOT SHOEING MESH]...   decks, solutions; WORK/<name>.result.json (done ones are kept)
  foot3d_study.py PROGRAM WORK constant                       the white line's constant from load 1 of the reference foot
  foot3d_study.py PROGRAM WORK write JSON MARKDOWN            both models beside it, into those two files
  foot3d_study.py PROGRAM WORK models JSON MARKDOWN           the same, three dimensions as JSON has them: CalculiX does not run

Units mm, N, MPa; every value is for a vertical force of 2500 N on the whole foot.
"""
import json
import math
import pathlib
import subprocess
import sys
import time

PROGRAM, WORK = sys.argv[1], pathlib.Path(sys.argv[2])
KEPT = None  # what JSON held, if its solutions in three dimensions are to serve again
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
            yield foot, shoeing, NAMES["meshes"][1]


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
    if KEPT:
        entry = KEPT["feet"][foot][shoeing]
        return KEPT["meshes"][shoeing][mesh] if foot == REFERENCE else {load: entry[load]["space"] for load in LOADS}
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
    got = json.loads(result.read_text())
    for load in LOADS:
        v = got[load]
        # on the ground it is a reaction; over a plate, which is one piece with the shoe, a cut through the packing
        v["packing share"] = v["share through packing"] if shoeing.startswith("plate") else v["ground share packing"]
    return got


def constant():
    """c_b that gives load 1 of the reference foot, open shoe, finest mesh, the share of the sole that it has there."""
    target = solved(REFERENCE, NAMES["shoeings"][0], NAMES["meshes"][-1])["load 1"]["bone share sole"]
    low, high = 200.0, 6000.0
    for _ in range(16):
        middle = math.sqrt(low * high)
        share = asked("sagittal", REFERENCE, NAMES["shoeings"][0], 0, middle)["bone share sole"]
        low, high = (middle, high) if share < target else (low, middle)
    return math.sqrt(low * high)


def gather():
    """Everything that the page and the test show: 3D, sagittal, axisymmetric; the reference foot also by mesh."""
    out = {"force": 2500, "ahead": LOADS["load 2"], "constant": NAMES["cb"], "constant from load 1": constant(),
           "command": "bash tests/reference/foot3d.sh", "meshes": {}, "feet": {}}
    for shoeing in NAMES["shoeings"]:
        out["meshes"][shoeing] = {mesh: solved(REFERENCE, shoeing, mesh) for mesh in NAMES["meshes"]}
    for foot in NAMES["feet"]:
        out["feet"][foot] = {}
        for shoeing in NAMES["shoeings"]:
            space = solved(foot, shoeing, NAMES["meshes"][-1] if foot == REFERENCE else NAMES["meshes"][1])
            entry = {"axisymmetric": asked("axisymmetric", foot, shoeing)}
            for load, ahead in LOADS.items():
                entry[load] = {"space": space[load], "sagittal": asked("sagittal", foot, shoeing, ahead, NAMES["cb"])}
            out["feet"][foot][shoeing] = entry
    return out


def rounded(x):
    """Six digits: enough for any table, and the same on every machine."""
    if isinstance(x, dict):
        return {k: rounded(v) for k, v in x.items()}
    return float(f"{x:.6g}") if isinstance(x, float) else x


def judged(entry, load):
    """Misses of the goal: shares within 5 points, sink and rotation within 10 %."""
    a, b = entry[load]["space"], entry[load]["sagittal"]
    missed = [k for k in ("sink", "rotation") if abs(b[k] / a[k] - 1) > 0.1]
    return missed + [k for k in ("bone share sole", "packing share") if abs(b[k] - a[k]) > 5]


def pair(a, b, digits):
    return f"{a:.{digits}f} / {b:.{digits}f}"


def goal_table(feet):
    yield "| foot | shoe | load | sink, mm | | rotation, deg | | sole's share, % | | packing's share, % | | misses |"
    yield "|---|---|---|---|---|---|---|---|---|---|---|---|"
    for foot, shoeings in feet.items():
        for shoeing, entry in shoeings.items():
            for load in LOADS:
                a, b = entry[load]["space"], entry[load]["sagittal"]
                cells = [foot, shoeing, load[-1]]
                for key in ("sink", "rotation"):
                    cells += [pair(a[key], b[key], 3), f"{100 * (b[key] / a[key] - 1):+.1f} %"]
                for key in ("bone share sole", "packing share"):
                    empty = key.startswith("packing") and shoeing == "open"
                    cells += ["-", ""] if empty else [pair(a[key], b[key], 1), f"{b[key] - a[key]:+.1f}"]
                short = {"bone share sole": "sole", "packing share": "packing"}
                cells.append(", ".join(short.get(m, m) for m in judged(entry, load)) or "-")
                yield "| " + " | ".join(cells) + " |"


DETAILS = [("lamellar traction toe", "MPa", 3), ("lamellar traction quarter", "MPa", 3), ("lamellar traction heel", "MPa", 3),
           ("corium pressure tip", "kPa", 0), ("corium pressure middle", "kPa", 0), ("sole pressure tip", "kPa", 0),
           ("sole pressure middle", "kPa", 0), ("dorsal strain", "µε, 30 mm up", 0), ("quarter strain", "µε, 20 mm up", 0),
           ("heel spread", "mm", 3)]


def detail_table(shoeings):
    columns = [(s, load) for s in shoeings for load in LOADS]
    yield "| reference foot | " + " | ".join(f"{s}, {load[-1]}" for s, load in columns) + " |"
    yield "|---|" + "---|" * len(columns)
    for key, unit, digits in DETAILS:
        cells = []
        for s, load in columns:
            a, b = shoeings[s][load]["space"], shoeings[s][load]["sagittal"]
            cells.append(pair(a[key], b[key], digits) if key in a and key in b else "-")
        yield f"| {key}, {unit} | " + " | ".join(cells) + " |"


def mesh_table(meshes):
    keys = [("sink", 4), ("rotation", 4), ("bone share sole", 2), ("packing share", 2), ("corium pressure tip", 1),
            ("dorsal strain", 0), ("quarter strain", 0), ("heel spread", 3)]
    yield "| shoe, load | nodes | " + " | ".join(k for k, _ in keys) + " |"
    yield "|---|---|" + "---|" * len(keys)
    for shoeing, by_mesh in meshes.items():
        for load in LOADS:
            for result in by_mesh.values():
                yield (f"| {shoeing}, {load[-1]} | {result['nodes']} | "
                       + " | ".join(f"{result[load][k]:.{d}f}" for k, d in keys) + " |")


def axis_table(feet):
    yield "| foot | shoe | sink, mm: 3D / axisymmetric | sole's share, % | packing's share, % |"
    yield "|---|---|---|---|---|"
    for foot, shoeings in feet.items():
        for shoeing, entry in shoeings.items():
            a, b = entry["load 1"]["space"], entry["axisymmetric"]
            packing = "-" if shoeing == "open" else pair(a["packing share"], b["packing share"], 1)
            yield (f"| {foot} | {shoeing} | {pair(a['sink'], b['sink'], 3)} | "
                   f"{pair(a['bone share sole'], b['bone share sole'], 1)} | {packing} |")


def tables(all_of_it):
    """The generated blocks of the page by name."""
    feet = all_of_it["feet"]
    predicted = [(f, s, load) for f in feet for s in feet[f] for load in LOADS if (f, s, load) != (REFERENCE, "open", "load 1")]
    missed = {k: 0 for k in ("sink", "rotation", "bone share sole", "packing share")}
    for f, s, load in predicted:
        for k in judged(feet[f][s], load):
            missed[k] += 1
    n = len(predicted)
    packed = sum(s != "open" for _, s, _ in predicted)
    count = (f"Of {n} predictions sink is within 10 % in {n - missed['sink']}, rotation in {n - missed['rotation']}; the sole's "
             f"share within 5 points in {n - missed['bone share sole']}, the packing's in "
             f"{packed - missed['packing share']} of {packed}.")
    fitted = (f"c_b that meets load 1 of the reference foot exactly: {all_of_it['constant from load 1']:.0f}; in the program: "
              f"{all_of_it['constant']:.0f}.")
    return {"constant": [fitted], "goal": [count, "", *goal_table(feet)], "detail": list(detail_table(feet[REFERENCE])),
            "mesh": list(mesh_table(all_of_it["meshes"])), "axisymmetric": list(axis_table(feet))}


def write(data, page):
    """Numbers to `data`; the blocks between <!-- name --> and <!-- end --> of `page` anew."""
    all_of_it = rounded(gather())
    pathlib.Path(data).write_text(json.dumps(all_of_it, indent=1, sort_keys=True) + "\n")
    text = pathlib.Path(page).read_text()
    for name, lines in tables(all_of_it).items():
        head, tail = text.split(f"<!-- {name} -->\n", 1)
        text = head + f"<!-- {name} -->\n" + "\n".join(lines) + "\n" + tail[tail.index("<!-- end -->"):]
    pathlib.Path(page).write_text(text)


if __name__ == "__main__":
    WORK.mkdir(parents=True, exist_ok=True)
    what = sys.argv[3]
    if what == "solve":
        rest = sys.argv[4:]
        for run in ([rest] if rest else runs()):
            got = solved(*run)
            if rest:
                print(json.dumps(got, indent=1))
    elif what == "constant":
        print(f"{constant():.0f}")
    elif what in ("write", "models"):
        KEPT = json.loads(pathlib.Path(sys.argv[4]).read_text()) if what == "models" else None
        write(*sys.argv[4:6])
    else:
        raise SystemExit(__doc__)
