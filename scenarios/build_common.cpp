#include "scenarios/build_common.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "mesh/tri_shapes.hpp"

namespace hoofload::scenarios {

using solver::Vec2;

std::vector<Vec2> outward_normals(const mesh::PlaneMesh& mesh, const mesh::EdgeSet& set) {
  std::vector<Vec2> normals(mesh.X.size(), Vec2::Zero());
  const auto X = [&](int i) -> const Vec2& { return mesh.X[static_cast<std::size_t>(i)]; };
  const auto add = [&](int node, const Vec2& tangent) {
    normals[static_cast<std::size_t>(node)] += Vec2{tangent.y(), -tangent.x()};
  };
  for (const auto& e : set.edges) {
    // dX/ds at the three nodes of the quadratic edge.
    add(e.a, 2.0 * X(e.mid) - 1.5 * X(e.a) - 0.5 * X(e.b));
    add(e.b, 1.5 * X(e.b) + 0.5 * X(e.a) - 2.0 * X(e.mid));
    add(e.mid, X(e.b) - X(e.a));
  }
  for (auto& n : normals)
    if (n.squaredNorm() > 0) n.normalize();
  return normals;
}

solver::PairContact make_pair(const mesh::PlaneMesh& mesh, const PairRequest& request, std::set<int>& slaves,
                              std::set<int>& masters) {
  solver::PairContact pair;
  pair.name = request.name;
  pair.bond = request.bond;
  pair.friction = request.friction;
  const auto lines = mesh.pairs.find(request.name);
  if (lines == mesh.pairs.end()) return pair;
  const auto line = mesh.edges.find(request.name);
  const std::vector<Vec2> outward =
      line == mesh.edges.end() ? std::vector<Vec2>(mesh.X.size(), Vec2::Zero()) : outward_normals(mesh, line->second);
  for (const auto& [slave, master] : lines->second) {
    if (slaves.count(slave) + masters.count(slave) + slaves.count(master) > 0) continue;
    const Vec2 d = mesh.X[static_cast<std::size_t>(slave)] - mesh.X[static_cast<std::size_t>(master)];
    const bool apart = d.norm() > 1e-6;
    const Vec2 inward = -outward[static_cast<std::size_t>(slave)];
    if (!apart && inward.squaredNorm() == 0) continue;
    pair.slave.push_back(slave);
    pair.master.push_back(master);
    pair.normal.push_back(apart ? d.normalized() : inward);
    // A tie across a distance joins two middle lines; any other pair that does not touch can only close.
    if (apart && !request.spans_distance) pair.bond = solver::Bond::contact;
    pair.gap.push_back(apart && !request.spans_distance ? d.norm() : 0.0);
    pair.interference.push_back(request.interference);
  }
  slaves.insert(pair.slave.begin(), pair.slave.end());
  masters.insert(pair.master.begin(), pair.master.end());
  return pair;
}

std::vector<solver::Coefficient> chain_at(const solver::Model& model, const mesh::EdgeSet& chain, double x,
                                          int component) {
  const auto X = [&](int i) { return model.X[static_cast<std::size_t>(i)].x(); };
  for (const auto& e : chain.edges) {
    const double a = X(e.a), b = X(e.b);
    if ((x - a) * (x - b) > 1e-9) continue;
    double s = (2 * x - a - b) / (b - a);
    for (int i = 0; i < 4; ++i) {  // the mid-side node need not lie half-way in x
      const auto N = mesh::Line3::N(s), dN = mesh::Line3::dN(s);
      const double at = N[0] * a + N[1] * b + N[2] * X(e.mid), slope = dN[0] * a + dN[1] * b + dN[2] * X(e.mid);
      s = std::clamp(s - (at - x) / slope, -1.0, 1.0);
    }
    const auto N = mesh::Line3::N(s);
    return {{solver::plane_dof(e.a, component), N[0]},
            {solver::plane_dof(e.b, component), N[1]},
            {solver::plane_dof(e.mid, component), N[2]}};
  }
  return {};
}

std::vector<solver::Coefficient> patch_mean(const solver::Model& model, const mesh::EdgeSet& chain, double x,
                                            double width, int component) {
  constexpr int samples = 8;  // midpoints of equal parts
  std::map<int, double> sum;
  int found = 0;
  for (int i = 0; i < samples; ++i) {
    const auto at = chain_at(model, chain, x + width * ((i + 0.5) / samples - 0.5), component);
    found += at.empty() ? 0 : 1;
    for (const auto& [dof, c] : at) sum[dof] += c;
  }
  std::vector<solver::Coefficient> mean;
  for (const auto& [dof, c] : sum) mean.push_back({dof, c / found});
  return mean;
}

NailStiffness nail_stiffness(double E_nail, double E_horn) {
  constexpr double area = 6.0;      // mm^2, catalogue grade C
  constexpr double inertia = 1.47;  // mm^4, weak axis of a 3.6 x 1.7 mm shank
  constexpr double length = 25;     // mm in horn before the clinch
  const double k = E_horn;          // foundation modulus per length, N/mm per mm
  const double lambda = std::pow(k / (4 * E_nail * inertia), 0.25);
  return {E_nail * area / length, k / lambda};
}

bool has_packing(const Case& run) { return run.shoeing.packing.region != mesh::PackingRegion::none; }

bool has_backing(const Case& run) {
  return run.shoeing.shoe.type == mesh::ShoeType::full_plate || run.shoeing.pad.type == mesh::PadType::full;
}

void add_rest_note(const Case& run, std::vector<std::string>& notes) {
  if (!has_packing(run) || run.material.packing_rested <= 0) return;
  for (const Phase phase : run.load.phases)
    if (phase != Phase::swing && phase != Phase::standing) {
      notes.push_back(
          "packing.rested holds for swing and standing; a quick load meets a stiffer packing than the rested one");
      return;
    }
}

std::string ground_surface(const Case& run) { return run.material.ground.empty() ? "concrete" : run.material.ground; }

}  // namespace hoofload::scenarios
