#include "mesh/peer_section.hpp"

#include <cmath>
#include <map>
#include <set>
#include <string>
#include <utility>

#include "mesh/gmsh_outline.hpp"
#include "mesh/section_edges.hpp"

namespace hoofload::mesh {
namespace {

constexpr double r_in = 41, r_out = 63, z_bear = 10, z_top = 90, slope = 18.0 / 80;

double edge_length(PeerSize size) {
  switch (size) {
    case PeerSize::k2:
      return 3.3;
    case PeerSize::k5:
      return 2.05;
    case PeerSize::k20:
      return 0.983;
    case PeerSize::k80:
      return 0.482;
  }
  return 2.05;
}

double wall_in(double z, double off = 0) { return r_out - 10 - off - slope * (z - z_bear); }
double dome(double r) { return z_bear + 8 * (1 - (r / 53) * (r / 53)); }

/// r where the dome raised by off_z meets the wall's inner face moved in by off_r.
double meet(double off_z, double off_r) {
  double a = 20, b = 53;
  for (int k = 0; k < 200; ++k) {
    const double m = 0.5 * (a + b);
    (m > wall_in(dome(m) + off_z, off_r) ? b : a) = m;
  }
  return 0.5 * (a + b);
}

/// Collects points and named curves in the order in which they are first needed.
struct Drawing {
  double h;
  Outline outline;
  std::map<std::string, int> curve;

  int point(double x, double y, double factor = 1) {
    outline.points.push_back({{x, y}, factor * h});
    return static_cast<int>(outline.points.size()) - 1;
  }
  void line(const std::string& name, int a, int b) { through(name, {a, b}); }
  void through(const std::string& name, std::vector<int> points) {
    outline.curves.push_back(std::move(points));
    curve[name] = static_cast<int>(outline.curves.size());
  }
  void parabola(const std::string& name, double off, int pa, double ra, int pb, double rb, int n = 24) {
    std::vector<int> points{pa};
    for (int i = 1; i < n; ++i) {
      const double r = ra + (rb - ra) * i / n;
      points.push_back(point(r, dome(r) + off));
    }
    points.push_back(pb);
    through(name, std::move(points));
  }
  void region(const std::string& name, const std::vector<std::string>& loop) {
    OutlineRegion region{name, {}};
    for (const std::string& c : loop) region.curves.push_back(c[0] == '-' ? -curve.at(c.substr(1)) : curve.at(c));
    outline.regions.push_back(std::move(region));
  }
};

void draw_curves(Drawing& d) {
  const double r_st = meet(10, 0), r_sl = meet(10, 3), r_ct = meet(15, 3);
  const int o = d.point(0, 0), a1 = d.point(0, dome(0));
  const int a2 = d.point(0, dome(0) + 10), a3 = d.point(0, dome(0) + 15);
  const int top0 = d.point(0, z_top, 3);
  const int s1 = d.point(r_in, 0), s2 = d.point(r_out, 0, 2);
  const int s3 = d.point(r_out, z_bear), s4 = d.point(53, z_bear);
  const int s5 = d.point(r_in, z_bear), p1 = d.point(r_in, dome(r_in));
  const int st = d.point(r_st, dome(r_st) + 10), sl = d.point(r_sl, dome(r_sl) + 10),
            ct = d.point(r_ct, dome(r_ct) + 15);
  const int wt_o = d.point(r_out - 18, z_top, 1.5), wt_i = d.point(wall_in(z_top), z_top);
  const int lt_i = d.point(wall_in(z_top, 3), z_top);
  d.line("pb", o, s1), d.line("sb", s1, s2), d.line("so", s2, s3), d.line("w_s", s4, s3), d.line("s_top", s5, s4);
  d.line("s_in", s1, s5), d.line("gap", s5, p1);
  d.parabola("itf", 0, a1, 0, p1, r_in), d.parabola("und", 0, p1, r_in, s4, 53, 6);
  d.line("s_w", s4, st);
  d.parabola("stop_l", 10, sl, r_sl, st, r_st, 4), d.parabola("stop", 10, a2, 0, sl, r_sl);
  d.line("l_c", sl, ct);
  d.parabola("ctop", 15, a3, 0, ct, r_ct);
  d.line("l_b", ct, lt_i), d.line("l_w", st, wt_i), d.line("w_o", s3, wt_o), d.line("w_t", wt_i, wt_o);
  d.line("l_t", lt_i, wt_i), d.line("b_t", top0, lt_i);
  d.line("x1", o, a1), d.line("x2", a1, a2), d.line("x3", a2, a3), d.line("x4", a3, top0);
}

void draw_regions(Drawing& d) {
  d.region("packing", {"pb", "s_in", "gap", "-itf", "-x1"});
  d.region("shoe", {"sb", "so", "-w_s", "-s_top", "-s_in"});
  d.region("sole", {"itf", "und", "s_w", "-stop_l", "-stop", "-x2"});
  d.region("corium", {"stop", "l_c", "-ctop", "-x3"});
  d.region("bone", {"ctop", "l_b", "-b_t", "-x4"});
  d.region("lamella", {"stop_l", "l_w", "-l_t", "-l_b", "-l_c"});
  d.region("wall", {"w_s", "w_o", "-w_t", "-l_w", "-s_w"});
}

/// Splines only interpolate the parabolas: put every node of them on the true curve, mid-side nodes at the mean r.
void put_on_parabolas(OutlineMesh& m, const Drawing& d) {
  for (const auto& [name, off] :
       std::map<std::string, double>{{"itf", 0}, {"und", 0}, {"stop", 10}, {"stop_l", 10}, {"ctop", 15}})
    for (const Edge& e : m.edges.at(static_cast<std::size_t>(d.curve.at(name) - 1))) {
      Vec2 &a = m.X[static_cast<std::size_t>(e.a)], &b = m.X[static_cast<std::size_t>(e.b)];
      m.X[static_cast<std::size_t>(e.mid)].x() = 0.5 * (a.x() + b.x());
      for (const int id : {e.a, e.b, e.mid}) {
        Vec2& x = m.X[static_cast<std::size_t>(id)];
        x.y() = dome(x.x()) + off;
      }
    }
}

std::set<int> nodes_of_curves(const OutlineMesh& m, const Drawing& d, const std::vector<std::string>& names) {
  std::set<int> ids;
  for (const std::string& name : names)
    for (const Edge& e : m.edges.at(static_cast<std::size_t>(d.curve.at(name) - 1))) ids.insert({e.a, e.b, e.mid});
  return ids;
}

/// Gives the packing its own copies of the nodes of the sole's interface.
std::map<int, int> double_nodes(PlaneMesh& mesh, const std::set<int>& line) {
  std::map<int, int> copy;
  for (const int id : line) {
    copy[id] = static_cast<int>(mesh.X.size());
    mesh.X.push_back(Vec2{mesh.X[static_cast<std::size_t>(id)]});
  }
  for (const std::size_t k : blocks_named(mesh, "packing"))
    for (auto& tri : mesh.blocks[k].tri)
      for (int& id : tri)
        if (const auto it = copy.find(id); it != copy.end()) id = it->second;
  return copy;
}

PlaneMesh as_blocks(const OutlineMesh& m, const Drawing& d, const std::set<int>& axis) {
  PlaneMesh mesh;
  mesh.X = m.X;
  for (const int id : axis) mesh.X[static_cast<std::size_t>(id)].x() = 0;
  for (std::size_t k = 0; k < m.tri.size(); ++k) {
    Block block{d.outline.regions[k].name, m.tri[k], {}};
    block.breadth.assign(block.tri.size(), {1, 1, 1, 1, 1, 1});
    mesh.blocks.push_back(std::move(block));
  }
  return mesh;
}

}  // namespace

PlaneMesh peer_section(PeerSize size, bool split) {
  Drawing d{edge_length(size), {}, {}};
  draw_curves(d);
  draw_regions(d);
  OutlineMesh m = mesh_outline(d.outline);
  put_on_parabolas(m, d);
  const auto on_line = [&](const std::vector<std::string>& names) { return nodes_of_curves(m, d, names); };
  std::set<int> axis = on_line({"x1", "x2", "x3", "x4"}), itf = on_line({"itf"});
  const std::set<int> pb = on_line({"pb"}), sb = on_line({"sb"}), top = on_line({"b_t"});
  PlaneMesh mesh = as_blocks(m, d, axis);
  const auto edges = [&](const std::vector<std::string>& regions, const std::set<int>& ids) {
    std::vector<TrianglesView> views;
    for (const std::string& r : regions)
      for (const std::size_t k : blocks_named(mesh, r))
        views.push_back({&mesh.blocks[k], 0, mesh.blocks[k].tri.size()});
    return edges_where(mesh, views, [&](int id) { return ids.contains(id); });
  };
  if (split) {
    mesh.edges["itf_master"] = edges({"sole"}, itf);
    std::set<int> slave;
    for (const auto& [master, copy] : double_nodes(mesh, itf)) {
      mesh.pairs["itf"].push_back({copy, master});
      slave.insert(copy);
      if (axis.contains(master)) axis.insert(copy);
    }
    itf = slave;
  }
  mesh.edges["itf"] = edges({split ? "packing" : "sole"}, itf);
  mesh.edges["pb"] = edges({"packing"}, pb);
  mesh.edges["sb"] = edges({"shoe"}, sb);
  mesh.edges["b_t"] = edges({"bone"}, top);
  mesh.edges["axis"] = edges({"packing", "sole", "corium", "bone"}, axis);
  return mesh;
}

}  // namespace hoofload::mesh
