"""docs/other-programs.md from the rows of compare.py."""

KEYS = [("sink_mm", "sink [mm]", "%.5f"), ("load_N", "load [N]", "%.1f"), ("share_pct", "share [%]", "%.3f"),
        ("p_mean_MPa", "mean [MPa]", "%.5f"), ("p_peak_MPa", "peak [MPa]", "%.5f")]

HEAD = """# Other programs, same problem

Written by `bash tests/reference/run.sh`; do not edit. The rows stand also in `tests/reference/values.json`, against which the
tests `OtherPrograms.*` hold hoofload. `PeerFoot.*` holds it against the three programs' results at 80,000 nodes.

CalculiX (ccx) 2.20, dolfinx 0.5.2 and GetFEM 5.4.2, from Debian's packages, solve problems that hoofload exports: the mesh, the
laws' moduli, what is held, nodal loads, ties, lines in contact (`tests/reference/export_problem.cpp`). Every program's
displacements are read by one extractor (`problem.py`) from consistent nodal forces; hoofload's by its own. The force of the
packing is read on the sole's side: on the packing's own side (`share_own_side_pct` in values.json) ccx's two-degree wedge, whose hoop
strain is off by 1e-4 of itself, falsifies the pressure of a nearly incompressible filling by one to three percent.

- **hoofload** solves as the program does: nearly incompressible parts with the mixed element (theory.md, section 5), contact as
  exact bounds. **hoofload, displacement triangles** has the other programs' element everywhere: what is left is then contact (theirs
  is a penalty of 1000 MPa a mm) and the programs themselves.
- *sink*: of the bone's top at the axis (peer), or prescribed (foot, sheet: then *load* is the answer). *share*: of the load that the
  packing hands to the sole. *mean*, *peak*: that force per present projected area, and its largest hat projection away from the
  packing's edge, which is singular, and in contact away from the axis, where ccx's loosened tolerance leaves a force on no area.
- A program that does not converge is a failure here. GetFEM gives no error then and hands out the load step before (asked for a
  residual below what a penalty's round-off leaves, it once stood in this table with three quarters of the load).
- In brackets: difference from "hoofload, displacement triangles", the same mesh and element.

**peer**: the fixed section of `mesh/peer_section.hpp`, 2500 N. **foot**: hoofload's default axisymmetric foot under a full plate with
silicone packing; what is simplified, for all programs alike, stands in `tests/reference/own_foot.hpp`. **sheet**: the core of the
default sagittal foot at a constant breadth of 100 mm, plane strain (`sheet.hpp`); its share passes 100 % because the sole's held
front end pulls down on the packing too. A breadth that varies exists in no other program: manufactured solutions stand in for it
(`ManufacturedSheet.*`, `TaperedSheet.*`). a linear; b finite strain; c as b, packing frictionless on sole and ground or plate.
"fine" is twice the mesh density. In foot c the last edge of the packing's underside, which ends in a tied corner, takes no part in
ccx's contact: ccx stalls on a face that shares a node with its partner. Sinkings beyond those given are not reached by the others'
contact and, in dolfinx, not by its plain Newton method; hoofload reaches 0.5 mm in one step in c and 1.5 mm in b.
"""


def cell(row, reference, key, form):
    value = row.get(key)
    if value is None:
        return "–"
    text = form % value
    if reference is row or reference is None or not reference.get(key):
        return text
    difference = 100 * (value / reference[key] - 1)
    return "%s (%s %%)" % (text, "%+.2f" % difference if abs(difference) >= 0.005 else "0.00")  # a zero's sign is round-off's


def text(rows):
    out = [HEAD]
    for key, row in rows.items():
        reference = row["hoofload, displacement triangles"]
        out.append("## %s (%d nodes)\n" % (key, row["nodes"]))
        out.append("| program | " + " | ".join(k[1] for k in KEYS) + " |")
        out.append("|---|" + "---|" * len(KEYS))
        for name, values in row.items():
            if name == "nodes":
                continue
            if "failed" in values:
                out.append("| %s | failed: %s |" % (name, values["failed"]) + " |" * (len(KEYS) - 1))
            else:
                out.append("| %s | " % name + " | ".join(cell(values, reference, k, f) for k, _, f in KEYS) + " |")
        out.append("")
    return "\n".join(out)
