#include "solver/multifrontal/kernels.hpp"

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <limits>

namespace hoofload::solver::multifrontal {

namespace {

using Packet = Eigen::internal::packet_traits<double>::type;
constexpr int width = Eigen::internal::packet_traits<double>::size;
constexpr int tile_rows = 2 * width < 4 ? 4 : 2 * width;  // a multiple of the 4 columns of a tile
static_assert(width >= 2, "the kernels need packets of at least two doubles");

inline Packet load(const double* p) { return Eigen::internal::ploadu<Packet>(p); }
inline void store(double* p, const Packet& x) { Eigen::internal::pstoreu(p, x); }
inline Packet all(double x) { return Eigen::internal::pset1<Packet>(x); }
/// a b + c.
inline Packet plus_product(const Packet& a, const Packet& b, const Packet& c) {
  return Eigen::internal::pmadd(a, b, c);
}
inline Packet minus(const Packet& a, const Packet& b) { return Eigen::internal::psub(a, b); }

/// tile_rows x 4 numbers in registers: a and b are the upper and lower packets of the columns 0 to 3.
struct Tile {
  Packet a0, a1, a2, a3, b0, b1, b2, b3;
};

/// sum over k < depth of left(:, k) right(0..3, k)^T; both with the same stride.
inline Tile product(const double* left, const double* right, std::ptrdiff_t stride, int depth) {
  const Packet zero = all(0);
  Tile t{zero, zero, zero, zero, zero, zero, zero, zero};
  for (int k = 0; k < depth; ++k, left += stride, right += stride) {
    const Packet a = load(left), b = load(left + width);
    const Packet r0 = all(right[0]), r1 = all(right[1]), r2 = all(right[2]), r3 = all(right[3]);
    t.a0 = plus_product(a, r0, t.a0);
    t.b0 = plus_product(b, r0, t.b0);
    t.a1 = plus_product(a, r1, t.a1);
    t.b1 = plus_product(b, r1, t.b1);
    t.a2 = plus_product(a, r2, t.a2);
    t.b2 = plus_product(b, r2, t.b2);
    t.a3 = plus_product(a, r3, t.a3);
    t.b3 = plus_product(b, r3, t.b3);
  }
  return t;
}

/// place - t, place having stride.
inline Tile difference(const double* place, std::ptrdiff_t stride, const Tile& t) {
  const double *c1 = place + stride, *c2 = c1 + stride, *c3 = c2 + stride;
  return {minus(load(place), t.a0),
          minus(load(c1), t.a1),
          minus(load(c2), t.a2),
          minus(load(c3), t.a3),
          minus(load(place + width), t.b0),
          minus(load(c1 + width), t.b1),
          minus(load(c2 + width), t.b2),
          minus(load(c3 + width), t.b3)};
}

inline void put(double* place, std::ptrdiff_t stride, const Tile& t) {
  double *c1 = place + stride, *c2 = c1 + stride, *c3 = c2 + stride;
  store(place, t.a0);
  store(place + width, t.b0);
  store(c1, t.a1);
  store(c1 + width, t.b1);
  store(c2, t.a2);
  store(c2 + width, t.b2);
  store(c3, t.a3);
  store(c3 + width, t.b3);
}

/// Lower Cholesky factor of a 4 x 4 block, its diagonal inverted.
struct Block4 {
  double i0, l10, l20, l30, i1, l21, l31, i2, l32, i3;
};

inline bool is_pivot(double d) { return d > 0 && d <= std::numeric_limits<double>::max(); }

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
inline void solve_right(Tile& t, const Block4& f) {
  using Eigen::internal::pmul;
  const Packet i0 = all(f.i0), l10 = all(f.l10), l20 = all(f.l20), l30 = all(f.l30), i1 = all(f.i1);
  t.a0 = pmul(t.a0, i0);
  t.b0 = pmul(t.b0, i0);
  t.a1 = pmul(minus(t.a1, pmul(t.a0, l10)), i1);
  t.b1 = pmul(minus(t.b1, pmul(t.b0, l10)), i1);
  const Packet l21 = all(f.l21), l31 = all(f.l31), i2 = all(f.i2);
  t.a2 = pmul(minus(minus(t.a2, pmul(t.a0, l20)), pmul(t.a1, l21)), i2);
  t.b2 = pmul(minus(minus(t.b2, pmul(t.b0, l20)), pmul(t.b1, l21)), i2);
  const Packet l32 = all(f.l32), i3 = all(f.i3);
  t.a3 = pmul(minus(minus(minus(t.a3, pmul(t.a0, l30)), pmul(t.a1, l31)), pmul(t.a2, l32)), i3);
  t.b3 = pmul(minus(minus(minus(t.b3, pmul(t.b0, l30)), pmul(t.b1, l31)), pmul(t.b2, l32)), i3);
}

/// Columns are taken in blocks of this many: what is read again and again then stays in the first cache.
constexpr int block_columns = 64;

int round_down(int n, int multiple) { return n / multiple * multiple; }

/// Four columns j.. of a panel whose columns before `first` are already subtracted.
bool factor_four(double* panel, std::ptrdiff_t stride, int first, int j, int height) {
  const auto at = [&](int row, int column) { return panel + row + column * stride; };
  const int depth = j - first, top = round_down(j, tile_rows);
  Tile t = difference(at(top, j), stride, product(at(top, first), at(j, first), stride, depth));
  put(at(top, j), stride, t);
  Block4 f;
  if (!factor_block(at(j, j), stride, f)) return false;
  solve_right(t, f);
  put(at(top, j), stride, t);
  put(at(j, j), stride, f);  // the tile's rows above and in the block were not meant
  for (int i = top + tile_rows; i < height; i += tile_rows) {
    t = difference(at(i, j), stride, product(at(i, first), at(j, first), stride, depth));
    solve_right(t, f);
    put(at(i, j), stride, t);
  }
  return true;
}

}  // namespace

int row_multiple() { return tile_rows; }

bool factor_panel(double* panel, int columns, int height) {
  const std::ptrdiff_t stride = height;
  const auto at = [&](int row, int column) { return panel + row + column * stride; };
  for (int first = 0; first < columns; first += block_columns) {
    const int last = std::min(first + block_columns, columns);
    for (int j = first; j < last; j += 4)
      if (!factor_four(panel, stride, first, j, height)) return false;
    for (int j = last; j < columns; j += 4)
      for (int i = round_down(j, tile_rows); i < height; i += tile_rows)
        put(at(i, j), stride, difference(at(i, j), stride, product(at(i, first), at(j, first), stride, last - first)));
  }
  return true;
}

void schur_complement(const double* panel, int pivots, int pivot_rows, int update_rows, double* update) {
  const std::ptrdiff_t stride = pivot_rows + update_rows;
  const double* below = panel + pivot_rows;
  const Packet zero = all(0);
  const Tile nothing{zero, zero, zero, zero, zero, zero, zero, zero};
  for (int first = 0; first < pivots; first += block_columns) {
    const int depth = std::min(block_columns, pivots - first);
    const double* L = below + first * stride;
    for (int j = 0; j < update_rows; j += 4)
      for (int i = round_down(j, tile_rows); i < update_rows; i += tile_rows) {
        double* place = update + i + j * static_cast<std::ptrdiff_t>(update_rows);
        const Tile t = product(L + i, L + j, stride, depth);
        if (first > 0) {
          put(place, update_rows, difference(place, update_rows, t));
        } else {
          put(place, update_rows,
              {minus(nothing.a0, t.a0), minus(nothing.a1, t.a1), minus(nothing.a2, t.a2), minus(nothing.a3, t.a3),
               minus(nothing.b0, t.b0), minus(nothing.b1, t.b1), minus(nothing.b2, t.b2), minus(nothing.b3, t.b3)});
        }
      }
  }
}

void forward(const double* panel, int columns, int height, double* y) {
  const std::ptrdiff_t stride = height;
  for (int j = 0; j < columns; j += 4) {
    const double *c0 = panel + j * stride, *c1 = c0 + stride, *c2 = c1 + stride, *c3 = c2 + stride;
    const double y0 = y[j] * c0[j];
    const double y1 = (y[j + 1] - c0[j + 1] * y0) * c1[j + 1];
    const double y2 = (y[j + 2] - c0[j + 2] * y0 - c1[j + 2] * y1) * c2[j + 2];
    const double y3 = (y[j + 3] - c0[j + 3] * y0 - c1[j + 3] * y1 - c2[j + 3] * y2) * c3[j + 3];
    y[j] = y0, y[j + 1] = y1, y[j + 2] = y2, y[j + 3] = y3;
    int i = j + 4;
    for (; i % width != 0; ++i) y[i] -= c0[i] * y0 + c1[i] * y1 + c2[i] * y2 + c3[i] * y3;
    const Packet p0 = all(y0), p1 = all(y1), p2 = all(y2), p3 = all(y3);
    for (; i < height; i += width) {
      const Packet lower = plus_product(load(c2 + i), p2, Eigen::internal::pmul(load(c3 + i), p3));
      const Packet upper = plus_product(load(c0 + i), p0, Eigen::internal::pmul(load(c1 + i), p1));
      store(y + i, minus(load(y + i), Eigen::internal::padd(upper, lower)));
    }
  }
}

void backward(const double* panel, int columns, int height, double* y) {
  const std::ptrdiff_t stride = height;
  for (int j = columns - 4; j >= 0; j -= 4) {
    const double *c0 = panel + j * stride, *c1 = c0 + stride, *c2 = c1 + stride, *c3 = c2 + stride;
    Packet s0 = all(0), s1 = s0, s2 = s0, s3 = s0;
    double t0 = 0, t1 = 0, t2 = 0, t3 = 0;
    int i = j + 4;
    for (; i % width != 0; ++i) t0 += c0[i] * y[i], t1 += c1[i] * y[i], t2 += c2[i] * y[i], t3 += c3[i] * y[i];
    for (; i < height; i += width) {
      const Packet p = load(y + i);
      s0 = plus_product(load(c0 + i), p, s0);
      s1 = plus_product(load(c1 + i), p, s1);
      s2 = plus_product(load(c2 + i), p, s2);
      s3 = plus_product(load(c3 + i), p, s3);
    }
    using Eigen::internal::predux;
    y[j + 3] = (y[j + 3] - (t3 + predux(s3))) * c3[j + 3];
    y[j + 2] = (y[j + 2] - (t2 + predux(s2)) - c2[j + 3] * y[j + 3]) * c2[j + 2];
    y[j + 1] = (y[j + 1] - (t1 + predux(s1)) - c1[j + 3] * y[j + 3] - c1[j + 2] * y[j + 2]) * c1[j + 1];
    y[j] = (y[j] - (t0 + predux(s0)) - c0[j + 3] * y[j + 3] - c0[j + 2] * y[j + 2] - c0[j + 1] * y[j + 1]) * c0[j];
  }
}

}  // namespace hoofload::solver::multifrontal
