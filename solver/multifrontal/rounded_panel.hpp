// A factored panel as it is kept where room is short: in single precision, without padding, column j from its diagonal (the
// inverse of L's) down. What is lost by rounding, refinement gives back (refinement.hpp).
#pragma once

#include <cstddef>

namespace hoofload::solver::multifrontal {

/// Numbers of a trapezoid of `columns` columns, the first of `rows`. Always inlined, since one of the files that call it is
/// compiled for processors that not all have.
[[nodiscard, gnu::always_inline]] constexpr std::size_t trapezoid_entries(int columns, int rows) {
  const auto c = static_cast<std::size_t>(columns), r = static_cast<std::size_t>(rows);
  return c * (r + 1) - c * (c + 1) / 2;
}

/// From a panel with `pivots` columns in use, rows of the pivots first, those below from row `pivot_rows` on.
void round_panel(const double* panel, int pivots, int updates, int pivot_rows, int height, float* trapezoid);

/// y (rows) <- [L_1^-1 y_1; y_2 - L_2 L_1^-1 y_1], sums in double precision.
void forward(const float* trapezoid, int columns, int rows, double* y);
void forward_two(const float* trapezoid, int columns, int rows, double* y);
void forward_four(const float* trapezoid, int columns, int rows, double* y);  ///< needs AVX

/// y_1 <- L_1^-T (y_1 - L_2^T y_2).
void backward(const float* trapezoid, int columns, int rows, double* y);
void backward_two(const float* trapezoid, int columns, int rows, double* y);
void backward_four(const float* trapezoid, int columns, int rows, double* y);  ///< needs AVX

}  // namespace hoofload::solver::multifrontal
