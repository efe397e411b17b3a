// The kernels for processors with AVX-512; CMakeLists.txt compiles this one file for them, without fused products.
#include "solver/multifrontal/kernels.hpp"
#include "solver/multifrontal/panel_kernels.hpp"

namespace hoofload::solver::multifrontal {

bool factor_panel_eight(double* panel, int columns, int height) { return factor_panel_by<8>(panel, columns, height); }

void schur_complement_eight(const double* panel, int pivots, int pivot_rows, int update_rows, double* update) {
  schur_complement_by<8>(panel, pivots, pivot_rows, update_rows, update);
}

}  // namespace hoofload::solver::multifrontal
