#include "mesh/plane_mesh.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include "mesh/tri_shapes.hpp"

namespace hoofload::mesh {
namespace {

double jacobian_at(const PlaneMesh& mesh, const std::array<int, 6>& tri, double xi, double eta) {
  const Tri6::Gradients g = Tri6::dN(xi, eta);
  Eigen::Matrix2d j = Eigen::Matrix2d::Zero();
  for (int i = 0; i < 6; ++i) j += mesh.X[static_cast<std::size_t>(tri[static_cast<std::size_t>(i)])] * g.row(i);
  return j.determinant();
}

double corner_angle(const Vec2& at, const Vec2& p, const Vec2& q) {
  const Vec2 a = p - at;
  const Vec2 b = q - at;
  return std::atan2(std::abs(a.x() * b.y() - a.y() * b.x()), a.dot(b));
}

}  // namespace

std::vector<int> nodes_of(const EdgeSet& set) {
  std::vector<int> ids;
  std::set<int> seen;
  for (const Edge& e : set.edges)
    for (const int id : {e.a, e.mid, e.b})
      if (seen.insert(id).second) ids.push_back(id);
  return ids;
}

double smallest_jacobian(const PlaneMesh& mesh) {
  double least = std::numeric_limits<double>::infinity();
  for (const Block& block : mesh.blocks)
    for (const auto& tri : block.tri) {
      for (const auto& p : Tri6::places) least = std::min(least, jacobian_at(mesh, tri, p[0], p[1]));
      least = std::min(least, jacobian_at(mesh, tri, 1.0 / 3, 1.0 / 3));
    }
  return least;
}

double smallest_angle(const PlaneMesh& mesh) {
  double least = std::numeric_limits<double>::infinity();
  for (const Block& block : mesh.blocks)
    for (const auto& tri : block.tri)
      for (std::size_t c = 0; c < 3; ++c) {
        const auto at = [&](std::size_t k) -> const Vec2& { return mesh.X[static_cast<std::size_t>(tri[k % 3])]; };
        least = std::min(least, corner_angle(at(c), at(c + 1), at(c + 2)));
      }
  return least;
}

double smallest_inside(const std::array<double, 6>& breadth) {
  constexpr int steps = 10;
  double least = breadth[0];
  for (int i = 0; i <= steps; ++i)
    for (int j = 0; i + j <= steps; ++j) {
      const double r = double(i) / steps, s = double(j) / steps, t = 1 - r - s;
      least =
          std::min(least, r * (2 * r - 1) * breadth[0] + s * (2 * s - 1) * breadth[1] + t * (2 * t - 1) * breadth[2] +
                              4 * r * s * breadth[3] + 4 * s * t * breadth[4] + 4 * t * r * breadth[5]);
    }
  return least;
}

std::array<double, 6> positive_inside(std::array<double, 6> breadth) {
  if (smallest_inside(breadth) > 0) return breadth;
  for (std::size_t k = 0; k < 3; ++k) breadth[3 + k] = 0.5 * (breadth[k] + breadth[(k + 1) % 3]);
  return breadth;
}

}  // namespace hoofload::mesh
