#include "solver/multifrontal/refinement.hpp"

#include <algorithm>
#include <cmath>

namespace hoofload::solver::multifrontal {

namespace {

constexpr int most_steps = 6;

double largest(const LowerValues& values, const Eigen::VectorXd& v) {
  double worst = 0;
  for (Eigen::Index i = 0; i < v.size(); ++i)
    if (values.held == nullptr || values.held[i] == 0) worst = std::max(worst, std::abs(v[i]));
  return worst;
}

}  // namespace

Eigen::VectorXd residual(const PatternRef& lower, const LowerValues& values, const Eigen::VectorXd& b,
                         const Eigen::VectorXd& x) {
  const auto is_held = [&](int i) { return values.held != nullptr && values.held[i] != 0; };
  Eigen::VectorXd r = b;
  for (int c = 0; c < lower.cols(); ++c) {
    if (is_held(c)) {
      r[c] -= x[c];
      continue;
    }
    double sum = 0;
    const double at = x[c];
    for (int p = lower.outerIndexPtr()[c]; p < lower.outerIndexPtr()[c + 1]; ++p) {
      const int row = lower.innerIndexPtr()[p];
      const double entry = values.entries[p];
      if (row == c) {
        sum += (values.diagonal != nullptr ? values.diagonal[c] : entry) * at;
      } else if (!is_held(row)) {
        sum += entry * x[row];
        r[row] -= entry * at;
      }
    }
    r[c] -= sum;
  }
  return r;
}

Eigen::VectorXd solve_refined(const Factorisation& factor, const PatternRef& lower, const LowerValues& values,
                              const Eigen::VectorXd& b, double part) {
  Eigen::VectorXd x = factor.solve(b);
  if (!factor.is_rounded()) return x;
  const double enough = part * largest(values, b);
  for (int step = 0; step < most_steps; ++step) {
    const Eigen::VectorXd left = residual(lower, values, b, x);
    if (largest(values, left) <= enough) break;
    x += factor.solve(left);
  }
  return x;
}

}  // namespace hoofload::solver::multifrontal
