// The sums f += w B^T P and K += w B^T A B over an element's quadrature points, for n nodes, two rows at a time. Included by
// solid_kernel.hpp alone.
//
// K is kept as four planes, one for each pair of directions, so that the rows of a column stand side by side; every entry
// is the same sum in the same order as one would write it for a single row.
#pragma once

#include <Eigen/Core>
#include <array>
#include <cstddef>

namespace hoofload::solver::kernel {

using Vec5 = Eigen::Matrix<double, 5, 1>;
using Mat5 = Eigen::Matrix<double, 5, 5>;

/// Gradients of an element's shape functions and their hoop terms at a point, row by row; room for an even number of rows.
struct PointShapes {
  const double *x, *y, *hoop;
};

template <int n>
class ElementSums {
 public:
  /// Adds w B^T P and w B^T A B. `with_hoop` false: no point of the block has hoop terms.
  template <bool with_hoop>
  void add(const PointShapes& s, double w, const Vec5& P, const Mat5& A) {
    const Vec5 wP = w * P;
    const Mat5 wA = w * A;
#pragma GCC unroll 4
    for (int a = 0; a < rows; a += 2) {
      const Two x = load(s.x + a), y = load(s.y + a);
      Two fx = x * wP(0) + y * wP(1);
      if constexpr (with_hoop) fx += load(s.hoop + a) * wP(4);
      increase(&fx_[a], fx);
      increase(&fy_[a], x * wP(2) + y * wP(3));
    }
#pragma GCC unroll 7
    for (int b = 0; b < n; ++b) add_column<with_hoop>(s, wA, b);
  }

  /// Sums of all points; of K the lower triangle.
  void write(Eigen::Matrix<double, 2 * n, 1>& f, Eigen::Matrix<double, 2 * n, 2 * n>& K) const {
#pragma GCC unroll 7
    for (int b = 0; b < n; ++b) {
      f(2 * b) = fx_[b], f(2 * b + 1) = fy_[b];
#pragma GCC unroll 7
      for (int a = 0; a <= b; ++a) {
        const int k = b * rows + a;
        K(2 * b, 2 * a) = xx_[k], K(2 * b + 1, 2 * a) = xy_[k];
        if (a < b) K(2 * b, 2 * a + 1) = yx_[k];
        K(2 * b + 1, 2 * a + 1) = yy_[k];
      }
    }
  }

 private:
  static constexpr int rows = (n + 1) / 2 * 2;
  using Two [[gnu::vector_size(16)]] = double;
  static Two load(const double* p) {
    Two t;
    __builtin_memcpy(&t, p, sizeof t);
    return t;
  }
  static void increase(double* p, Two by) {
    const Two t = load(p) + by;
    __builtin_memcpy(p, &t, sizeof t);
  }

  /// Column pair b, rows 0 to b and what shares their packets.
  template <bool with_hoop>
  void add_column(const PointShapes& s, const Mat5& wA, int b) {
    Vec5 Ax = wA.col(0) * s.x[b] + wA.col(1) * s.y[b];
    if constexpr (with_hoop) Ax += wA.col(4) * s.hoop[b];
    const Vec5 Ay = wA.col(2) * s.x[b] + wA.col(3) * s.y[b];
#pragma GCC unroll 4
    for (int a = 0; a <= b; a += 2) {
      const int k = b * rows + a;
      const Two x = load(s.x + a), y = load(s.y + a);
      Two xx = x * Ax(0) + y * Ax(1), xy = x * Ay(0) + y * Ay(1);
      if constexpr (with_hoop) {
        const Two hoop = load(s.hoop + a);
        xx += hoop * Ax(4), xy += hoop * Ay(4);
      }
      increase(&xx_[k], xx);
      increase(&xy_[k], xy);
      increase(&yx_[k], x * Ax(2) + y * Ax(3));
      increase(&yy_[k], x * Ay(2) + y * Ay(3));
    }
  }

  std::array<double, rows> fx_{}, fy_{};
  std::array<double, n * rows> xx_{}, xy_{}, yx_{}, yy_{};
};

}  // namespace hoofload::solver::kernel
