// Sparse symmetric factorisation with a fixed pattern: analysed once, refactored often. The backend hides here.
#pragma once

#include <Eigen/SparseCholesky>
#include <memory>

#include "solver/system.hpp"

namespace hoofload::solver {

class Factor {
 public:
  /// Analyses the lower-triangular pattern (approximate minimum degree ordering).
  explicit Factor(const SparseMatrix& pattern) {
    ldlt_ = std::make_unique<Ldlt>();
    ldlt_->analyzePattern(pattern);
  }
  /// L D L^T of a lower triangle with that pattern. False if a pivot is zero or not finite.
  [[nodiscard]] bool factorise(const SparseMatrix& lower) {
    ldlt_->factorize(lower);
    return ldlt_->info() == Eigen::Success;
  }
  /// True if every pivot of the last factorisation is positive.
  [[nodiscard]] bool positive_definite() const { return ldlt_->vectorD().minCoeff() > 0; }
  [[nodiscard]] Eigen::VectorXd solve(const Eigen::VectorXd& b) const { return ldlt_->solve(b); }

 private:
  using Ldlt = Eigen::SimplicialLDLT<SparseMatrix, Eigen::Lower, Eigen::AMDOrdering<int>>;
  std::unique_ptr<Ldlt> ldlt_;
};

}  // namespace hoofload::solver
