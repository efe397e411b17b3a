#include "solver/multifrontal/rounded_panel.hpp"

#include <algorithm>

#include "solver/multifrontal/rounded_kernels.hpp"

namespace hoofload::solver::multifrontal {

namespace {

bool has_avx() {
  static const bool has = __builtin_cpu_supports("avx") != 0;
  return has;
}

}  // namespace

void round_panel(const double* panel, int pivots, int updates, int pivot_rows, int height, float* trapezoid) {
  const auto rounded = [](double x) { return static_cast<float>(x); };
  for (int j = 0; j < pivots; ++j, panel += height) {
    trapezoid = std::transform(panel + j, panel + pivots, trapezoid, rounded);
    trapezoid = std::transform(panel + pivot_rows, panel + pivot_rows + updates, trapezoid, rounded);
  }
}

void forward(const float* trapezoid, int columns, int rows, double* y) {
  (has_avx() ? forward_four : forward_two)(trapezoid, columns, rows, y);
}

void backward(const float* trapezoid, int columns, int rows, double* y) {
  (has_avx() ? backward_four : backward_two)(trapezoid, columns, rows, y);
}

void forward_two(const float* trapezoid, int columns, int rows, double* y) {
  forward_by<2>(trapezoid, columns, rows, y);
}

void backward_two(const float* trapezoid, int columns, int rows, double* y) {
  backward_by<2>(trapezoid, columns, rows, y);
}

}  // namespace hoofload::solver::multifrontal
