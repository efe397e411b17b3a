#include "mesh/capsule_shell.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <utility>

namespace hoofload::mesh {
namespace {

/// Grid of half-steps: even indices are corners, odd ones mid-sides; i along the outline, j up, k inwards.
struct Grid {
  const PlanOutline& o;
  const LamellaExtent& extent;
  const ShellDivisions& d;

  [[nodiscard]] int columns() const { return d.ellipse + d.branch; }
  [[nodiscard]] int rows() const { return d.below + d.lamellar + d.above; }

  [[nodiscard]] double t(double i) const {
    return i <= 2 * d.ellipse ? i / (2 * d.ellipse) : 1 + (i - 2 * d.ellipse) / (2 * d.branch);
  }
  [[nodiscard]] double y(double t, int j) const {
    const double top = lamella_top(o, extent, t);
    const int low = 2 * d.below, high = low + 2 * d.lamellar;
    if (j <= low) return extent.bottom * j / low;
    if (j <= high) return extent.bottom + (top - extent.bottom) * (j - low) / (high - low);
    return top + (coronet_height(o, t) - top) * (j - high) / (2 * d.above);
  }
  [[nodiscard]] double depth(double t, int k) const {
    const double wall = wall_thickness(o, t);
    const int inner = 2 * d.thickness;
    return k <= inner ? wall * k / inner : wall + extent.thickness * (k - inner) / 2;
  }
  [[nodiscard]] Vec3 point(int i, int j, int k) const {
    Vec3 p = inside_point(o, t(i), y(t(i), j), depth(t(i), k));
    if (i == 0) p.z() = 0;  // exactly in the mirror plane
    return p;
  }
};

/// Makes nodes when a brick first asks for them.
class NodePool {
 public:
  NodePool(const Grid& grid, SpaceMesh& mesh)
      : grid_(grid),
        mesh_(mesh),
        ni_(2 * grid.columns() + 1),
        nj_(2 * grid.rows() + 1),
        id_(static_cast<std::size_t>(ni_) * nj_ * (2 * grid.d.thickness + 3), -1) {}

  int at(int i, int j, int k) {
    int& id = id_[(static_cast<std::size_t>(k) * nj_ + j) * ni_ + i];
    if (id < 0) {
      id = static_cast<int>(mesh_.X.size());
      mesh_.X.push_back(grid_.point(i, j, k));
      if (i == 0) mesh_.nodes["symmetry"].push_back(id);
      if (j == 0) mesh_.nodes["bearing"].push_back(id);
      if (k == 2 * grid_.d.thickness + 2) mesh_.nodes["bone"].push_back(id);
    }
    return id;
  }

 private:
  const Grid& grid_;
  SpaceMesh& mesh_;
  int ni_, nj_;
  std::vector<int> id_;
};

Face face_of(const std::array<int, 20>& hex, int side) {
  Face face;
  for (int a = 0; a < 8; ++a) face[a] = hex[Hex20::faces[side][a]];
  return face;
}

Vec3 generator_direction(const PlanOutline& o, double t) {
  return (wall_point(o, t, 1) - wall_point(o, t, 0)).normalized();
}

void add_brick(const Grid& g, NodePool& pool, CapsuleShell& shell, int i, int j, int k) {
  std::array<int, 20> hex;
  for (int a = 0; a < 20; ++a) {
    const auto& r = Hex20::places[a];
    hex[a] = pool.at(2 * i + 1 + static_cast<int>(r[0]), 2 * j + 1 + static_cast<int>(r[1]),
                     2 * k + 1 + static_cast<int>(r[2]));
  }
  SpaceMesh& m = shell.mesh;
  const bool lamella = k == g.d.thickness;
  m.hex.push_back(hex);
  m.hex_region.push_back(lamella ? "lamella" : "wall");
  shell.fibre.push_back(generator_direction(g.o, g.t(2 * i + 1)));
  if (lamella) {
    m.faces["bone"].push_back(face_of(hex, 1));
    return;
  }
  if (k == 0) m.faces["outer"].push_back(face_of(hex, 0));
  if (j == 0) m.faces["bearing"].push_back(face_of(hex, 2));
  if (j == g.rows() - 1) m.faces["coronet"].push_back(face_of(hex, 3));
  if (k == g.d.thickness - 1) m.faces["inner"].push_back(face_of(hex, 1));
}

/// Lamellar points of the face of column i, lamellar row j: 3 x 3 on the part of the mid-surface ahead of end_x.
std::vector<LamellaPoint> lamella_points(const Grid& g, const CapsuleShell& shell, int i, int j) {
  const Face& face = shell.mesh.faces.at("inner")[static_cast<std::size_t>(j) * g.columns() + i];
  Eigen::Matrix<double, 3, 8> mid, X;
  for (int a = 0; a < 8; ++a) {
    const double t = g.t(2 * i + 1 + Quad8::places[a][0]);
    const double y = g.y(t, 2 * j + 1 + static_cast<int>(Quad8::places[a][1]));
    mid.col(a) = inside_point(g.o, t, y, wall_thickness(g.o, t) + g.extent.thickness / 2);
    X.col(a) = shell.mesh.X[face[a]];
  }
  std::vector<LamellaPoint> points;
  for (const auto& [eta, w_eta] : gauss_line<3>()) {
    const auto x_at = [&](double xi) { return mid.row(0).dot(Quad8::N(xi, eta)); };
    if (x_at(-1) <= g.extent.end_x) continue;
    double front = -1, end = 1;  // x falls with xi: the lamellae reach from xi = -1 to `end`
    if (x_at(1) < g.extent.end_x)
      for (int step = 0; step < 52; ++step) {
        const double half = 0.5 * (front + end);
        (x_at(half) > g.extent.end_x ? front : end) = half;
      }
    const double half_length = 0.5 * (end + 1);
    for (const auto& [r, w_xi] : gauss_line<3>()) {
      const double xi = half_length * (r + 1) - 1;
      const Eigen::Matrix<double, 3, 2> tangents = mid * Quad8::dN(xi, eta);
      const Vec3 n = tangents.col(1).cross(tangents.col(0));
      const Quad8::Values shape = Quad8::N(xi, eta);
      points.push_back(
          {{face, shape, X * shape, g.t(2 * i + 1 + xi)}, n.normalized(), w_xi * w_eta * half_length * n.norm()});
    }
  }
  return points;
}

/// Inner or outer surface as a map of (u, v): u columns from the toe, v rows from the bearing plane.
struct Surface {
  const CapsuleShell& shell;
  double zeta;
  int layer;

  [[nodiscard]] int columns() const { return shell.divisions.ellipse + shell.divisions.branch; }
  [[nodiscard]] int rows() const { return shell.divisions.below + shell.divisions.lamellar + shell.divisions.above; }
  /// Brick and its xi, eta at (u, v).
  [[nodiscard]] std::pair<int, Vec3> locate(double u, double v) const {
    const int i = std::clamp(static_cast<int>(u), 0, columns() - 1), j = std::clamp(static_cast<int>(v), 0, rows() - 1);
    return {(layer * rows() + j) * columns() + i, Vec3(2 * (u - i) - 1, 2 * (v - j) - 1, zeta)};
  }
  [[nodiscard]] Vec3 point(double u, double v) const {
    const auto [brick, xi] = locate(u, v);
    const Hex20::Values N = Hex20::N(xi[0], xi[1], xi[2]);
    Vec3 p = Vec3::Zero();
    for (int a = 0; a < 20; ++a) p += N[a] * shell.mesh.X[shell.mesh.hex[brick][a]];
    return p;
  }
  /// v at height y on the line u, kept to [0, rows].
  [[nodiscard]] double row_at(double u, double y) const {
    double low = 0, high = rows();
    for (int step = 0; step < 44; ++step) {
      const double half = 0.5 * (low + high);
      (point(u, half).y() < y ? low : high) = half;
    }
    return 0.5 * (low + high);
  }
};

void check(const PlanOutline& o, const LamellaExtent& e, const ShellDivisions& d) {
  if (std::min({d.ellipse, d.branch, d.below, d.lamellar, d.above, d.thickness}) < 1)
    throw std::runtime_error("capsule shell: every number of divisions must be at least 1");
  if (!(e.bottom > 0 && e.thickness > 0 && e.top_inside > 0))
    throw std::runtime_error(
        "capsule shell: lamellar border, thickness and distance from the coronet must be positive");
  for (const double t : {0.0, 0.5, 1.0, 1.5, 2.0}) {
    const double top = lamella_top(o, e, t);
    // half a millimetre keeps the thinnest brick's Jacobian well away from rounding
    if (!(top > e.bottom + 0.5 && coronet_height(o, t) > top + 0.5))
      throw std::runtime_error("capsule shell: no height is left for the lamellae between the sole and the coronet");
  }
}

}  // namespace

LamellaExtent lamella_extent(const Foot& f) {
  LamellaExtent e;
  e.thickness = f.lamella_thickness;
  e.bottom = f.sole_horn + 4;  // the sole's rim lies 1 mm above the bearing plane, 3 mm of corium on it
  e.end_x = -f.bearing_length + f.lamella_end;
  return e;
}

double lamella_top(const PlanOutline& o, const LamellaExtent& e, double t) {
  // The coronet line is meant where the layer's mid-surface meets it, which lies behind the outer surface by an amount that
  // depends a little on height: fixed point, contraction about 0.02.
  double y = coronet_height(o, t, e.top_inside);
  const double depth = wall_thickness(o, t) + e.thickness / 2;
  for (int k = 0; k < 12; ++k)
    y = coronet_height(o, t, e.top_inside + wall_point(o, t, y).x() - inside_point(o, t, y, depth).x());
  return y;
}

CapsuleShell capsule_shell(const Foot& foot, const ShellDivisions& divisions) {
  return capsule_shell(plan_outline(foot), lamella_extent(foot), divisions);
}

CapsuleShell capsule_shell(const PlanOutline& outline, const LamellaExtent& extent, const ShellDivisions& divisions) {
  check(outline, extent, divisions);
  CapsuleShell shell;
  shell.outline = outline;
  shell.divisions = divisions;
  shell.extent = extent;
  const Grid g{outline, extent, divisions};
  NodePool pool(g, shell.mesh);
  for (int k = 0; k < divisions.thickness; ++k)
    for (int j = 0; j < g.rows(); ++j)
      for (int i = 0; i < g.columns(); ++i) add_brick(g, pool, shell, i, j, k);
  for (int j = divisions.below; j < divisions.below + divisions.lamellar; ++j)
    for (int i = 0; i < g.columns(); ++i) {
      if (divisions.solid_lamella) add_brick(g, pool, shell, i, j, divisions.thickness);
      const auto points = lamella_points(g, shell, i, j);
      if (points.empty()) continue;
      shell.mesh.faces["lamella"].push_back(points.front().at.nodes);
      shell.lamella.insert(shell.lamella.end(), points.begin(), points.end());
    }
  if (shell.lamella.empty()) throw std::runtime_error("capsule shell: the lamellae end ahead of the toe");
  shell.min_jacobian = smallest_jacobian(shell.mesh);
  if (!(shell.min_jacobian > 0))
    throw std::runtime_error(
        "capsule shell: a brick is folded (the wall is too thick for the outline's curvature); least "
        "Jacobian " +
        std::to_string(shell.min_jacobian) + " mm^3");
  return shell;
}

FacePoint inner_surface_point(const CapsuleShell& shell, double x, double y) {
  const Surface s{shell, 1, shell.divisions.thickness - 1};
  double front = 0, back = s.columns();
  for (int step = 0; step < 44; ++step) {
    const double half = 0.5 * (front + back);
    (s.point(half, s.row_at(half, y)).x() > x ? front : back) = half;
  }
  const double u = 0.5 * (front + back), v = s.row_at(u, y);
  const auto [brick, xi] = s.locate(u, v);
  const Grid g{shell.outline, shell.extent, shell.divisions};
  return {face_of(shell.mesh.hex[brick], 1), Quad8::N(xi[0], xi[1]), s.point(u, v), g.t(2 * u)};
}

GaugePoint outer_surface_point(const CapsuleShell& shell, double t, double y) {
  if (!(t >= 0 && t <= 2 && y >= 0 && y <= coronet_height(shell.outline, t)))
    throw std::invalid_argument("a gauge must lie on the outer wall, between bearing plane and coronet");
  const Surface s{shell, -1, 0};
  const double u = t <= 1 ? t * shell.divisions.ellipse : shell.divisions.ellipse + (t - 1) * shell.divisions.branch;
  const double v = s.row_at(u, y);
  const auto [brick, xi] = s.locate(u, v);
  return {brick, xi, generator_direction(shell.outline, t), s.point(u, v)};
}

std::array<double, 3> lamella_areas(const CapsuleShell& shell) {
  std::array<double, 3> area{0, 0, 0};
  for (const auto& p : shell.lamella) area[p.at.t < 0.5 ? 0 : p.at.t < 1 ? 1 : 2] += p.area;
  return area;
}

}  // namespace hoofload::mesh
