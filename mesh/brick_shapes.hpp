// Shape functions and quadrature of the twenty-node brick and of its eight-node face (serendipity quadratics).
//
// Reference cube [-1, 1]^3; node order of mesh::SpaceMesh: corners of zeta = -1, corners of zeta = +1, mid-side nodes of the
// bottom edges 01 12 23 30, of the top edges 45 56 67 74, of the uprights 04 15 26 37. With a = xi_i xi etc.:
//   corner N = (1+a)(1+b)(1+c)(a+b+c-2)/8;   mid-side (xi_i = 0) N = (1-xi^2)(1+b)(1+c)/4, and likewise for eta, zeta.
// Face: N = (1+a)(1+b)(a+b-1)/4 at corners, (1-xi^2)(1+b)/2 or (1+a)(1-eta^2)/2 at mid-sides (order 01 12 23 30).
// (Zienkiewicz and Taylor, The Finite Element Method, serendipity families.) No heap, no state.
#pragma once

#include <Eigen/Core>
#include <array>
#include <cmath>

namespace hoofload::mesh {

struct Quad8 {
  static constexpr int nodes = 8;
  static constexpr int dim = 2;
  using Values = Eigen::Matrix<double, 8, 1>;
  using Gradients = Eigen::Matrix<double, 8, 2>;

  static constexpr std::array<std::array<double, 2>, 8> places{
      {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}, {0, -1}, {1, 0}, {0, 1}, {-1, 0}}};

  /// N_i(xi, eta).
  [[nodiscard]] static Values N(double xi, double eta) {
    Values n;
    for (int i = 0; i < nodes; ++i) {
      const auto [xi_i, eta_i] = places[i];
      const double a = xi_i * xi, b = eta_i * eta;
      n[i] = i < 4 ? (1 + a) * (1 + b) * (a + b - 1) / 4
                   : (xi_i == 0 ? (1 - xi * xi) * (1 + b) / 2 : (1 + a) * (1 - eta * eta) / 2);
    }
    return n;
  }

  /// dN_i/d(xi, eta), one row a node.
  [[nodiscard]] static Gradients dN(double xi, double eta) {
    Gradients g;
    for (int i = 0; i < nodes; ++i) {
      const auto [xi_i, eta_i] = places[i];
      const double a = xi_i * xi, b = eta_i * eta;
      if (i < 4)
        g.row(i) << xi_i * (1 + b) * (2 * a + b) / 4, eta_i * (1 + a) * (a + 2 * b) / 4;
      else if (xi_i == 0)
        g.row(i) << -xi * (1 + b), (1 - xi * xi) * eta_i / 2;
      else
        g.row(i) << xi_i * (1 - eta * eta) / 2, -(1 + a) * eta;
    }
    return g;
  }
};

struct Hex20 {
  static constexpr int nodes = 20;
  static constexpr int dim = 3;
  using Values = Eigen::Matrix<double, 20, 1>;
  using Gradients = Eigen::Matrix<double, 20, 3>;

  static constexpr std::array<std::array<double, 3>, 20> places{
      {{-1, -1, -1}, {1, -1, -1}, {1, 1, -1},  {-1, 1, -1}, {-1, -1, 1}, {1, -1, 1}, {1, 1, 1},
       {-1, 1, 1},   {0, -1, -1}, {1, 0, -1},  {0, 1, -1},  {-1, 0, -1}, {0, -1, 1}, {1, 0, 1},
       {0, 1, 1},    {-1, 0, 1},  {-1, -1, 0}, {1, -1, 0},  {1, 1, 0},   {-1, 1, 0}}};

  /// The six faces as local nodes in the order of mesh::Face: zeta -1, zeta +1, eta -1, eta +1, xi -1, xi +1.
  static constexpr std::array<std::array<int, 8>, 6> faces{{{0, 3, 2, 1, 11, 10, 9, 8},
                                                            {4, 5, 6, 7, 12, 13, 14, 15},
                                                            {0, 1, 5, 4, 8, 17, 12, 16},
                                                            {3, 7, 6, 2, 19, 14, 18, 10},
                                                            {0, 4, 7, 3, 16, 15, 19, 11},
                                                            {1, 2, 6, 5, 9, 18, 13, 17}}};

  /// N_i(xi, eta, zeta).
  [[nodiscard]] static Values N(double xi, double eta, double zeta) {
    const std::array<double, 3> r{xi, eta, zeta};
    Values n;
    for (int i = 0; i < nodes; ++i) {
      double product = i < 8 ? 0.125 : 0.25, sum = -2;
      for (int d = 0; d < 3; ++d) {
        const double a = places[i][d] * r[d];
        product *= places[i][d] == 0 ? 1 - r[d] * r[d] : 1 + a;
        sum += a;
      }
      n[i] = i < 8 ? product * sum : product;
    }
    return n;
  }

  /// dN_i/d(xi, eta, zeta), one row a node.
  [[nodiscard]] static Gradients dN(double xi, double eta, double zeta) {
    const std::array<double, 3> r{xi, eta, zeta};
    Gradients g;
    for (int i = 0; i < nodes; ++i) {
      const auto& c = places[i];
      std::array<double, 3> f, df;
      double sum = -2;
      for (int d = 0; d < 3; ++d) {
        f[d] = c[d] == 0 ? 1 - r[d] * r[d] : 1 + c[d] * r[d];
        df[d] = c[d] == 0 ? -2 * r[d] : c[d];
        sum += c[d] * r[d];
      }
      for (int d = 0; d < 3; ++d) {
        const double others = f[(d + 1) % 3] * f[(d + 2) % 3];
        g(i, d) = i < 8 ? (df[d] * sum + f[d] * c[d]) * others / 8 : df[d] * others / 4;
      }
    }
    return g;
  }
};

struct CubePoint {
  double xi, eta, zeta, weight;
};
struct SquarePoint {
  double xi, eta, weight;
};

/// Gauss-Legendre points and weights on [-1, 1], n = 2 or 3 (exact to degree 2n - 1).
template <int n>
[[nodiscard]] inline std::array<std::array<double, 2>, n> gauss_line() {
  static_assert(n == 2 || n == 3);
  if constexpr (n == 2) {
    const double a = 1 / std::sqrt(3.0);
    return {{{-a, 1}, {a, 1}}};
  } else {
    const double a = std::sqrt(0.6);
    return {{{-a, 5.0 / 9}, {0, 8.0 / 9}, {a, 5.0 / 9}}};
  }
}

/// n x n rule on the square, xi running fastest; weights sum to 4.
template <int n>
[[nodiscard]] inline std::array<SquarePoint, n * n> gauss_square() {
  const auto line = gauss_line<n>();
  std::array<SquarePoint, n * n> points;
  for (int j = 0; j < n; ++j)
    for (int i = 0; i < n; ++i) points[n * j + i] = {line[i][0], line[j][0], line[i][1] * line[j][1]};
  return points;
}

/// n x n x n rule on the cube, xi running fastest; weights sum to 8.
template <int n>
[[nodiscard]] inline std::array<CubePoint, n * n * n> gauss_cube() {
  const auto line = gauss_line<n>();
  std::array<CubePoint, n * n * n> points;
  for (int k = 0; k < n; ++k)
    for (int j = 0; j < n; ++j)
      for (int i = 0; i < n; ++i)
        points[n * (n * k + j) + i] = {line[i][0], line[j][0], line[k][0], line[i][1] * line[j][1] * line[k][1]};
  return points;
}

}  // namespace hoofload::mesh
