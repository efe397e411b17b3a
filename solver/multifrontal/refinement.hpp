// Solutions to double precision by a factor that is kept in single precision: iterative refinement (Wilkinson 1963; Higham 2002,
// chapter 12). Each step takes away all of the error but what the rounding costs, 1e-7 to 1e-5 of it here.
#pragma once

#include "solver/multifrontal/factorisation.hpp"

namespace hoofload::solver::multifrontal {

/// b - A x (n), A the matrix that a factorisation of `values` with the pattern `lower` has: held rows, given diagonal.
[[nodiscard]] Eigen::VectorXd residual(const PatternRef& lower, const LowerValues& values, const Eigen::VectorXd& b,
                                       const Eigen::VectorXd& x);

/// x with A x = b (n) so that no row of b - A x is above `part` of the largest of b, held rows aside; as by `factor`, that of
/// `values`, where it is not rounded. A matrix too near to singular for that gives what six steps gave.
[[nodiscard]] Eigen::VectorXd solve_refined(const Factorisation& factor, const PatternRef& lower,
                                            const LowerValues& values, const Eigen::VectorXd& b, double part);

}  // namespace hoofload::solver::multifrontal
