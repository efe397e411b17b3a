#include "tests/reference/foot3d_plan.hpp"

#include <gmsh.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>
#include <string>

namespace hoofload::tests {
namespace {

namespace occ = gmsh::model::occ;
using Points = std::vector<Eigen::Vector2d>;

constexpr double kBlunt = 2;     ///< half-breadth at which the frog's apex is cut off
constexpr double kOpening = 20;  ///< the footprint opens over this length (mesh/breadths.cpp); here at its middle

/// The shoe stands out by so much [mm], so that every node of the wall's curved edge finds a face below it.
constexpr double kBeyond = 0.5;

double smoothstep(double u) {
  u = std::clamp(u, 0.0, 1.0);
  return u * u * (3 - 2 * u);
}

/// n + 1 points (x, f(x)) from `front` back to `end`, denser where the curve rises like a root (`front_root`).
template <class Function>
Points curve(const Function& f, double front, double end, int n, bool front_root, bool end_root = false) {
  Points p;
  for (int k = 0; k <= n; ++k) {
    double u = static_cast<double>(k) / n;
    if (front_root && end_root)
      u = 0.5 * (1 - std::cos(M_PI * u));
    else if (front_root)
      u = u * u;
    const double x = front + u * (end - front);
    p.emplace_back(x, f(x));
  }
  return p;
}

int spline(const Points& points) {
  std::vector<int> tags;
  for (const auto& p : points) tags.push_back(occ::addPoint(p.x(), p.y(), 0));
  return points.size() == 2 ? occ::addLine(tags[0], tags[1]) : occ::addSpline(tags);
}

/// The region within the shoe's outer edge.
int base_surface(const FootPlan& plan) {
  const auto& o = plan.of.plan.outline;
  const double end = plan.of.shoe.end,
               last = mesh::shoe_outer_chord(plan.of.plan, plan.of.shoeing.shoe, end + 1e-6) / 2;
  std::vector<int> arc;
  for (int k = 0; k <= 60; ++k) {
    const double t = 2.0 * k / 60;
    const Eigen::Vector2d d =
        mesh::bearing_point(o, std::min(t + 1e-4, 2.0)) - mesh::bearing_point(o, std::max(t - 1e-4, 0.0));
    Eigen::Vector2d p = mesh::bearing_point(o, t) + kBeyond * Eigen::Vector2d(d.y(), -d.x()).normalized();
    if (k == 0) p.y() = 0;
    arc.push_back(occ::addPoint(p.x(), p.y(), 0));
  }
  const int corner = occ::addPoint(end, last, 0), rear = occ::addPoint(end, 0, 0);
  const int loop = occ::addCurveLoop({occ::addSpline(arc), occ::addLine(arc.back(), corner), occ::addLine(corner, rear),
                                      occ::addLine(rear, arc.front())});
  return occ::addPlaneSurface({loop});
}

/// All outlines inside it.
std::vector<int> inner_curves(const FootPlan& plan) {
  const auto& v = plan.of.view;
  const double end = plan.of.shoe.end + 1e-6;
  const auto rim = [&](double x) { return plan.rim(x); };
  const auto opening = [&](double x) { return plan.shoe_inner(x); };
  const auto frog = [&](double x) { return plan.frog(x); };
  const auto bone = [&](double x) { return plan.bone(x); };
  Points inner = curve(opening, plan.of.shoe.inner_toe, end, 40, true);
  inner.front().y() = 0, inner.back().x() = plan.of.shoe.end;
  // the line at the packing's rear end must meet the curve itself: a hair's gap would be meshed
  const auto behind = std::find_if(inner.begin(), inner.end(), [&](const auto& p) { return p.x() < plan.packing_end; });
  inner.insert(behind, {plan.packing_end, plan.shoe_inner(plan.packing_end)});
  Points sole = curve(rim, v.white_line, v.sole_end, 40, true);
  sole.front().y() = 0;
  Points foot = curve(bone, v.tip, v.process, 40, true, true);
  foot.front().y() = 0;
  foot.back().y() = plan.frog(v.process);
  return {spline(sole),
          spline({sole.back(), {v.sole_end, 0}}),
          spline(inner),
          spline(curve(frog, plan.frog_apex, v.sole_end, 24, false)),
          spline({{plan.frog_apex, 0}, {plan.frog_apex, plan.frog(plan.frog_apex)}}),
          spline(foot),
          spline({{plan.open_x, 0}, {plan.open_x, plan.frog(plan.open_x)}}),
          spline({{plan.packing_end, 0}, {plan.packing_end, plan.shoe_inner(plan.packing_end)}})};
}

PlanTriangles read_triangles() {
  PlanTriangles out;
  std::vector<std::size_t> tags;
  std::vector<double> xyz, parametric;
  gmsh::model::mesh::getNodes(tags, xyz, parametric);
  std::map<std::size_t, Eigen::Vector2d> place;
  for (std::size_t i = 0; i < tags.size(); ++i) place[tags[i]] = {xyz[3 * i], xyz[3 * i + 1]};
  std::vector<std::size_t> elements, nodes;
  gmsh::model::mesh::getElementsByType(9, elements, nodes);
  std::map<std::size_t, int> id;
  for (std::size_t e = 0; e < elements.size(); ++e) {
    std::array<int, 6> t{};
    for (std::size_t a = 0; a < 6; ++a) {
      const auto [it, fresh] = id.try_emplace(nodes[6 * e + a], static_cast<int>(out.X.size()));
      if (fresh) out.X.push_back(place.at(nodes[6 * e + a]));
      t[a] = it->second;
    }
    const auto at = [&](std::size_t a) { return out.X[static_cast<std::size_t>(t[a])]; };
    const Eigen::Vector2d u = at(1) - at(0), w = at(2) - at(0);
    if (u.y() * w.x() - u.x() * w.y() < 0) std::swap(t[1], t[2]), std::swap(t[3], t[5]);
    // straight sides: where two outlines cross at a small angle a curved side would fold the sliver between them
    for (std::size_t k = 0; k < 3; ++k) out.X[static_cast<std::size_t>(t[3 + k])] = 0.5 * (at(k) + at((k + 1) % 3));
    out.tri.push_back(t);
  }
  for (auto& p : out.X)
    if (std::abs(p.y()) < 1e-9) p.y() = 0;
  return out;
}

}  // namespace

double FootPlan::rim(double x) const { return x >= of.view.white_line ? 0 : mesh::b_sole(of.plan, x) / 2; }
double FootPlan::shoe_inner(double x) const { return mesh::shoe_inner_chord(of.plan, of.shoeing.shoe, x) / 2; }
double FootPlan::frog(double x) const { return x > frog_apex + 1e-9 ? 0 : mesh::w_frog(of.plan, x) / 2; }

double FootPlan::bone(double x) const {
  const double middle = mesh::w_frog(of.plan, x) * smoothstep((mesh::branch_start_x(of.foot) - x) / kOpening);
  return (middle + mesh::b_corium(of.plan, x)) / 2;
}

bool FootPlan::in_sole(double x, double z) const {
  return x < of.view.white_line && x > of.view.sole_end && z < rim(x);
}
bool FootPlan::in_opening(double x, double z) const { return x < of.shoe.inner_toe && z < shoe_inner(x); }
bool FootPlan::in_frog(double x, double z) const { return x < frog_apex && x > of.view.sole_end && z < frog(x); }
bool FootPlan::in_corium(double x, double z) const {
  return x < of.view.tip && x > of.view.process && z < bone(x) && !(x < open_x && z < frog(x));
}
bool FootPlan::in_packing(double x, double z) const { return x > packing_end && in_opening(x, z); }

FootPlan foot_plan(const mesh::Foot& foot, const mesh::Shoeing& shoeing) {
  FootPlan plan{mesh::sagittal_plan(foot, shoeing, 1), 0, 0, 0};
  plan.open_x = mesh::branch_start_x(foot) - kOpening / 2;  // equal area: the opening is symmetric about its middle
  plan.packing_end = plan.of.columns.x[mesh::SagittalTemplate::frog_rear];
  double low = mesh::frog_base_x(foot), high = mesh::frog_apex_x(foot);
  for (int k = 0; k < 60; ++k) {
    const double half = 0.5 * (low + high);
    (mesh::w_frog(plan.of.plan, half) / 2 > kBlunt ? low : high) = half;
  }
  plan.frog_apex = low;
  return plan;
}

PlanTriangles plan_triangles(const FootPlan& plan, double size) {
  gmsh::initialize(0, nullptr, false);
  gmsh::option::setNumber("General.Terminal", 0);
  gmsh::option::setNumber("General.NumThreads", 1);
  gmsh::option::setNumber("Mesh.Algorithm", 6);
  gmsh::option::setNumber("Mesh.MeshSizeMin", size);
  gmsh::option::setNumber("Mesh.MeshSizeMax", size);
  gmsh::model::add("plan");
  try {
    const int base = base_surface(plan);
    gmsh::vectorpair tools, out;
    for (const int c : inner_curves(plan)) tools.emplace_back(1, c);
    std::vector<gmsh::vectorpair> map;
    occ::fragment({{2, base}}, tools, out, map);
    occ::synchronize();
    gmsh::model::mesh::generate(2);
    gmsh::model::mesh::setOrder(2);
  } catch (const std::string& what) {
    throw std::runtime_error("Gmsh could not mesh the plan: " + what);
  }
  PlanTriangles out = read_triangles();
  gmsh::finalize();
  if (out.tri.empty()) throw std::runtime_error("Gmsh made no triangles of the plan");
  return out;
}

}  // namespace hoofload::tests
