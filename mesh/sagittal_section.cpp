#include "mesh/sagittal_section.hpp"

#include <cmath>
#include <map>
#include <sstream>

#include "mesh/sagittal_sheets.hpp"
#include "mesh/section_parts.hpp"
#include "mesh/tri_shapes.hpp"

namespace hoofload::mesh {
namespace {

using T = SagittalTemplate;

/// The horn behind the frog's apex once more, with the frog's breadth.
void add_frog_plate(PlaneMesh& mesh, const SagittalPlan& p, const Part& core) {
  Block horn{"frog_plate", {}, {}};
  for (std::size_t k = 0; k < core.sheet.patches.size(); ++k) {
    const SheetPatch& patch = core.sheet.patches[k];
    if (patch.region != "sole" || patch.column >= p.columns.apex) continue;
    const auto [block, first, last] = core.sheet.span[k];
    const auto& tri = core.sheet.mesh.blocks[block].tri;
    horn.tri.insert(horn.tri.end(), tri.begin() + static_cast<std::ptrdiff_t>(first),
                    tri.begin() + static_cast<std::ptrdiff_t>(last));
  }
  std::map<double, double> known;  // by station
  for (auto& t : horn.tri) {
    std::array<double, 6> b{};
    for (std::size_t k = 0; k < 6; ++k) {
      t[k] += core.shift;
      const double x = mesh.X[static_cast<std::size_t>(t[k])].x();
      const auto [it, fresh] = known.try_emplace(x, 0);
      if (fresh) it->second = region_breadth(p, horn.region, x);
      b[k] = it->second;
    }
    horn.breadth.push_back(positive_inside(b));
  }
  mesh.blocks.push_back(std::move(horn));
}

Part add_core(PlaneMesh& mesh, const SagittalPlan& p) {
  Part core = add_sheet(mesh, core_sheet(p));
  add_frog_plate(mesh, p, core);
  mesh.edges["sole_surface"] = rows_of(core, 1, T::sole_rear, T::sole_front, Body::above);
  mesh.edges["sole_mid"] = rows_of(core, 2, T::sole_rear, T::sole_front, Body::above);
  mesh.edges["sole_front"] = columns_of(core, T::sole_front, 1, 3, Body::left);
  mesh.edges["frog_surface"] = rows_of(core, 0, T::frog_rear, p.columns.apex, Body::above);
  mesh.edges["bone_corium"] = rows_of(core, 4, T::process, p.columns.tip, Body::below);
  const Part cushion = add_sheet(mesh, cushion_sheet(p));
  mesh.edges["bone_cushion"] = rows_of(cushion, 1, T::process, T::cushion, Body::below);
  mesh.edges["cushion_back"] = columns_of(cushion, T::sole_rear, 0, 1, Body::right);
  weld(mesh, rows_of(cushion, 0, T::sole_rear, T::cushion, Body::above),
       rows_of(core, 3, T::sole_rear, T::cushion, Body::below));
  return core;
}

/// Nodes of a heart bar's frog plate are tied only where it joins the branches.
void tie_plate(PlaneMesh& mesh, const SagittalPlan& p) {
  join(mesh, "plate_shoe", mesh.edges["plate_rim"], mesh.edges["shoe_mid"], Along::x);
  if (p.shoeing.shoe.type != ShoeType::heart_bar) return;
  // by column line, not by bar_width: lengths must not change which nodes are tied
  const double joined = p.columns.x[T::frog_rear] + 1e-9;
  std::erase_if(mesh.pairs["plate_shoe"],
                [&](const NodePair& pair) { return mesh.X[static_cast<std::size_t>(pair.slave)].x() > joined; });
}

/// Shoe, plate and pad.
struct Stand {
  Part shoe, plate, pad;
};

Stand add_stand(PlaneMesh& mesh, const SagittalPlan& p) {
  Stand s{add_sheet(mesh, shoe_sheet(p)), {}, {}};
  const int n = static_cast<int>(p.columns.shoe_columns.size());
  mesh.edges["ground_shoe"] = rows_of(s.shoe, 0, 0, n, Body::above);
  mesh.edges["shoe_mid"] = rows_of(s.shoe, 1, 0, n, Body::above);
  mesh.edges["shoe_top"] = rows_of(s.shoe, 2, 0, n, Body::below);
  if (!p.plate.empty()) {
    s.plate = add_sheet(mesh, plate_sheet(p));
    mesh.edges["ground_plate"] = rows_of(s.plate, 0, p.plate.from, p.plate.to, Body::above);
    mesh.edges["plate_rim"] = rows_of(s.plate, 1, p.plate.from, p.plate.to, Body::above);
    mesh.edges["plate_top"] = rows_of(s.plate, 2, p.plate.from, p.plate.to, Body::below);
    tie_plate(mesh, p);
  }
  if (p.shoeing.pad.type == PadType::none) return s;
  s.pad = add_sheet(mesh, pad_sheet(p));
  mesh.edges["pad_top"] = rows_of(s.pad, 1, 0, n, Body::below);
  const int span = p.full_pad() ? p.columns.inner_toe : 0;
  join(mesh, "pad_shoe", rows_of(s.pad, 0, span, n, Body::above), mesh.edges["shoe_top"], Along::x);
  if (span > 0)
    join(mesh, "pad_span", rows_of(s.pad, 0, 0, span, Body::above), mesh.edges["shoe_top"], Along::x,
         {p.columns.at(span)});
  return s;
}

/// Floor under a void column range: pad or plate; an empty set when nothing is there.
EdgeSet floor_edges(const SagittalPlan& p, const Stand& s, bool under_the_frog, const ColumnRange& range) {
  if (range.empty()) return {};
  if (p.full_pad()) return rows_of(s.pad, 1, range.from, range.to, Body::below);
  if (under_the_frog ? p.frog_backed() : p.backed()) return rows_of(s.plate, 2, range.from, range.to, Body::below);
  return {};
}

void add_filling(PlaneMesh& mesh, const SagittalPlan& p, const Part& core, const Stand& s, bool under_the_frog) {
  const ColumnRange& range = under_the_frog ? p.packing_frog : p.packing;
  if (range.empty()) return;
  const Part part = add_sheet(mesh, under_the_frog ? packing_frog_sheet(p) : packing_sheet(p));
  join(mesh, under_the_frog ? "frog_packing" : "sole_packing", rows_of(part, 1, range.from, range.to, Body::below),
       rows_of(core, under_the_frog ? 0 : 1, range.from, range.to, Body::above), Along::x);
  const std::string name = under_the_frog ? "packing_frog" : "packing";
  const EdgeSet under = rows_of(part, 0, range.from, range.to, Body::above),
                floor = floor_edges(p, s, under_the_frog, range);
  if (floor.edges.empty())
    mesh.edges["ground_" + name] = under;
  else
    join(mesh, name + (p.full_pad() ? "_pad" : "_plate"), under, floor, Along::x);
}

/// Where no packing lies between, sole or frog may come down on plate or pad.
void join_over_void(PlaneMesh& mesh, const SagittalPlan& p, const Part& core, const Stand& s, bool under_the_frog) {
  if (!(under_the_frog ? p.frog_backed() : p.backed())) return;
  const ColumnRange& filled = under_the_frog ? p.packing_frog : p.packing;
  const int end =
      under_the_frog ? (p.full_pad() ? p.columns.apex : std::min(p.plate.to, p.columns.apex)) : p.columns.inner_toe;
  const std::string name = std::string(under_the_frog ? "frog_over" : "sole") + (p.full_pad() ? "_pad" : "_plate");
  std::vector<double> taken;  // stations at the ends of the packing belong to it
  if (!filled.empty()) taken = {p.columns.at(filled.from), p.columns.at(filled.to)};
  const std::vector<ColumnRange> open = filled.empty()
                                            ? std::vector<ColumnRange>{{T::frog_rear, end}}
                                            : std::vector<ColumnRange>{{T::frog_rear, filled.from}, {filled.to, end}};
  for (const ColumnRange& range : open)
    if (!range.empty())
      join(mesh, name, rows_of(core, under_the_frog ? 0 : 1, range.from, range.to, Body::above),
           floor_edges(p, s, under_the_frog, range), Along::x, taken);
}

void add_shoeing(PlaneMesh& mesh, const SagittalPlan& p, const Part& core) {
  const Stand s = add_stand(mesh, p);
  if (p.full_pad() && !p.plate.empty())
    join(mesh, "pad_plate", rows_of(s.pad, 0, p.plate.from, p.plate.to, Body::above), mesh.edges["plate_top"],
         Along::x);
  for (const bool under_the_frog : {false, true}) {
    add_filling(mesh, p, core, s, under_the_frog);
    join_over_void(mesh, p, core, s, under_the_frog);
  }
}

void add_facts(SagittalSection& out, const SagittalPlan& p) {
  const auto at = [&](int line) { return p.columns.x[static_cast<std::size_t>(line)]; };
  out.bone_tip = p.view.tip, out.bone_process = p.view.process;
  out.frog_apex = at(p.columns.apex);
  if (std::abs(out.frog_apex - p.view.frog_apex) > 0.1)
    out.notes.push_back("frog apex moved to keep it clear of the bone's tip and of the cushion");
  if (!p.shod()) return;
  out.shoe_front = p.shoe.front, out.shoe_end = p.shoe.end, out.breakover = p.shoe.breakover;
  out.inner_toe = at(p.columns.inner_toe);
  out.shoe_ground_area = breadth_area(out.mesh, out.mesh.edges["ground_shoe"]);
  if (!p.packing.empty()) out.packing_from = at(p.packing.from), out.packing_to = at(p.packing.to);
  if (!p.packing_frog.empty())
    out.frog_packing_from = at(p.packing_frog.from), out.frog_packing_to = at(p.packing_frog.to);
  for (const char* name : {"ground_packing", "packing_plate", "packing_pad", "ground_packing_frog",
                           "packing_frog_plate", "packing_frog_pad"})
    if (const auto it = out.mesh.edges.find(name); it != out.mesh.edges.end())
      out.packing_ground_area += breadth_area(out.mesh, it->second);
}

std::string finer_note(double density, double used) {
  std::ostringstream text;
  text << "a mesh of density " << density << " would fold: " << used << " was used";
  return text.str();
}

}  // namespace

SagittalSection sagittal_section(const Foot& foot, const Shoeing& shoeing, double density) {
  // Few long sides cannot follow a deep cup without folding: more, up to the default's number, can.
  for (double used = density;; used *= 1.25) {
    const SagittalPlan p = sagittal_plan(foot, shoeing, used);
    SagittalSection out{};
    const Part core = add_core(out.mesh, p);
    if (p.shod()) add_shoeing(out.mesh, p, core);
    if (used < 1 && !is_usable({smallest_jacobian(out.mesh), smallest_angle(out.mesh)})) continue;
    out.quality = checked_quality(out.mesh, "sagittal");
    add_facts(out, p);
    if (used > density) out.notes.push_back(finer_note(density, used));
    return out;
  }
}

double breadth_area(const PlaneMesh& mesh, const EdgeSet& set) {
  double area = 0;
  for (std::size_t e = 0; e < set.edges.size(); ++e) {
    const auto at = [&](int id) { return mesh.X[static_cast<std::size_t>(id)]; };
    const Edge& edge = set.edges[e];
    for (const LinePoint& g : line_rule<3>) {
      const Line3::Values n = Line3::N(g.s), d = Line3::dN(g.s);
      const Vec2 tangent = d[0] * at(edge.a) + d[1] * at(edge.b) + d[2] * at(edge.mid);
      area +=
          g.weight * tangent.norm() * (n[0] * set.breadth[e][0] + n[1] * set.breadth[e][1] + n[2] * set.breadth[e][2]);
    }
  }
  return area;
}

}  // namespace hoofload::mesh
