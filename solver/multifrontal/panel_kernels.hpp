// The inner loops of kernels.hpp, for packets of 2, 4 or 8 doubles. Included by the files that compile them, each for its own
// instructions; everything here is local to those files, so that none can get hold of another's code.
//
// A wider packet does more rows at once and every row's sums in the same order, without fused products: the bits are the same.
#pragma once

#include <cmath>
#include <cstddef>
#include <limits>
#include <type_traits>

namespace hoofload::solver::multifrontal {

namespace {

template <int width>
struct Lane {
  using Packet [[gnu::vector_size(8 * width)]] = double;
};
template <int width>
using Packet = typename Lane<width>::Packet;

template <int width>
inline Packet<width> load(const double* p) {
  Packet<width> x;
  __builtin_memcpy(&x, p, sizeof x);
  return x;
}
template <int width>
inline void store(double* p, const Packet<width>& x) {
  __builtin_memcpy(p, &x, sizeof x);
}
template <int width>
inline Packet<width> all(double x) {
  if constexpr (width == 2)
    return Packet<width>{x, x};
  else if constexpr (width == 4)
    return Packet<width>{x, x, x, x};
  else
    return Packet<width>{x, x, x, x, x, x, x, x};
}

/// 2 width x 4 numbers in registers: a and b are the upper and lower packets of the columns 0 to 3.
template <int width>
struct Tile {
  Packet<width> a0, a1, a2, a3, b0, b1, b2, b3;
};

/// sum over k < depth of left(:, k) right(0..3, k)^T; both with the same stride.
template <int width>
inline Tile<width> product(const double* left, const double* right, std::ptrdiff_t stride, int depth) {
  const Packet<width> zero = all<width>(0);
  Tile<width> t{zero, zero, zero, zero, zero, zero, zero, zero};
  for (int k = 0; k < depth; ++k, left += stride, right += stride) {
    const Packet<width> a = load<width>(left), b = load<width>(left + width);
    const Packet<width> r0 = all<width>(right[0]), r1 = all<width>(right[1]);
    t.a0 += a * r0, t.b0 += b * r0;
    t.a1 += a * r1, t.b1 += b * r1;
    const Packet<width> r2 = all<width>(right[2]), r3 = all<width>(right[3]);
    t.a2 += a * r2, t.b2 += b * r2;
    t.a3 += a * r3, t.b3 += b * r3;
  }
  return t;
}

/// place - t, place having stride.
template <int width>
inline Tile<width> difference(const double* place, std::ptrdiff_t stride, const Tile<width>& t) {
  const double *c1 = place + stride, *c2 = c1 + stride, *c3 = c2 + stride;
  return {load<width>(place) - t.a0,
          load<width>(c1) - t.a1,
          load<width>(c2) - t.a2,
          load<width>(c3) - t.a3,
          load<width>(place + width) - t.b0,
          load<width>(c1 + width) - t.b1,
          load<width>(c2 + width) - t.b2,
          load<width>(c3 + width) - t.b3};
}

template <int width>
inline void put(double* place, std::ptrdiff_t stride, const Tile<width>& t) {
  double *c1 = place + stride, *c2 = c1 + stride, *c3 = c2 + stride;
  store<width>(place, t.a0), store<width>(place + width, t.b0);
  store<width>(c1, t.a1), store<width>(c1 + width, t.b1);
  store<width>(c2, t.a2), store<width>(c2 + width, t.b2);
  store<width>(c3, t.a3), store<width>(c3 + width, t.b3);
}

/// Lower Cholesky factor of a 4 x 4 block, its diagonal inverted.
struct Block4 {
  double i0, l10, l20, l30, i1, l21, l31, i2, l32, i3;
};

constexpr double largest_number = std::numeric_limits<double>::max();
inline bool is_pivot(double d) { return d > 0 && d <= largest_number; }

/// Factors the block at `place` and writes it back. False at a bad pivot.
inline bool factor_block(double* place, std::ptrdiff_t stride, Block4& f) {
  double *c0 = place, *c1 = c0 + stride, *c2 = c1 + stride, *c3 = c2 + stride;
  if (!is_pivot(c0[0])) return false;
  f.i0 = 1 / std::sqrt(c0[0]);
  f.l10 = c0[1] * f.i0, f.l20 = c0[2] * f.i0, f.l30 = c0[3] * f.i0;
  const double d1 = c1[1] - f.l10 * f.l10;
  if (!is_pivot(d1)) return false;
  f.i1 = 1 / std::sqrt(d1);
  f.l21 = (c1[2] - f.l20 * f.l10) * f.i1, f.l31 = (c1[3] - f.l30 * f.l10) * f.i1;
  const double d2 = c2[2] - f.l20 * f.l20 - f.l21 * f.l21;
  if (!is_pivot(d2)) return false;
  f.i2 = 1 / std::sqrt(d2);
  f.l32 = (c2[3] - f.l30 * f.l20 - f.l31 * f.l21) * f.i2;
  const double d3 = c3[3] - f.l30 * f.l30 - f.l31 * f.l31 - f.l32 * f.l32;
  if (!is_pivot(d3)) return false;
  f.i3 = 1 / std::sqrt(d3);
  return true;
}

inline void put(double* place, std::ptrdiff_t stride, const Block4& f) {
  double *c0 = place, *c1 = c0 + stride, *c2 = c1 + stride, *c3 = c2 + stride;
  c0[0] = f.i0, c0[1] = f.l10, c0[2] = f.l20, c0[3] = f.l30;
  c1[1] = f.i1, c1[2] = f.l21, c1[3] = f.l31;
  c2[2] = f.i2, c2[3] = f.l32;
  c3[3] = f.i3;
}

/// t L^-T for a block of 4 columns.
template <int width>
inline void solve_right(Tile<width>& t, const Block4& f) {
  const Packet<width> i0 = all<width>(f.i0), l10 = all<width>(f.l10), l20 = all<width>(f.l20), l30 = all<width>(f.l30);
  const Packet<width> i1 = all<width>(f.i1), l21 = all<width>(f.l21), l31 = all<width>(f.l31);
  const Packet<width> i2 = all<width>(f.i2), l32 = all<width>(f.l32), i3 = all<width>(f.i3);
  t.a0 = t.a0 * i0, t.b0 = t.b0 * i0;
  t.a1 = (t.a1 - t.a0 * l10) * i1, t.b1 = (t.b1 - t.b0 * l10) * i1;
  t.a2 = (t.a2 - t.a0 * l20 - t.a1 * l21) * i2, t.b2 = (t.b2 - t.b0 * l20 - t.b1 * l21) * i2;
  t.a3 = (t.a3 - t.a0 * l30 - t.a1 * l31 - t.a2 * l32) * i3;
  t.b3 = (t.b3 - t.b0 * l30 - t.b1 * l31 - t.b2 * l32) * i3;
}

/// Columns are taken in blocks of this many: what is read again and again then stays in the first cache.
constexpr int block_columns = 64;

/// Calls work(row, w) for tiles of 2 w rows from `first` to `end`, a multiple of 4 rows: wide ones, then narrower ones.
template <int width, class Work>
inline void on_rows(int first, int end, const Work& work) {
  int i = first;
  for (; i + 2 * width <= end; i += 2 * width) work(i, std::integral_constant<int, width>{});
  if constexpr (width > 2)
    if (i < end) on_rows<width / 2>(i, end, work);
}

/// Four columns j.. of a panel whose columns before `first` are already subtracted.
template <int width>
inline bool factor_four(double* panel, std::ptrdiff_t stride, int first, int j, int height) {
  const auto at = [&](int row, int column) { return panel + row + column * stride; };
  const int depth = j - first;
  put<2>(at(j, j), stride, difference<2>(at(j, j), stride, product<2>(at(j, first), at(j, first), stride, depth)));
  Block4 f;
  if (!factor_block(at(j, j), stride, f)) return false;
  put(at(j, j), stride, f);
  on_rows<width>(j + 4, height, [&](int i, auto w) {
    Tile<w()> t = difference<w()>(at(i, j), stride, product<w()>(at(i, first), at(j, first), stride, depth));
    solve_right<w()>(t, f);
    put<w()>(at(i, j), stride, t);
  });
  return true;
}

template <int width>
inline bool factor_panel_by(double* panel, int columns, int height) {
  const std::ptrdiff_t stride = height;
  const auto at = [&](int row, int column) { return panel + row + column * stride; };
  for (int first = 0; first < columns; first += block_columns) {
    const int last = first + block_columns < columns ? first + block_columns : columns;
    for (int j = first; j < last; j += 4)
      if (!factor_four<width>(panel, stride, first, j, height)) return false;
    for (int j = last; j < columns; j += 4)
      on_rows<width>(j, height, [&](int i, auto w) {
        put<w()>(at(i, j), stride,
                 difference<w()>(at(i, j), stride, product<w()>(at(i, first), at(j, first), stride, last - first)));
      });
  }
  return true;
}

template <int width>
inline void schur_complement_by(const double* panel, int pivots, int pivot_rows, int update_rows, double* update) {
  const std::ptrdiff_t stride = pivot_rows + update_rows;
  const double* below = panel + pivot_rows;
  for (int first = 0; first < pivots; first += block_columns) {
    const int depth = pivots - first < block_columns ? pivots - first : block_columns;
    const double* L = below + first * stride;
    for (int j = 0; j < update_rows; j += 4)
      on_rows<width>(j, update_rows, [&](int i, auto w) {
        double* place = update + i + j * static_cast<std::ptrdiff_t>(update_rows);
        const Tile<w()> t = product<w()>(L + i, L + j, stride, depth);
        const auto zero = all<w()>(0);
        put<w()>(place, update_rows,
                 first > 0 ? difference<w()>(place, update_rows, t)
                           : Tile<w()>{zero - t.a0, zero - t.a1, zero - t.a2, zero - t.a3,  //
                                       zero - t.b0, zero - t.b1, zero - t.b2, zero - t.b3});
      });
  }
}

}  // namespace

}  // namespace hoofload::solver::multifrontal
