#include "mesh/space_mesh.hpp"

#include "mesh/brick_shapes.hpp"
#include "mesh/capsule_shell.hpp"

#include <Eigen/Geometry>
#include <Eigen/LU>
#include <algorithm>
#include <limits>

namespace hoofload::mesh {

double smallest_jacobian(const SpaceMesh& mesh) {
  std::vector<Hex20::Gradients> gradients;
  for (const auto& p : gauss_cube<3>()) gradients.push_back(Hex20::dN(p.xi, p.eta, p.zeta));
  for (int c = 0; c < 8; ++c)
    gradients.push_back(Hex20::dN(Hex20::places[c][0], Hex20::places[c][1], Hex20::places[c][2]));
  double least = std::numeric_limits<double>::infinity();
  for (const auto& hex : mesh.hex) {
    Eigen::Matrix<double, 3, 20> X;
    for (int a = 0; a < 20; ++a) X.col(a) = mesh.X[hex[a]];
    for (const auto& g : gradients) least = std::min(least, (X * g).determinant());
  }
  return least;
}

std::vector<FaceQuadraturePoint> face_quadrature(const SpaceMesh& mesh, const std::vector<Face>& faces) {
  std::vector<FaceQuadraturePoint> points;
  for (const Face& face : faces) {
    Eigen::Matrix<double, 3, 8> X;
    for (int a = 0; a < 8; ++a) X.col(a) = mesh.X[face[a]];
    for (const auto& p : gauss_square<3>()) {
      const Eigen::Matrix<double, 3, 2> tangents = X * Quad8::dN(p.xi, p.eta);
      const Vec3 n = tangents.col(0).cross(tangents.col(1));
      const Quad8::Values shape = Quad8::N(p.xi, p.eta);
      points.push_back({{face, shape, X * shape, -1}, n.normalized(), p.weight * n.norm()});
    }
  }
  return points;
}

}  // namespace hoofload::mesh
