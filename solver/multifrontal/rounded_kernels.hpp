// The inner loops of rounded_panel.hpp, for packets of 2 or 4 doubles; included as panel_kernels.hpp is. Four rows are a sum each
// whatever the packet, so the bits are the same.
#pragma once

#include "solver/multifrontal/panel_kernels.hpp"
#include "solver/multifrontal/rounded_panel.hpp"

namespace hoofload::solver::multifrontal {

namespace {

template <int width>
inline Packet<width> widened(const float* p) {
  using Single [[gnu::vector_size(4 * width)]] = float;
  Single x;
  __builtin_memcpy(&x, p, sizeof x);
  return __builtin_convertvector(x, Packet<width>);
}

/// Diagonal entries of n columns that follow each other, the first of `rows`: row i of column k stands at [k][i - k].
template <int n>
struct Columns {
  const float* diagonal[n];
  const float* operator[](int k) const { return diagonal[k]; }
};

template <int n>
inline Columns<n> columns_at(const float* first, int rows) {
  Columns<n> c;
  for (const float*& column : c.diagonal) column = first, first += rows--;
  return c;
}

/// n columns of the forward kernel, y from their first row on.
template <int width, int n>
inline void forward_columns(const float* trapezoid, int rows, double* y) {
  const auto c = columns_at<n>(trapezoid, rows);
  for (int k = 0; k < n; ++k) {
    for (int m = 0; m < k; ++m) y[k] -= static_cast<double>(c[m][k - m]) * y[m];
    y[k] *= static_cast<double>(c[k][0]);
  }
  int i = n;
  for (; i + 4 <= rows; i += 4)
    for (int part = i; part < i + 4; part += width) {
      Packet<width> sum = widened<width>(c[0] + part) * all<width>(y[0]);
      for (int k = 1; k < n; ++k) sum += widened<width>(c[k] + part - k) * all<width>(y[k]);
      store<width>(y + part, load<width>(y + part) - sum);
    }
  for (; i < rows; ++i)
    for (int k = 0; k < n; ++k) y[i] -= static_cast<double>(c[k][i - k]) * y[k];
}

template <int width, int n>
inline void backward_columns(const float* trapezoid, int rows, double* y) {
  constexpr int parts = 4 / width;
  const auto c = columns_at<n>(trapezoid, rows);
  Packet<width> sums[n][parts] = {};
  int i = n;
  for (; i + 4 <= rows; i += 4)
    for (int part = 0; part < parts; ++part) {
      const int row = i + part * width;
      const Packet<width> below = load<width>(y + row);
      for (int k = 0; k < n; ++k) sums[k][part] += widened<width>(c[k] + row - k) * below;
    }
  for (int k = n - 1; k >= 0; --k) {
    const auto lane = [&](int l) { return sums[k][l / width][l % width]; };
    double sum = (lane(0) + lane(1)) + (lane(2) + lane(3));
    for (int r = i; r < rows; ++r) sum += static_cast<double>(c[k][r - k]) * y[r];
    for (int m = k + 1; m < n; ++m) sum += static_cast<double>(c[k][m - k]) * y[m];
    y[k] = (y[k] - sum) * static_cast<double>(c[k][0]);
  }
}

template <int width>
inline void forward_by(const float* trapezoid, int columns, int rows, double* y) {
  int j = 0;
  for (; j + 4 <= columns; j += 4) forward_columns<width, 4>(trapezoid + trapezoid_entries(j, rows), rows - j, y + j);
  for (; j < columns; ++j) forward_columns<width, 1>(trapezoid + trapezoid_entries(j, rows), rows - j, y + j);
}

template <int width>
inline void backward_by(const float* trapezoid, int columns, int rows, double* y) {
  const auto block = [&](auto n, int j) {
    backward_columns<width, n()>(trapezoid + trapezoid_entries(j, rows), rows - j, y + j);
  };
  int j = columns;
  for (; j % 4 != 0; --j) block(std::integral_constant<int, 1>{}, j - 1);
  for (; j > 0; j -= 4) block(std::integral_constant<int, 4>{}, j - 4);
}

}  // namespace

}  // namespace hoofload::solver::multifrontal
