#include "scenarios/build_ground.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "solver/contact_pressure.hpp"

namespace hoofload::scenarios {

double plan_radius(const mesh::Foot& foot) { return 0.5 * std::sqrt(foot.bearing_length * foot.bearing_width); }

double bed_stiffness(double E, double nu, double h, double a) {
  const double half_space = 2 * E / (std::numbers::pi * a * (1 - nu * nu));  // Johnson 1985, rigid circular punch
  const double confined = E * (1 - nu) / ((1 + nu) * (1 - 2 * nu));          // Johnson 1985, thin layer
  const double shape = a / (2 * h);
  const double bonded =
      E * (1 + 2 * shape * shape);  // Gent & Lindley 1959: what an incompressible layer yields sideways
  return half_space + std::min(confined, bonded) / h;
}

solver::ColumnBed ground_bed(const Case& run, const CaseMaterials& materials) {
  const auto [E, nu] = materials.small_strain(run.material.ground);
  solver::ColumnBed bed;
  bed.thickness = run.ground.depth;
  bed.stiffness = bed_stiffness(E, nu, run.ground.depth, plan_radius(run.foot));
  if (const auto crush = materials.property(run.material.ground, "crush_stress")) bed.crush = *crush;
  return bed;
}

std::map<int, double> column_areas(const mesh::PlaneMesh& mesh, const std::vector<std::string>& faces,
                                   solver::Symmetry symmetry, const std::set<int>& taken,
                                   const std::function<double(const std::string& face, double x)>& open) {
  std::vector<solver::Vec2> level(mesh.X.begin(), mesh.X.end());
  for (auto& X : level) X.y() = 0;
  std::map<int, double> areas;
  for (const auto& face : faces) {
    const auto edges = mesh.edges.find(face);
    if (edges == mesh.edges.end()) continue;
    for (std::size_t i = 0; i < edges->second.edges.size(); ++i) {
      const mesh::Edge& e = edges->second.edges[i];
      const std::array<int, 3> nodes{e.a, e.b, e.mid};
      if (std::any_of(nodes.begin(), nodes.end(), [&](int node) { return taken.count(node) != 0; })) continue;
      std::array<double, 3> breadth{1, 1, 1};
      if (!edges->second.breadth.empty()) breadth = edges->second.breadth[i];
      for (std::size_t a = 0; a < 3; ++a) breadth[a] *= open(face, level[static_cast<std::size_t>(nodes[a])].x());
      const auto w = solver::edge_weights(level, e, breadth, symmetry);
      for (std::size_t a = 0; a < 3; ++a) areas[nodes[a]] += std::max(0.0, w[a]);
    }
  }
  return areas;
}

}  // namespace hoofload::scenarios
