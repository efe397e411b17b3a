// Multifrontal Cholesky factorisation A = L L^T of a sparse matrix with a fixed pattern (Duff, Reid 1983; Liu 1992).
//
// Values that have not changed since the last call keep their fronts: only fronts with a changed entry, and those on
// their way to the root, are done again. The result has the same bits as a factorisation from nothing, because a front
// always sums in the same order. One thread. That takes a place for every update matrix, some three times the factor's own; above
// a limit they share a stack instead, a call in which anything changed does all fronts, and L is kept in single precision: formed
// in double, rounded when its front is done, which costs 1e-7 to 1e-6 of a solution. refinement.hpp gives it back.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/multifrontal/plan.hpp"

namespace hoofload::solver::multifrontal {

/// Values of a lower triangle, in the order of its pattern, and what stands in place of some of them.
struct LowerValues {
  const double* entries = nullptr;   ///< one for each entry of the pattern
  const char* held = nullptr;        ///< per unknown: 1 where row and column are those of the identity; null: nowhere
  const double* diagonal = nullptr;  ///< per unknown: its diagonal entry instead of the one above; null: as above
};

class Factorisation {
 public:
  /// Numbers of update matrices that are kept, by default (64 MiB): measured in docs/performance.md.
  static constexpr std::size_t most_kept_by_default = std::size_t{1} << 23;

  /// Analyses the pattern of a lower triangle (n x n, compressed, rows of a column ascending).
  explicit Factorisation(const PatternRef& lower, std::size_t most_kept = most_kept_by_default);

  /// Factors a lower triangle of that pattern. False if A is not positive definite (or not finite): there is then
  /// nothing to solve with. Allocates nothing.
  [[nodiscard]] bool factorise(const LowerValues& lower);
  [[nodiscard]] bool factorise(const SparseMatrix& lower) { return factorise({lower.valuePtr(), nullptr, nullptr}); }

  /// Forgets all fronts: the next call factors everything.
  void forget();

  /// True if the last call of factorise() succeeded.
  [[nodiscard]] bool positive_definite() const { return factored_; }

  /// True where L is kept in single precision: solutions are then good to some six digits.
  [[nodiscard]] bool is_rounded() const { return !plan_.keeps_updates; }

  /// x with A x = b (n).
  [[nodiscard]] Eigen::VectorXd solve(const Eigen::VectorXd& b) const;
  /// The same for every column of b (n x any number).
  [[nodiscard]] Eigen::MatrixXd solve_columns(const Eigen::MatrixXd& b) const;

  [[nodiscard]] const Plan& plan() const { return plan_; }
  /// Fronts that the last call of factorise() did.
  [[nodiscard]] int fronts_done() const { return fronts_done_; }

 private:
  void take_rows(const LowerValues& lower);
  [[nodiscard]] bool take_values(const Front& front, const double* entries);
  [[nodiscard]] bool has_new_rows(const Front& front) const;
  void enter_values(const Front& front, const LowerValues& lower);
  [[nodiscard]] bool factor_front(const Front& front, const LowerValues& lower);
  [[nodiscard]] const double* kept_column(const Front& child, int column) const;
  void add_child_to_panel(const Front& child, const Front& front);
  void add_child_to_update(const Front& child, const Front& front);
  void to_stack(const Front& front);
  void solve_column(const double* b, double* x, double* by_position, double* local) const;

  Plan plan_;
  Eigen::VectorXd panels_, updates_;
  std::vector<float> trapezoids_;  ///< all panels, where panels_ holds but the one at work
  std::vector<double> values_;     ///< entries of the last call, in the order of Plan::source; kept with the updates
  std::vector<char> held_;         ///< per position, of the last call
  Eigen::VectorXd diagonal_;       ///< the same; empty: none was given
  std::vector<char> held_changed_, diagonal_changed_;  ///< per position: by this call
  std::vector<char> stale_;  ///< per front: 1 if its panel and update matrix do not belong to values_
  bool factored_ = false;
  int fronts_done_ = 0;
};

}  // namespace hoofload::solver::multifrontal
