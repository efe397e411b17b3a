#include "solver/multifrontal/kernels.hpp"

#include "solver/multifrontal/panel_kernels.hpp"

namespace hoofload::solver::multifrontal {

namespace {

using Two = Packet<2>;

struct Kernels {
  decltype(&factor_panel_two) factor;
  decltype(&schur_complement_two) schur;
};

const Kernels& fastest() {
  static const Kernels kernels =
      __builtin_cpu_supports("avx512f") != 0 ? Kernels{factor_panel_eight, schur_complement_eight}
      : __builtin_cpu_supports("avx") != 0   ? Kernels{factor_panel_four, schur_complement_four}
                                             : Kernels{factor_panel_two, schur_complement_two};
  return kernels;
}

}  // namespace

int row_multiple() { return 4; }

bool factor_panel(double* panel, int columns, int height) { return fastest().factor(panel, columns, height); }

void schur_complement(const double* panel, int pivots, int pivot_rows, int update_rows, double* update) {
  fastest().schur(panel, pivots, pivot_rows, update_rows, update);
}

bool factor_panel_two(double* panel, int columns, int height) { return factor_panel_by<2>(panel, columns, height); }

void schur_complement_two(const double* panel, int pivots, int pivot_rows, int update_rows, double* update) {
  schur_complement_by<2>(panel, pivots, pivot_rows, update_rows, update);
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
    const Two p0 = all<2>(y0), p1 = all<2>(y1), p2 = all<2>(y2), p3 = all<2>(y3);
    for (int i = j + 4; i < height; i += 2) {
      const Two lower = load<2>(c2 + i) * p2 + load<2>(c3 + i) * p3;
      const Two upper = load<2>(c0 + i) * p0 + load<2>(c1 + i) * p1;
      store<2>(y + i, load<2>(y + i) - (upper + lower));
    }
  }
}

void backward(const double* panel, int columns, int height, double* y) {
  const std::ptrdiff_t stride = height;
  for (int j = columns - 4; j >= 0; j -= 4) {
    const double *c0 = panel + j * stride, *c1 = c0 + stride, *c2 = c1 + stride, *c3 = c2 + stride;
    Two s0 = all<2>(0), s1 = s0, s2 = s0, s3 = s0;
    for (int i = j + 4; i < height; i += 2) {
      const Two p = load<2>(y + i);
      s0 += load<2>(c0 + i) * p;
      s1 += load<2>(c1 + i) * p;
      s2 += load<2>(c2 + i) * p;
      s3 += load<2>(c3 + i) * p;
    }
    y[j + 3] = (y[j + 3] - (s3[0] + s3[1])) * c3[j + 3];
    y[j + 2] = (y[j + 2] - (s2[0] + s2[1]) - c2[j + 3] * y[j + 3]) * c2[j + 2];
    y[j + 1] = (y[j + 1] - (s1[0] + s1[1]) - c1[j + 3] * y[j + 3] - c1[j + 2] * y[j + 2]) * c1[j + 1];
    y[j] = (y[j] - (s0[0] + s0[1]) - c0[j + 3] * y[j + 3] - c0[j + 2] * y[j + 2] - c0[j + 1] * y[j + 1]) * c0[j];
  }
}

}  // namespace hoofload::solver::multifrontal
