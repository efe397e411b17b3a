// Dense kernels of a front. Panels are column-major with stride `height`, padded as plan.hpp says; the diagonal of a
// factored panel holds the inverses of L's. The two that take the time exist for packets of two doubles (every x86-64), of four
// (AVX) and of eight (AVX-512); the processor at hand decides, and the bits are the same.
#pragma once

#include <cstddef>

namespace hoofload::solver::multifrontal {

/// What rows of panels and update matrices are padded to.
[[nodiscard]] int row_multiple();

/// Cholesky of the leading columns x columns square and the rows below it, in place. False at a pivot that is not
/// positive and finite; the panel is then undefined.
[[nodiscard]] bool factor_panel(double* panel, int columns, int height);
[[nodiscard]] bool factor_panel_two(double* panel, int columns, int height);
[[nodiscard]] bool factor_panel_four(double* panel, int columns, int height);   ///< needs AVX
[[nodiscard]] bool factor_panel_eight(double* panel, int columns, int height);  ///< needs AVX-512

/// update (lower triangle, stride update_rows) = - L_2 L_2^T of the panel's rows below its pivots.
void schur_complement(const double* panel, int pivots, int pivot_rows, int update_rows, double* update);
void schur_complement_two(const double* panel, int pivots, int pivot_rows, int update_rows, double* update);
void schur_complement_four(const double* panel, int pivots, int pivot_rows, int update_rows, double* update);
void schur_complement_eight(const double* panel, int pivots, int pivot_rows, int update_rows, double* update);

/// y (height) <- [L_1^-1 y_1; y_2 - L_2 L_1^-1 y_1].
void forward(const double* panel, int columns, int height, double* y);

/// y_1 <- L_1^-T (y_1 - L_2^T y_2).
void backward(const double* panel, int columns, int height, double* y);

}  // namespace hoofload::solver::multifrontal
