#!/usr/bin/python3
"""docs/validation.md, and its summary in README.md, from what the tests recorded (tests/support/record.hpp).

usage: page.py write|check REPORTS

REPORTS holds the tests' XML output. Recorded rows are kept in tests/validation/rows.json; page and summary are made of those. The page
says where the rows of which test suites go: <!-- rows: Suite Suite --> ... <!-- end -->.
write: suites that were run replace their rows, the others keep theirs. check changes nothing: exit code 1 if a row that was recorded
is not among the rows but for rounding, or the page is not made of them. Both fail if a suite with rows has no place on the page.
"""
import fnmatch, glob, json, os, re, sys
import xml.etree.ElementTree as xml

PAGE, README, KEPT = "docs/validation.md", "README.md", "tests/validation/rows.json"
SMALL = 5e-4      # an error below this many percent is not told from none
MANY = 6          # so many values are listed; of more the worst




def read_reports(folder):
    """Rows by suite, in the order of the tests."""
    suites = {}
    for path in sorted(glob.glob(os.path.join(folder, "*.xml"))):
        binary = os.path.splitext(os.path.basename(path))[0]
        cases = [c for c in xml.parse(path).iter("testcase") if c.get("status") == "run"]
        names = [c.get("classname") + "." + c.get("name") for c in cases]
        for case in cases:
            suite = case.get("classname").split("/")[-1 if "/" in case.get("name") else 0]
            test = case.get("name").split("/")[0]
            rows = suites.setdefault(suite, [])
            for p in case.iter("property"):
                if p.get("name").startswith("row"):
                    add(rows, binary, suite, test, names, json.loads(p.get("value")))
    return {suite: rows for suite, rows in suites.items() if rows}


def add(rows, binary, suite, test, names, value):
    """A value to the row of its claim in that test."""
    head = {"claim": value.pop("claim"), "source": value.pop("source"), "mesh": value.pop("mesh")}
    for row in rows:
        if row["test"] == test and row["claim"] == head["claim"]:
            return row["values"].append(value)
    rows.append({"test": test, **head, "command": command(binary, suite, test, names), "values": [value]})


def command(binary, suite, test, names):
    """The shortest filter that names this test and no other."""
    mine = {n for n in names if re.fullmatch(r"(.*/)?%s(/\d+)?\.%s(/.*)?" % (suite, test), n)}
    star = "*" if any("/" in n for n in mine) else ""
    words = test.split("_")
    for k in range(1, len(words) + 1):
        pattern = "%s%s.%s*" % (star, suite, "_".join(words[:k]))
        if {n for n in names if fnmatch.fnmatchcase(n, pattern)} == mine:
            break
    return "build/tests/%s --gtest_filter='%s'" % (binary, pattern)


def number(x):
    return "%.5g" % x


def error(v):
    """Size of a value's error in its own measure (% or the unit), or nothing to compare."""
    if v["kind"] == "value":
        return 100 * (v["ours"] / v["reference"] - 1) if v["reference"] else 0.0
    if v["kind"] == "difference":
        return v["ours"] - v["reference"]
    if v["kind"] == "field":
        return v["worst"]
    return None


def error_text(v):
    e = error(v)
    if v["kind"] == "difference":
        return "%+.2f" % e
    if abs(e) < SMALL:
        return "0"
    return ("%+.0f" if abs(e) >= 100 else "%+.2g" if v["kind"] == "value" else "%.2g") % e


def missed(v):
    return v.get("missed", False) or "goal" in v and abs(error(v)) > v["goal"]


def unit_of(v):
    if v["kind"] == "value":
        return " %"
    return " " + v["unit"] if v["kind"] == "difference" and v["unit"] else " % of " + v["unit"] if v["kind"] == "field" else ""


def distinct(texts):
    return list(dict.fromkeys(t for t in texts if t))


def cells(v):
    """case, reference, ours, error of a row's values."""
    kind = v[0]["kind"]
    if kind == "exact":
        worst, bound = max(x["worst"] for x in v), max(x["bound"] for x in v)
        of = distinct(x["of"] for x in v)
        case = "; ".join(of) if len(of) <= MANY else "%d cases" % len(of)
        return case, "exact", "", ("< %.0e" if worst < bound else "%.1e") % (bound if worst < bound else worst)
    if kind == "finding":
        case = "; ".join(distinct(x["of"] for x in v))
        return case, "; ".join(distinct(x["reference"] for x in v)), "; ".join(x["ours"] for x in v), ""
    goals = distinct("%g" % x["goal"] for x in v if "goal" in x)
    goal = " (goal %s)" % " and ".join(goals) if goals else ""
    if len(v) <= MANY:
        listed = " ".join(error_text(x) for x in v) + unit_of(v[0]) + goal
        if kind == "field":
            return "; ".join(x["of"] for x in v), "", "", listed
        return ("; ".join(x["of"] for x in v), " ".join(number(x["reference"]) for x in v),
                " ".join(number(x["ours"]) for x in v), listed)
    worst = max(v, key=lambda x: abs(error(x)))
    listed = "worst %s%s%s" % (error_text(worst), unit_of(worst), goal)
    case = "%d values; worst: %s" % (len(v), worst["of"])
    if kind == "field":
        return case, "", "", listed
    return case, number(worst["reference"]), number(worst["ours"]), listed


def table(rows):
    out = "| claim | source | case | reference | ours | error | mesh | command |\n|---|---|---|---|---|---|---|---|\n"
    for r in rows:
        out += "| " + " | ".join((r["claim"], r["source"]) + cells(r["values"]) + (r["mesh"], "`%s`" % r["command"])) + " |\n"
    return out


def sections(page):
    """(title, suites) of each place on the page."""
    title = ""
    for m in re.finditer(r"^## (.*)$|<!-- rows: (.*?) -->", page, re.M):
        if m.group(1):
            title = m.group(1)
        else:
            yield title, m.group(2).split()


def summary(page, suites):
    out = "| topic | claims | values | largest error of a value | misses |\n|---|---|---|---|---|\n"
    for title, wanted in sections(page):
        rows = [r for s in wanted for r in suites.get(s, [])]
        pairs = [(r, v) for r in rows for v in r["values"]]
        relative = [(r, v) for r, v in pairs if v["kind"] == "value" and not missed(v)]
        r, v = max(relative, key=lambda p: abs(error(p[1])), default=(None, None))
        text = "%s %% (%s: %s)" % (error_text(v), r["claim"], v["of"]) if v else "-"
        out += "| %s | %d | %d | %s | %d |\n" % (title, len(rows), len(pairs), text, sum(missed(v) for _, v in pairs))
    return out


def misses(page, suites):
    out = "| claim | case | reference | ours | error | command |\n|---|---|---|---|---|---|\n"
    for r in (r for _, wanted in sections(page) for s in wanted for r in suites.get(s, [])):
        for v in filter(missed, r["values"]):
            out += "| " + " | ".join((r["claim"],) + cells([v]) + ("`%s`" % r["command"],)) + " |\n"
    return out


def between(text, mark, inner):
    new, n = re.subn(r"(<!-- %s -->\n).*?(<!-- end -->)" % re.escape(mark), lambda m: m.group(1) + inner + m.group(2), text,
                     flags=re.S)
    if n != 1:
        sys.exit("page: no place <!-- %s -->" % mark)
    return new


def rendered(page, readme, suites):
    for _, wanted in sections(page):
        page = between(page, "rows: " + " ".join(wanted), table([r for s in wanted for r in suites.get(s, [])]))
    return between(page, "misses", misses(page, suites)), between(readme, "validation-summary", summary(page, suites))


def close(a, b):
    """The same value but for rounding: 3 % of itself, and 1e-6 of what it is compared with; round-off may be any below its bound."""
    if set(a) != set(b) or any(a[k] != b[k] for k in a if isinstance(a[k], str) and k != "ours"):
        return False
    if a["kind"] == "exact":
        return (a["worst"] < a["bound"]) == (b["worst"] < b["bound"])
    for k in ("reference", "ours", "worst"):
        if isinstance(a.get(k), float) and abs(a[k] - b[k]) > 1e-3 * abs(a[k]) + 1e-9:
            return False
    return a["kind"] != "finding" or words_alike(a["ours"], b["ours"])


def words_alike(a, b):
    """Texts the same, numbers within 3 % or one of their last digit."""
    pattern = r"[-+]?\d*\.?\d+"
    last = lambda t: 1.1 * 10.0 ** -len(t.partition(".")[2])
    return re.split(pattern, a) == re.split(pattern, b) and all(
        abs(float(x) - float(y)) <= max(0.03 * abs(float(x)), last(x)) for x, y in zip(re.findall(pattern, a), re.findall(pattern, b)))


def differences(recorded, kept):
    """What the tests recorded and the kept rows do not say."""
    found = []
    for suite, rows in recorded.items():
        have = {(r["test"], r["claim"]): r for r in kept.get(suite, [])}
        for r in rows:
            old = have.pop((r["test"], r["claim"]), None)
            if old is None or any(old[k] != r[k] for k in ("source", "mesh")) or len(old["values"]) != len(r["values"]):
                found.append("%s.%s: %s" % (suite, r["test"], r["claim"]))
                continue
            found += ["%s.%s: %s, %s: %s, was %s" % (suite, r["test"], r["claim"], b["of"], b, a)
                      for a, b in zip(old["values"], r["values"]) if not close(a, b)]
        found += ["%s.%s: no longer recorded: %s" % (suite, test, claim) for test, claim in have]
    return found


def main():
    mode, recorded = sys.argv[1], read_reports(sys.argv[2])
    kept = json.load(open(KEPT)) if os.path.exists(KEPT) else {}
    page, readme = open(PAGE).read(), open(README).read()
    placed = {s for _, wanted in sections(page) for s in wanted}
    lost = [s for s in recorded if s not in placed]
    if lost:
        sys.exit("page: no place on %s for the rows of %s" % (PAGE, ", ".join(lost)))
    if mode == "check":
        found = differences(recorded, kept)
        if (page, readme) != rendered(page, readme, kept):
            found.append("%s or the summary of %s is not made of %s: page.py write" % (PAGE, README, KEPT))
        sys.stderr.write("".join(f + "\n" for f in found))
        print("page: %d recorded claims, %d differences" % (sum(map(len, recorded.values())), len(found)))
        sys.exit(1 if found else 0)
    kept = {s: recorded.get(s, kept.get(s, [])) for _, wanted in sections(page) for s in wanted}
    lines = ['"%s": [\n%s]' % (s, ",\n".join(json.dumps(r) for r in rows)) for s, rows in kept.items() if rows]
    open(KEPT, "w").write("{\n" + ",\n".join(lines) + "\n}\n")
    page, readme = rendered(page, readme, kept)
    open(PAGE, "w").write(page)
    open(README, "w").write(readme)


if __name__ == "__main__":
    main()
