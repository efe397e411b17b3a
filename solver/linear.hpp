// Sparse symmetric factorisation with a fixed pattern: analysed once, refactored often. The backend hides here: our
// multifrontal Cholesky, which redoes only what changed between two active sets (tests/bench/factor.cpp compares it).
#pragma once

#include "solver/multifrontal/refinement.hpp"
#include "solver/system.hpp"

namespace hoofload::solver {

class Factor {
 public:
  /// Analyses the lower-triangular pattern (approximate minimum degree ordering).
  explicit Factor(const multifrontal::PatternRef& pattern) : cholesky_(pattern) {}
  /// L L^T of a lower triangle with that pattern. False if the matrix is not positive definite or not finite.
  [[nodiscard]] bool factorise(const SparseMatrix& lower) { return cholesky_.factorise(lower); }
  /// The same of its entries alone, with rows held and a diagonal given (multifrontal/factorisation.hpp).
  [[nodiscard]] bool factorise(const multifrontal::LowerValues& lower) { return cholesky_.factorise(lower); }
  /// True if the last factorisation succeeded, that is, if every pivot is positive.
  [[nodiscard]] bool positive_definite() const { return cholesky_.positive_definite(); }
  /// x with A x = b (n), to some six digits where a large factor is kept in single precision.
  [[nodiscard]] Eigen::VectorXd solve(const Eigen::VectorXd& b) const { return cholesky_.solve(b); }
  /// The same with no row of b - A x above `part` of the largest of b, by means of the matrix that was factored.
  [[nodiscard]] Eigen::VectorXd solve(const multifrontal::PatternRef& lower, const multifrontal::LowerValues& values,
                                      const Eigen::VectorXd& b, double part) const {
    return multifrontal::solve_refined(cholesky_, lower, values, b, part);
  }
  /// Solutions for every column of b (n x any number).
  [[nodiscard]] Eigen::MatrixXd solve_columns(const Eigen::MatrixXd& b) const { return cholesky_.solve_columns(b); }

 private:
  multifrontal::Factorisation cholesky_;
};

}  // namespace hoofload::solver
