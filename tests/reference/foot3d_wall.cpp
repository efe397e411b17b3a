#include "tests/reference/foot3d_wall.hpp"

#include <Eigen/Geometry>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <map>

namespace hoofload::tests {
namespace {

using mesh::Vec3;

/// Half-steps as in mesh/capsule_shell.cpp: i along the outline, j up, k inwards.
struct Grid {
  const mesh::PlanOutline& o;
  const mesh::LamellaExtent& extent;
  const WallDivisions& d;

  [[nodiscard]] int columns() const { return d.ellipse + d.fore_branch + d.rear_branch; }
  [[nodiscard]] int rows() const { return d.below + d.lamellar + d.above; }
  [[nodiscard]] int layers() const { return d.thickness + d.lamella; }

  /// Where the layer's mid-surface passes the rear end at height y.
  [[nodiscard]] double end_t(double y) const {
    double low = 1.05, high = 1.97;
    for (int k = 0; k < 50; ++k) {
      const double half = 0.5 * (low + high);
      const double x = mesh::inside_point(o, half, y, mesh::wall_thickness(o, half) + extent.thickness / 2).x();
      (x > extent.end_x ? low : high) = half;
    }
    return 0.5 * (low + high);
  }
  [[nodiscard]] double t(int i, double y) const {
    const int e = 2 * d.ellipse, f = e + 2 * d.fore_branch;
    if (i <= e) return static_cast<double>(i) / e;
    const double cut = end_t(y);
    if (i <= f) return 1 + (cut - 1) * (i - e) / (f - e);
    return cut + (2 - cut) * (i - f) / (2 * d.rear_branch);
  }
  [[nodiscard]] double y(double t, int j) const {
    const double top = mesh::lamella_top(o, extent, t);
    const int low = 2 * d.below, high = low + 2 * d.lamellar;
    if (j <= low) return extent.bottom * j / low;
    if (j <= high) return extent.bottom + (top - extent.bottom) * (j - low) / (high - low);
    return top + (mesh::coronet_height(o, t) - top) * (j - high) / (2 * d.above);
  }
  /// Outline parameter and height of a grid point: they depend on one another behind the widest point.
  [[nodiscard]] std::array<double, 2> place(int i, int j) const {
    double at = t(i, extent.bottom), height = y(at, j);
    for (int pass = 0; pass < 25; ++pass) at = t(i, height), height = y(at, j);
    return {at, height};
  }
  [[nodiscard]] double depth(double t, int k) const {
    const double wall = mesh::wall_thickness(o, t);
    const int inner = 2 * d.thickness;
    return k <= inner ? wall * k / inner : wall + extent.thickness * (k - inner) / (2 * d.lamella);
  }
};

class Builder {
 public:
  Builder(const Grid& grid, Wall& wall) : g_(grid), wall_(wall) {}

  int at(int i, int j, int k) {
    const auto [it, fresh] = id_.try_emplace({i, j, k}, static_cast<int>(mesh().X.size()));
    if (!fresh) return it->second;
    const auto [t, y] = g_.place(i, j);
    Vec3 p = mesh::inside_point(g_.o, t, y, g_.depth(t, k));
    if (i == 0) p.z() = 0, mesh().nodes["symmetry"].push_back(it->second);
    mesh().X.push_back(p);
    if (j == 0) mesh().nodes["bearing"].push_back(it->second);
    if (k == 2 * g_.layers()) mesh().nodes["bone"].push_back(it->second), wall_.shell.bone_t.push_back(t);
    return it->second;
  }

  void brick(int i, int j, int k) {
    std::array<int, 20> hex{};
    for (std::size_t a = 0; a < 20; ++a) {
      const auto& r = mesh::Hex20::places[a];
      hex[a] = at(2 * i + 1 + static_cast<int>(r[0]), 2 * j + 1 + static_cast<int>(r[1]),
                  2 * k + 1 + static_cast<int>(r[2]));
    }
    mesh().hex.push_back(hex);
    mesh().hex_region.push_back(k < g_.d.thickness ? "wall" : "lamella");
    mesh::Face face{};
    for (std::size_t a = 0; a < 8; ++a) face[a] = hex[static_cast<std::size_t>(mesh::Hex20::faces[1][a])];
    if (k == g_.d.thickness - 1) mesh().faces["inner"].push_back(face);
    if (k != g_.layers() - 1) return;
    mesh().faces["bone"].push_back(face);
    const double t = g_.place(2 * i + 1, 2 * j + 1)[0];
    for (const auto& q : mesh::face_quadrature(mesh(), {face}))
      wall_.shell.bone_area[t < 0.5 ? 0 : t < 1 ? 1 : 2] += q.area;
  }

 private:
  mesh::SpaceMesh& mesh() { return wall_.shell.mesh; }
  const Grid& g_;
  Wall& wall_;
  std::map<std::array<int, 3>, int> id_;
};

/// Gradients of a brick's shape functions at a reference point: one column a node.
Eigen::Matrix<double, 3, 20> gradients(const mesh::SpaceMesh& m, const std::array<int, 20>& hex, const Vec3& xi) {
  const auto dN = mesh::Hex20::dN(xi[0], xi[1], xi[2]);
  Eigen::Matrix3d J = Eigen::Matrix3d::Zero();
  for (int a = 0; a < 20; ++a) J += m.X[static_cast<std::size_t>(hex[static_cast<std::size_t>(a)])] * dN.row(a);
  return J.transpose().inverse() * dN.transpose();
}

}  // namespace

std::vector<GaugeWeight> Wall::gauge(int t, double height) const {
  const int columns = divisions.ellipse + divisions.fore_branch + divisions.rear_branch;
  const int rows = divisions.below + divisions.lamellar + divisions.above;
  const mesh::SpaceMesh& m = shell.mesh;
  const Vec3 d = (mesh::wall_point(outline, t, 1) - mesh::wall_point(outline, t, 0)).normalized();
  std::vector<GaugeWeight> out;
  // at the quarter the gauge lies on the line of two columns: their mean
  const std::vector<std::pair<int, double>> sides =
      t == 0 ? std::vector<std::pair<int, double>>{{0, -1}}
             : std::vector<std::pair<int, double>>{{divisions.ellipse - 1, 1}, {divisions.ellipse, -1}};
  for (const auto& [column, xi] : sides)
    for (int j = 0; j < rows; ++j) {
      const auto& hex = m.hex[static_cast<std::size_t>(j * columns + column)];
      const auto y_at = [&](double eta) {
        const auto N = mesh::Hex20::N(xi, eta, -1);
        double y = 0;
        for (int a = 0; a < 20; ++a) y += N[a] * m.X[static_cast<std::size_t>(hex[static_cast<std::size_t>(a)])].y();
        return y;
      };
      if (height < y_at(-1) || height >= y_at(1)) continue;
      double low = -1, high = 1;
      for (int k = 0; k < 50; ++k) (y_at(0.5 * (low + high)) < height ? low : high) = 0.5 * (low + high);
      const auto dN = gradients(m, hex, {xi, 0.5 * (low + high), -1});
      for (int a = 0; a < 20; ++a)
        out.push_back({hex[static_cast<std::size_t>(a)], d * d.dot(dN.col(a)) / static_cast<double>(sides.size())});
      break;
    }
  return out;
}

Wall wall_and_lamellae(const mesh::Foot& foot, const WallDivisions& divisions) {
  Wall wall{divisions, {}, mesh::plan_outline(foot)};
  wall.shell.bone_area = {0, 0, 0};
  const mesh::LamellaExtent extent = mesh::lamella_extent(foot);
  const Grid g{wall.outline, extent, wall.divisions};
  Builder build(g, wall);
  for (int k = 0; k < divisions.thickness; ++k)
    for (int j = 0; j < g.rows(); ++j)
      for (int i = 0; i < g.columns(); ++i) build.brick(i, j, k);
  for (int k = divisions.thickness; k < g.layers(); ++k)
    for (int j = divisions.below; j < divisions.below + divisions.lamellar; ++j)
      for (int i = 0; i < divisions.ellipse + divisions.fore_branch; ++i) build.brick(i, j, k);
  wall.toe_coronet = build.at(0, 2 * g.rows(), 0);
  wall.heel_coronet = build.at(2 * g.columns(), 2 * g.rows(), 0);
  return wall;
}

}  // namespace hoofload::tests
