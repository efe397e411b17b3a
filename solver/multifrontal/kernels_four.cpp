// The kernels for processors with AVX; CMakeLists.txt compiles this one file for them, without fused products.
#include "solver/multifrontal/kernels.hpp"
#include "solver/multifrontal/panel_kernels.hpp"
#include "solver/multifrontal/rounded_kernels.hpp"

namespace hoofload::solver::multifrontal {

bool factor_panel_four(double* panel, int columns, int height) { return factor_panel_by<4>(panel, columns, height); }

void schur_complement_four(const double* panel, int pivots, int pivot_rows, int update_rows, double* update) {
  schur_complement_by<4>(panel, pivots, pivot_rows, update_rows, update);
}

void forward_four(const float* trapezoid, int columns, int rows, double* y) {
  forward_by<4>(trapezoid, columns, rows, y);
}

void backward_four(const float* trapezoid, int columns, int rows, double* y) {
  backward_by<4>(trapezoid, columns, rows, y);
}

}  // namespace hoofload::solver::multifrontal
