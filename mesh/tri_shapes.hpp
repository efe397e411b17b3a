// Shape functions and quadrature of the six-node triangle and of the three-node line.
//
// Reference triangle (0,0) (1,0) (0,1), L0 = 1 - xi - eta, L1 = xi, L2 = eta: N_i = L_i (2 L_i - 1) at corners,
// N_ij = 4 L_i L_j at the mid-side nodes 01, 12, 20. Reference line [-1, 1], nodes a (-1), b (+1), mid (0), as mesh::Edge.
// Weights sum to the size of the reference shape: 1/2 and 2. No heap, no state: fit for the innermost loop.
#pragma once

#include <Eigen/Core>
#include <array>

namespace hoofload::mesh {

struct Tri6 {
  static constexpr int nodes = 6;
  static constexpr int dim = 2;
  using Values = Eigen::Matrix<double, 6, 1>;
  using Gradients = Eigen::Matrix<double, 6, 2>;

  /// N_i(xi, eta).
  [[nodiscard]] static Values N(double xi, double eta) {
    const double l0 = 1 - xi - eta;
    return Values{l0 * (2 * l0 - 1), xi * (2 * xi - 1), eta * (2 * eta - 1), 4 * l0 * xi, 4 * xi * eta, 4 * eta * l0};
  }

  /// dN_i/d(xi, eta), one row a node.
  [[nodiscard]] static Gradients dN(double xi, double eta) {
    const double l0 = 1 - xi - eta;
    Gradients g;
    g << 1 - 4 * l0, 1 - 4 * l0,  //
        4 * xi - 1, 0,            //
        0, 4 * eta - 1,           //
        4 * (l0 - xi), -4 * xi,   //
        4 * eta, 4 * xi,          //
        -4 * eta, 4 * (l0 - eta);
    return g;
  }

  /// Reference coordinates of the six nodes.
  static constexpr std::array<std::array<double, 2>, 6> places{
      {{0, 0}, {1, 0}, {0, 1}, {0.5, 0}, {0.5, 0.5}, {0, 0.5}}};
};

struct Line3 {
  static constexpr int nodes = 3;
  static constexpr int dim = 1;
  using Values = Eigen::Matrix<double, 3, 1>;

  /// N_i(s), s in [-1, 1], nodes a, b, mid.
  [[nodiscard]] static Values N(double s) { return Values{0.5 * s * (s - 1), 0.5 * s * (s + 1), 1 - s * s}; }

  /// dN_i/ds.
  [[nodiscard]] static Values dN(double s) { return Values{s - 0.5, s + 0.5, -2 * s}; }

  static constexpr std::array<double, 3> places{-1, 1, 0};
};

struct TriPoint {
  double xi, eta, weight;
};
struct LinePoint {
  double s, weight;
};

namespace rules {

/// The three permutations of (a, a, 1 - 2a), written from `at` on.
template <std::size_t n>
constexpr void put3(std::array<TriPoint, n>& rule, std::size_t at, double a, double w) {
  const double b = 1 - 2 * a;
  rule[at] = {a, a, w / 2};
  rule[at + 1] = {b, a, w / 2};
  rule[at + 2] = {a, b, w / 2};
}

/// The six permutations of (a, b, 1 - a - b), written from `at` on.
template <std::size_t n>
constexpr void put6(std::array<TriPoint, n>& rule, std::size_t at, double a, double b, double w) {
  const double c = 1 - a - b;
  rule[at] = {a, b, w / 2};
  rule[at + 1] = {b, a, w / 2};
  rule[at + 2] = {b, c, w / 2};
  rule[at + 3] = {c, b, w / 2};
  rule[at + 4] = {c, a, w / 2};
  rule[at + 5] = {a, c, w / 2};
}

[[nodiscard]] constexpr std::array<TriPoint, 3> make3() {
  std::array<TriPoint, 3> r{};
  put3(r, 0, 1.0 / 6, 1.0 / 3);
  return r;
}

[[nodiscard]] constexpr std::array<TriPoint, 6> make6() {
  std::array<TriPoint, 6> r{};
  put3(r, 0, 0.44594849091596488632, 0.22338158967801146570);
  put3(r, 3, 0.09157621350977074346, 0.10995174365532186764);
  return r;
}

[[nodiscard]] constexpr std::array<TriPoint, 12> make12() {
  std::array<TriPoint, 12> r{};
  put3(r, 0, 0.24928674517091042129, 0.11678627572637936603);
  put3(r, 3, 0.06308901449150222834, 0.05084490637020681692);
  put6(r, 6, 0.05314504984481694735, 0.31035245103378440542, 0.08285107561837357519);
  return r;
}

}  // namespace rules

/// Triangle rules by number of points: 3 exact to degree 2, 6 to degree 4, 12 to degree 6 (Dunavant 1985).
template <int n>
inline constexpr auto triangle_rule = [] {
  static_assert(n == 3 || n == 6 || n == 12, "triangle rules have 3, 6 or 12 points");
  if constexpr (n == 3) return rules::make3();
  if constexpr (n == 6) return rules::make6();
  if constexpr (n == 12) return rules::make12();
}();

/// Gauss-Legendre rules on [-1, 1]: n points are exact to degree 2n - 1.
template <int n>
inline constexpr auto line_rule = [] {
  static_assert(n == 2 || n == 3, "line rules have 2 or 3 points");
  if constexpr (n == 2) {
    constexpr double a = 0.57735026918962576451;
    return std::array<LinePoint, 2>{{{-a, 1}, {a, 1}}};
  }
  if constexpr (n == 3) {
    constexpr double a = 0.77459666924148337704;
    return std::array<LinePoint, 3>{{{-a, 5.0 / 9}, {0, 8.0 / 9}, {a, 5.0 / 9}}};
  }
}();

}  // namespace hoofload::mesh
