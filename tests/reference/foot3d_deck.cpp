#include "tests/reference/foot3d_deck.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <sstream>

#include "tests/reference/foot3d_case.hpp"

namespace hoofload::tests {
namespace {

using mesh::Vec3;

struct Assembly {
  const scenarios::Case& run;
  FootPlan plan;
  Wall wall;
  Core core;
  int shift;  ///< core node k is node shift + k + 1 of the deck

  [[nodiscard]] int of_wall(int node) const { return node + 1; }
  [[nodiscard]] int of_core(int node) const { return shift + node + 1; }
  [[nodiscard]] int wedge(int e) const { return static_cast<int>(wall.shell.mesh.hex.size()) + e + 1; }
};

void write_nodes(std::ostream& out, const Assembly& a) {
  out << "*NODE, NSET=ALL\n";
  int id = 0;
  for (const auto* X : {&a.wall.shell.mesh.X, &a.core.X})
    for (const Vec3& p : *X) out << ++id << ", " << p.x() << ", " << p.y() << ", " << p.z() << "\n";
}

void write_elements(std::ostream& out, const Assembly& a) {
  const auto& m = a.wall.shell.mesh;
  for (const char* region : {"wall", "lamella"}) {
    out << "*ELEMENT, TYPE=C3D20, ELSET=" << region << "\n";
    for (std::size_t e = 0; e < m.hex.size(); ++e) {
      if (m.hex_region[e] != region) continue;
      out << e + 1;
      for (std::size_t n = 0; n < 20; ++n) out << (n == 10 ? ",\n" : ", ") << a.of_wall(m.hex[e][n]);
      out << "\n";
    }
  }
  std::set<std::string> parts;
  for (const auto& w : a.core.wedges) parts.insert(w.part);
  for (const auto& part : parts) {
    out << "*ELEMENT, TYPE=C3D15, ELSET=" << part << "\n";
    for (std::size_t e = 0; e < a.core.wedges.size(); ++e) {
      const Wedge& w = a.core.wedges[e];
      if (w.part != part) continue;
      out << a.wedge(static_cast<int>(e));
      for (std::size_t n = 0; n < 15; ++n) out << (n == 10 ? ",\n" : ", ") << a.of_core(w.nodes[n]);
      out << "\n";
    }
  }
}

void write_materials(std::ostream& out, const Assembly& a, const scenarios::CaseMaterials& m) {
  std::set<std::string> parts{"wall", "lamella"};
  for (const auto& w : a.core.wedges) parts.insert(w.part);
  const std::map<std::string, std::string> ids{{"wall", "wall"},
                                               {"lamella", "lamellae"},
                                               {"sole", "sole horn"},
                                               {"frog", "frog horn"},
                                               {"corium", "sole corium"},
                                               {"shoe", a.run.material.shoe},
                                               {"plate", a.run.material.shoe},
                                               {"packing", a.run.material.packing}};
  for (const auto& part : parts) {
    const auto [E, nu] = m.small_strain(ids.at(part));
    out << "*MATERIAL, NAME=M" << part << "\n*ELASTIC\n"
        << E << ", " << nu << "\n*SOLID SECTION, ELSET=" << part << ", MATERIAL=M" << part << "\n";
  }
}

/// Ties: the wall's bearing face to the shoe's upper face, the sole's rim to the wall's inner face. Slaves first.
void write_ties(std::ostream& out, const Assembly& a) {
  const auto& m = a.wall.shell.mesh;
  out << "*SURFACE, NAME=BEARING, TYPE=NODE\n";
  for (const int n : m.nodes.at("bearing")) out << a.of_wall(n) << "\n";
  out << "*SURFACE, NAME=SEAT, TYPE=ELEMENT\n";
  for (const auto& [e, face] : a.core.top) out << a.wedge(e) << ", S" << face << "\n";
  out << "*SURFACE, NAME=RIM, TYPE=NODE\n";
  for (const int n : a.core.rim) out << a.of_core(n) << "\n";
  out << "*SURFACE, NAME=INNER, TYPE=ELEMENT\n";
  const int columns = a.wall.divisions.ellipse + a.wall.divisions.fore_branch + a.wall.divisions.rear_branch;
  const int rows = a.wall.divisions.below + a.wall.divisions.lamellar + a.wall.divisions.above;
  for (int j = 0; j < a.wall.divisions.below + 1; ++j)
    for (int i = 0; i < columns; ++i)
      out << ((a.wall.divisions.thickness - 1) * rows + j) * columns + i + 1 << ", S2\n";
  out << "*TIE, NAME=T1, POSITION TOLERANCE=1., ADJUST=NO\nBEARING, SEAT\n"
      << "*TIE, NAME=T2, POSITION TOLERANCE=1.5, ADJUST=NO\nRIM, INNER\n";
}

/// Mirror plane, ground, and the packing against the shoe's inner edge, frictionless.
void write_supports(std::ostream& out, const Assembly& a) {
  const std::set<int> bearing(a.wall.shell.mesh.nodes.at("bearing").begin(),
                              a.wall.shell.mesh.nodes.at("bearing").end());
  const std::set<int> rim(a.core.rim.begin(), a.core.rim.end());
  std::set<int> fixed(a.core.ground_ring.begin(), a.core.ground_ring.end());
  fixed.insert(a.core.ground_plate.begin(), a.core.ground_plate.end());
  const std::set<int> bone(a.core.bone.begin(), a.core.bone.end());
  const auto& wall_bone = a.wall.shell.mesh.nodes.at("bone");
  const std::set<int> held(wall_bone.begin(), wall_bone.end());
  std::ostringstream equations;
  std::set<int> sideways;  // their z is in an equation
  for (const auto& [node, n] : a.core.sides) {
    if (fixed.contains(node)) continue;
    const bool on_mirror = a.core.X[static_cast<std::size_t>(node)].z() == 0;
    if (on_mirror) continue;
    const bool x_first = std::abs(n.x()) > std::abs(n.z());
    equations << "*EQUATION\n2\n"
              << a.of_core(node) << (x_first ? ", 1, " : ", 3, ") << (x_first ? n.x() : n.z()) << ", "
              << a.of_core(node) << (x_first ? ", 3, " : ", 1, ") << (x_first ? n.z() : n.x()) << "\n";
    sideways.insert(node);
  }
  out << equations.str() << "*BOUNDARY\n";
  for (std::size_t k = 0; k < a.wall.shell.mesh.X.size(); ++k) {
    const int n = static_cast<int>(k);
    if (a.wall.shell.mesh.X[k].z() == 0 && !bearing.contains(n) && !held.contains(n)) out << a.of_wall(n) << ", 3, 3\n";
  }
  for (std::size_t k = 0; k < a.core.X.size(); ++k) {
    const int n = static_cast<int>(k);
    if (fixed.contains(n) || bone.contains(n)) continue;
    if (a.core.X[k].z() == 0 && !rim.contains(n)) out << a.of_core(n) << ", 3, 3\n";
  }
  for (const auto& [node, n] : a.core.sides)
    if (!fixed.contains(node) && a.core.X[static_cast<std::size_t>(node)].z() == 0)
      out << a.of_core(node) << ", 1, 1\n";
  for (const int n : fixed) out << a.of_core(n) << ", 1, 3\n";
  for (const int n : a.core.ground_packing)
    if (!fixed.contains(n)) out << a.of_core(n) << ", 2, 2\n";
}

void write_steps(std::ostream& out, const Assembly& a, const Vec3& joint) {
  const auto move = [&](int id, const Vec3& X, int mode) {
    const double ux = mode == 0 ? 1 : mode == 2 ? -(X.y() - joint.y()) : 0;
    const double uy = mode == 1 ? 1 : mode == 2 ? X.x() - joint.x() : 0;
    out << id << ", 1, 1, " << ux << "\n" << id << ", 2, 2, " << uy << "\n" << id << ", 3, 3, 0.\n";
  };
  for (int mode = 0; mode < 3; ++mode) {
    out << "*STEP\n*STATIC\n*BOUNDARY\n";
    for (const int n : a.wall.shell.mesh.nodes.at("bone"))
      move(a.of_wall(n), a.wall.shell.mesh.X[static_cast<std::size_t>(n)], mode);
    for (const int n : a.core.bone) move(a.of_core(n), a.core.X[static_cast<std::size_t>(n)], mode);
    out << "*NODE PRINT, NSET=READU\nU\n*NODE PRINT, NSET=READRF\nRF\n*EL PRINT, ELSET=READS\nS\n*END STEP\n";
  }
}

void add_bone(Deck& deck, const Assembly& a, const Vec3& joint) {
  const auto add = [&](const std::string& part, int id, const Vec3& X, double share) {
    for (const auto& name : {part, std::string("bone")}) {
      deck.readings[name + " Fx"].terms.push_back({id, 0, share});
      deck.readings[name + " Fy"].terms.push_back({id, 1, share});
      deck.readings[name + " M"].terms.push_back({id, 0, -share * (X.y() - joint.y())});
      deck.readings[name + " M"].terms.push_back({id, 1, share * (X.x() - joint.x())});
    }
  };
  const auto& m = a.wall.shell.mesh;
  const auto& nodes = m.nodes.at("bone");
  for (std::size_t k = 0; k < nodes.size(); ++k) {
    const double t = a.wall.shell.bone_t[k];
    const std::array<const char*, 3> names{"toe", "quarter", "heel"};
    const std::array<double, 2> lines{0.5, 1.0};
    std::array<double, 3> share{0, 0, 0};
    for (std::size_t g = 0; g < 2; ++g)
      if (std::abs(t - lines[g]) < 1e-9) share[g] = share[g + 1] = 0.5;
    if (share[0] + share[1] + share[2] == 0) share[t < 0.5 ? 0 : t < 1 ? 1 : 2] = 1;
    for (std::size_t g = 0; g < 3; ++g)
      if (share[g] > 0)
        add(std::string("lamellae ") + names[g], a.of_wall(nodes[k]), m.X[static_cast<std::size_t>(nodes[k])],
            share[g]);
  }
  for (const int n : a.core.bone) add("corium", a.of_core(n), a.core.X[static_cast<std::size_t>(n)], 1);
  for (auto& [name, reading] : deck.readings) reading.of = "RF";
}

/// Mean pressure over the breadth within a window along x, or only near the mid-line.
template <class Choose>
void add_pressure(Deck& deck, const Assembly& a, const std::string& name, double from, const Choose& choose) {
  Reading r{"S", {}};
  double area = 0;
  for (std::size_t e = 0; e < a.core.wedges.size(); ++e) {
    const Wedge& w = a.core.wedges[e];
    if (!choose(w) || w.centre.x() < from || w.centre.x() > from + kWindow) continue;
    r.terms.push_back({a.wedge(static_cast<int>(e)), 1, -w.area});
    area += w.area;
  }
  if (area == 0) return;
  for (auto& term : r.terms) term.weight /= area;
  deck.readings[name] = r;
}

void add_readings(Deck& deck, const Assembly& a) {
  const auto sum = [&](const char* name, const std::vector<int>& nodes) {
    for (const int n : nodes) deck.readings[name].terms.push_back({a.of_core(n), 1, 1});
    deck.readings[name].of = "RF";
  };
  sum("ground ring", a.core.ground_ring);
  sum("ground plate", a.core.ground_plate);
  sum("ground packing", a.core.ground_packing);
  const auto gauge = [&](const char* name, int t, double height) {
    Reading& r = deck.readings[name];
    r.of = "U";
    for (const auto& g : a.wall.gauge(t, height))
      for (int c = 0; c < 3; ++c) r.terms.push_back({a.of_wall(g.node), c, 1e6 * g.weight[c]});
  };
  gauge("dorsal strain", 0, kDorsalGauge);
  gauge("quarter strain", 1, kQuarterGauge);
  deck.readings["heel spread"] = {"U", {{a.of_wall(a.wall.heel_coronet), 2, 2}}};
  deck.readings["coronet x"] = {"U", {{a.of_wall(a.wall.toe_coronet), 0, 1}}};
  const double tip = a.plan.of.view.tip;
  const auto corium = [](const Wedge& w) { return w.part == "corium"; };
  const auto filling = [&a](const Wedge& w) {  // under the sole's horn; the program reads the frog apart
    return w.part == "packing" && w.highest_of_packing && !a.plan.in_frog(w.centre.x(), w.centre.y());
  };
  const auto near = [](const auto& choose) {
    return [choose](const Wedge& w) { return choose(w) && w.centre.y() < 8; };
  };
  for (const auto& [where, x] : {std::pair<std::string, double>{"tip", 0}, {"middle", -30}}) {
    add_pressure(deck, a, "corium pressure " + where, tip + x - kWindow, corium);
    add_pressure(deck, a, "sole pressure " + where, tip + x - kWindow / 2, filling);
    add_pressure(deck, a, "corium pressure " + where + ", mid-line", tip + x - kWindow, near(corium));
    add_pressure(deck, a, "sole pressure " + where + ", mid-line", tip + x - kWindow / 2, near(filling));
  }
  // a cut through the lowest layer of the filling: the whole force that it passes down
  Reading cut{"S", {}};
  for (std::size_t e = 0; e < a.core.wedges.size(); ++e)
    if (a.core.wedges[e].lowest_of_packing)
      cut.terms.push_back({a.wedge(static_cast<int>(e)), 1, -a.core.wedges[e].area});
  if (!cut.terms.empty()) deck.readings["through packing"] = cut;
}

void add_facts(Deck& deck, const Assembly& a, const Vec3& joint, int corium_layers) {
  deck.facts = {{"nodes", static_cast<double>(a.wall.shell.mesh.X.size() + a.core.X.size())},
                {"lamellae toe area", a.wall.shell.bone_area[0]},
                {"lamellae quarter area", a.wall.shell.bone_area[1]},
                {"lamellae heel area", a.wall.shell.bone_area[2]},
                {"joint x", joint.x()},
                {"joint y", joint.y()}};
  for (const auto& w : a.core.wedges) {
    if (w.part == "corium") deck.facts["corium area"] += w.area / corium_layers;
    if (w.lowest_of_packing) deck.facts["packing area"] += w.area;
  }
}

}  // namespace

const std::vector<Level>& levels() {
  static const std::vector<Level> all{{"coarse", {8, 2, 2, 2, 3, 1, 1, 1}, {10, 1, 1, 1, 1}},
                                      {"medium", {12, 3, 2, 3, 4, 2, 1, 1}, {6.5, 2, 2, 1, 1}},
                                      {"fine", {16, 5, 3, 4, 6, 3, 2, 1}, {4.2, 2, 2, 2, 1}}};
  return all;
}

Deck foot_deck(const scenarios::Case& run, const scenarios::CaseMaterials& materials, const Level& level) {
  FootPlan plan = foot_plan(run.foot, run.shoeing);
  Core core = foot_core(plan, level.core);
  Wall wall = wall_and_lamellae(run.foot, level.wall);
  const int shift = static_cast<int>(wall.shell.mesh.X.size());
  const Assembly a{run, std::move(plan), std::move(wall), std::move(core), shift};
  const Vec3 joint{-run.foot.toe_to_cor, run.foot.cor_height, 0};
  Deck deck;
  add_bone(deck, a, joint);
  add_readings(deck, a);
  add_facts(deck, a, joint, level.core.corium);
  std::ostringstream out;
  out.precision(12);
  write_nodes(out, a);
  write_elements(out, a);
  write_materials(out, a, materials);
  for (const char* of : {"U", "RF", "S"}) {
    std::set<int> ids;
    for (const auto& [name, r] : deck.readings)
      if (r.of == of)
        for (const auto& term : r.terms) ids.insert(term.id);
    out << (std::string(of) == "S" ? "*ELSET, ELSET=READS\n" : "*NSET, NSET=READ" + std::string(of) + "\n");
    for (const int id : ids) out << id << "\n";
  }
  write_ties(out, a);
  write_supports(out, a);
  write_steps(out, a, joint);
  deck.text = out.str();
  return deck;
}

}  // namespace hoofload::tests
