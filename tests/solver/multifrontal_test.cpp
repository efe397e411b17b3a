// The multifrontal factorisation against Eigen's simplicial L D L^T, and against itself.
//
// The reference is another algorithm on the same matrix, so no source is needed beyond it; the tolerances are common
// practice: solutions to 1e-10 where the condition is moderate, backward error to 1e-12 always (Higham 2002, Eq. 7.23:
// residual over ||A|| ||x|| + ||b||).
#include "solver/multifrontal/factorisation.hpp"

#include <gtest/gtest.h>

#include <Eigen/SparseCholesky>
#include <cstring>
#include <limits>
#include <random>
#include <stdexcept>

#include "solver/linear.hpp"

namespace {

using hoofload::solver::multifrontal::Factorisation;
using hoofload::solver::multifrontal::residual;
using hoofload::solver::multifrontal::solve_refined;
using hoofload::solver::multifrontal::SparseMatrix;
using Triplets = std::vector<Eigen::Triplet<double>>;

SparseMatrix lower_of(int n, const Triplets& triplets) {
  SparseMatrix lower(n, n);
  lower.setFromTriplets(triplets.begin(), triplets.end());
  lower.makeCompressed();
  return lower;
}

/// Adds w d d^T on the given unknowns, lower triangle: one element of a stiffness matrix. Elements of full rank are
/// sums of these.
void add_rank_one(Triplets& triplets, const std::vector<int>& unknowns, const Eigen::VectorXd& d, double w) {
  for (std::size_t b = 0; b < unknowns.size(); ++b)
    for (std::size_t a = 0; a < unknowns.size(); ++a)
      if (unknowns[a] >= unknowns[b])
        triplets.emplace_back(unknowns[a], unknowns[b],
                              w * d[static_cast<Eigen::Index>(a)] * d[static_cast<Eigen::Index>(b)]);
}

/// Stiffness-like matrix of a grid of nx x ny x nz cells, `dofs` unknowns a node: every cell couples all its corners.
/// `stiffness(cell)` scales the cell; the diagonal gets a little so that nothing floats.
template <class Stiffness>
SparseMatrix grid_matrix(int nx, int ny, int nz, int dofs, unsigned seed, Stiffness&& stiffness) {
  std::mt19937 rng(seed);
  std::uniform_real_distribution<double> uniform(-1, 1);
  const auto node = [&](int i, int j, int k) { return (k * (ny + 1) + j) * (nx + 1) + i; };
  const int corners_up = nz > 0 ? 2 : 1;
  Triplets triplets;
  for (int k = 0; k < std::max(nz, 1); ++k)
    for (int j = 0; j < ny; ++j)
      for (int i = 0; i < nx; ++i) {
        std::vector<int> unknowns;
        for (int c = 0; c < 4 * corners_up; ++c)
          for (int d = 0; d < dofs; ++d) unknowns.push_back(dofs * node(i + c % 2, j + c / 2 % 2, k + c / 4) + d);
        for (int r = 0; r < 6; ++r) {
          Eigen::VectorXd d(static_cast<Eigen::Index>(unknowns.size()));
          for (auto& x : d) x = uniform(rng);
          add_rank_one(triplets, unknowns, d, stiffness((k * ny + j) * nx + i));
        }
      }
  const int n = dofs * (nx + 1) * (ny + 1) * (nz + 1);
  for (int i = 0; i < n; ++i) triplets.emplace_back(i, i, 0.5);
  return lower_of(n, triplets);
}

SparseMatrix plane_grid(unsigned seed) {
  return grid_matrix(17, 11, 0, 2, seed, [](int) { return 1.0; });
}

SparseMatrix random_sparse(int n, double density, unsigned seed) {
  std::mt19937 rng(seed);
  std::uniform_real_distribution<double> uniform(-1, 1);
  Triplets triplets;
  Eigen::VectorXd row_sum = Eigen::VectorXd::Zero(n);
  for (int c = 0; c < n; ++c)
    for (int r = c + 1; r < n; ++r) {
      if (0.5 * (uniform(rng) + 1) > density) continue;
      const double v = uniform(rng);
      triplets.emplace_back(r, c, v);
      row_sum[r] += std::abs(v);
      row_sum[c] += std::abs(v);
    }
  for (int i = 0; i < n; ++i) triplets.emplace_back(i, i, row_sum[i] + 0.1);  // dominant, so positive definite
  return lower_of(n, triplets);
}

Eigen::VectorXd random_vector(Eigen::Index n, unsigned seed) {
  std::mt19937 rng(seed);
  std::uniform_real_distribution<double> uniform(-1, 1);
  Eigen::VectorXd b(n);
  for (auto& x : b) x = uniform(rng);
  return b;
}

double backward_error(const SparseMatrix& lower, const Eigen::VectorXd& x, const Eigen::VectorXd& b) {
  const SparseMatrix A = lower.selfadjointView<Eigen::Lower>();
  const double norm = (A.cwiseAbs() * Eigen::VectorXd::Ones(A.cols())).maxCoeff();
  return (A * x - b).cwiseAbs().maxCoeff() / (norm * x.cwiseAbs().maxCoeff() + b.cwiseAbs().maxCoeff());
}

bool same_bits(const Eigen::VectorXd& a, const Eigen::VectorXd& b) {
  return a.size() == b.size() &&
         std::memcmp(a.data(), b.data(), static_cast<std::size_t>(a.size()) * sizeof(double)) == 0;
}

void expect_equal_to_reference(const SparseMatrix& lower) {
  const Eigen::VectorXd b = random_vector(lower.cols(), 7);
  Factorisation own(lower);
  ASSERT_TRUE(own.factorise(lower));
  const Eigen::VectorXd x = own.solve(b);
  Eigen::SimplicialLDLT<SparseMatrix, Eigen::Lower> reference(lower);
  ASSERT_EQ(reference.info(), Eigen::Success);
  const Eigen::VectorXd y = reference.solve(b);
  EXPECT_LT((x - y).norm(), 1e-10 * y.norm());
  EXPECT_LT(backward_error(lower, x, b), 1e-12);
}

/// Replaces rows and columns by those of the identity, as held unknowns are.
SparseMatrix held(const SparseMatrix& lower, const std::vector<int>& unknowns) {
  std::vector<char> is(static_cast<std::size_t>(lower.cols()), 0);
  for (int u : unknowns) is[static_cast<std::size_t>(u)] = 1;
  SparseMatrix changed = lower;
  for (int c = 0; c < changed.cols(); ++c)
    for (SparseMatrix::InnerIterator it(changed, c); it; ++it)
      if (is[static_cast<std::size_t>(c)] != 0 || is[static_cast<std::size_t>(it.row())] != 0)
        it.valueRef() = it.row() == c ? 1 : 0;
  return changed;
}

TEST(Multifrontal, equals_simplicial_ldlt_on_random_sparse_matrices) {
  for (unsigned seed = 1; seed <= 6; ++seed)
    for (double density : {0.005, 0.02, 0.1}) expect_equal_to_reference(random_sparse(180, density, seed));
}

TEST(Multifrontal, equals_simplicial_ldlt_on_plane_and_space_grids) {
  expect_equal_to_reference(plane_grid(1));
  expect_equal_to_reference(grid_matrix(40, 31, 0, 2, 2, [](int cell) { return cell % 3 == 0 ? 1e3 : 1.0; }));
  expect_equal_to_reference(grid_matrix(6, 5, 4, 3, 3, [](int) { return 1.0; }));
  expect_equal_to_reference(grid_matrix(9, 8, 2, 1, 4, [](int) { return 1.0; }));
}

TEST(Multifrontal, equals_simplicial_ldlt_on_every_tiny_size) {
  for (int n = 1; n <= 9; ++n) {
    expect_equal_to_reference(random_sparse(n, 1.0, static_cast<unsigned>(n)));
    expect_equal_to_reference(random_sparse(n, 0.0, static_cast<unsigned>(n)));
  }
}

TEST(Multifrontal, one_dense_front_of_any_size_is_factored) {
  // Sizes around the padding and the blocks of 64 columns of the kernels.
  for (int n : {12, 31, 63, 64, 65, 66, 67, 68, 129, 150}) {
    const SparseMatrix dense = random_sparse(n, 1.0, static_cast<unsigned>(n));
    EXPECT_EQ(Factorisation(dense).plan().fronts.size(), 1u);
    expect_equal_to_reference(dense);
  }
}

TEST(Multifrontal, equals_simplicial_ldlt_with_identity_rows) {
  const SparseMatrix lower = plane_grid(5);
  expect_equal_to_reference(held(lower, {0, 1, 2, 3, 100, 101, 230, 399, 431}));
  std::vector<int> every(static_cast<std::size_t>(lower.cols()));
  for (std::size_t i = 0; i < every.size(); ++i) every[i] = static_cast<int>(i);
  expect_equal_to_reference(held(lower, every));
}

TEST(Multifrontal, equals_simplicial_ldlt_with_dense_border_rows) {
  SparseMatrix core = plane_grid(6);
  const int n = static_cast<int>(core.cols());
  for (const std::vector<int>& border : {std::vector<int>{n, n + 1, n + 2}, std::vector<int>{n}}) {
    Triplets triplets;
    for (int c = 0; c < n; ++c)
      for (SparseMatrix::InnerIterator it(core, c); it; ++it)
        triplets.emplace_back(static_cast<int>(it.row()), c, it.value());
    std::mt19937 rng(8);
    std::uniform_real_distribution<double> uniform(-1, 1);
    for (int row : border) {
      for (int c = 0; c < n; ++c) triplets.emplace_back(row, c, 0.01 * uniform(rng));
      triplets.emplace_back(row, row, 50.0);
    }
    expect_equal_to_reference(lower_of(n + static_cast<int>(border.size()), triplets));
  }
}

TEST(Multifrontal, disconnected_blocks_do_not_see_each_other) {
  const SparseMatrix a = plane_grid(9), b = random_sparse(40, 0.2, 10);
  Triplets triplets;
  for (int c = 0; c < a.cols(); ++c)
    for (SparseMatrix::InnerIterator it(a, c); it; ++it)
      triplets.emplace_back(static_cast<int>(it.row()), c, it.value());
  const int shift = static_cast<int>(a.cols());
  for (int c = 0; c < b.cols(); ++c)
    for (SparseMatrix::InnerIterator it(b, c); it; ++it)
      triplets.emplace_back(static_cast<int>(it.row()) + shift, c + shift, it.value());
  const SparseMatrix both = lower_of(shift + 40, triplets);
  expect_equal_to_reference(both);
  Factorisation own(both);
  ASSERT_TRUE(own.factorise(both));
  Eigen::VectorXd rhs = Eigen::VectorXd::Zero(both.cols());
  rhs.tail(40) = random_vector(40, 11);
  EXPECT_EQ(own.solve(rhs).head(shift).cwiseAbs().maxCoeff(), 0.0);
}

TEST(Multifrontal, several_right_hand_sides_have_the_bits_of_each) {
  const SparseMatrix lower = plane_grid(12);
  Factorisation own(lower);
  ASSERT_TRUE(own.factorise(lower));
  Eigen::MatrixXd B(lower.cols(), 3);
  for (int c = 0; c < 3; ++c) B.col(c) = random_vector(lower.cols(), 20 + static_cast<unsigned>(c));
  const Eigen::MatrixXd X = own.solve_columns(B);
  for (int c = 0; c < 3; ++c) EXPECT_TRUE(same_bits(X.col(c), own.solve(Eigen::VectorXd(B.col(c)))));
}

TEST(Multifrontal, negative_zero_and_undefined_pivots_are_reported_and_forgiven) {
  const SparseMatrix good = plane_grid(13);
  const Eigen::VectorXd b = random_vector(good.cols(), 14);
  Factorisation own(good);
  ASSERT_TRUE(own.factorise(good));
  const Eigen::VectorXd x = own.solve(b);
  for (double bad : {-3.0, 0.0, std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
    for (int at : {0, 57, 431}) {
      SparseMatrix broken = good;
      broken.coeffRef(at, at) = bad;
      EXPECT_FALSE(own.factorise(broken)) << bad << " at " << at;
      EXPECT_FALSE(own.positive_definite());
      ASSERT_TRUE(own.factorise(good));
      EXPECT_TRUE(own.positive_definite());
      EXPECT_TRUE(same_bits(own.solve(b), x));
    }
  }
}

TEST(Multifrontal, definiteness_is_that_of_the_reference) {
  // Shifting the diagonal through the lowest eigenvalue: the verdict must change where L D L^T's pivots do.
  const SparseMatrix lower = plane_grid(15);
  Factorisation own(lower);
  Eigen::SimplicialLDLT<SparseMatrix, Eigen::Lower> reference;
  reference.analyzePattern(lower);
  int definite = 0, indefinite = 0;
  for (double shift = 0.3; shift < 1.5; shift += 0.0625) {
    SparseMatrix shifted = lower;
    for (int i = 0; i < shifted.cols(); ++i) shifted.coeffRef(i, i) -= shift;
    reference.factorize(shifted);
    const bool expected = reference.vectorD().minCoeff() > 0;
    EXPECT_EQ(own.factorise(shifted), expected) << shift;
    ++(expected ? definite : indefinite);
  }
  EXPECT_GT(definite, 0);
  EXPECT_GT(indefinite, 0);
}

TEST(Multifrontal, two_factorisations_give_the_same_bits) {
  const SparseMatrix lower = grid_matrix(7, 6, 3, 3, 16, [](int) { return 1.0; });
  const Eigen::VectorXd b = random_vector(lower.cols(), 17);
  Factorisation one(lower), two(lower);
  ASSERT_TRUE(one.factorise(lower) && two.factorise(lower));
  const Eigen::VectorXd x = one.solve(b);
  EXPECT_TRUE(same_bits(x, two.solve(b)));
  one.forget();
  ASSERT_TRUE(one.factorise(lower));
  EXPECT_TRUE(same_bits(x, one.solve(b)));
}

TEST(Multifrontal, changing_few_rows_redoes_few_fronts_and_gives_the_bits_of_all) {
  const SparseMatrix lower = grid_matrix(40, 31, 0, 2, 18, [](int) { return 1.0; });
  const Eigen::VectorXd b = random_vector(lower.cols(), 19);
  Factorisation partial(lower);
  ASSERT_TRUE(partial.factorise(lower));
  const int all = partial.fronts_done();
  EXPECT_EQ(all, static_cast<int>(partial.plan().fronts.size()));
  std::vector<int> fixed;
  for (int step = 0; step < 12; ++step) {
    fixed.push_back((step * 37) % 82);  // unknowns along one edge, one after another
    if (step % 3 == 2) fixed.erase(fixed.begin());
    const SparseMatrix changed = held(lower, fixed);
    ASSERT_TRUE(partial.factorise(changed));
    EXPECT_LT(partial.fronts_done(), all / 4);
    Factorisation whole(changed);
    ASSERT_TRUE(whole.factorise(changed));
    EXPECT_TRUE(same_bits(partial.solve(b), whole.solve(b))) << step;
  }
}

TEST(Multifrontal, held_rows_and_a_given_diagonal_give_the_bits_of_the_matrix_that_has_them) {
  const SparseMatrix lower = grid_matrix(40, 31, 0, 2, 29, [](int) { return 1.0; });
  const Eigen::VectorXd b = random_vector(lower.cols(), 30);
  const auto n = static_cast<std::size_t>(lower.cols());
  for (const std::size_t most_kept : {Factorisation::most_kept_by_default, std::size_t{0}}) {
    Factorisation by_rows(lower, most_kept), whole(lower, most_kept);
    const int all = static_cast<int>(whole.plan().fronts.size());
    ASSERT_TRUE(by_rows.factorise(lower));
    for (int step = 0; step < 6; ++step) {
      const std::vector<int> fixed{(step * 37) % 82, (step / 2 * 53) % 82};  // along one edge
      std::vector<char> is(n, 0);
      std::vector<double> diagonal(n);
      SparseMatrix changed = lower;
      for (int i = 0; i < lower.cols(); ++i) {
        changed.coeffRef(i, i) *= step < 3 ? 1.0 : 1.25;  // a shift as of a step that was not positive definite
        diagonal[static_cast<std::size_t>(i)] = changed.coeff(i, i);
      }
      for (int u : fixed) is[static_cast<std::size_t>(u)] = 1;
      changed = held(changed, fixed);
      ASSERT_TRUE(by_rows.factorise({lower.valuePtr(), is.data(), diagonal.data()}));
      if (most_kept > 0 && step % 3 > 0) {
        EXPECT_LT(by_rows.fronts_done(), all / 4) << step;
      }
      ASSERT_TRUE(whole.factorise(changed));
      EXPECT_TRUE(same_bits(by_rows.solve(b), whole.solve(b))) << step;
    }
  }
}

TEST(Multifrontal, unchanged_values_redo_nothing_and_a_sign_of_zero_counts) {
  SparseMatrix lower = plane_grid(21);
  Factorisation own(lower);
  ASSERT_TRUE(own.factorise(lower));
  ASSERT_TRUE(own.factorise(lower));
  EXPECT_EQ(own.fronts_done(), 0);
  lower = held(lower, {100});
  ASSERT_TRUE(own.factorise(lower));
  for (SparseMatrix::InnerIterator it(lower, 100); it; ++it)
    if (it.row() != 100) it.valueRef() = -0.0;
  ASSERT_TRUE(own.factorise(lower));
  EXPECT_GT(own.fronts_done(), 0);
}

TEST(Multifrontal, a_failed_factorisation_does_not_spoil_a_later_partial_one) {
  const SparseMatrix lower = grid_matrix(20, 15, 0, 2, 22, [](int) { return 1.0; });
  const Eigen::VectorXd b = random_vector(lower.cols(), 23);
  Factorisation own(lower);
  ASSERT_TRUE(own.factorise(lower));
  SparseMatrix broken = held(lower, {10});
  broken.coeffRef(300, 300) = -1e4;
  ASSERT_FALSE(own.factorise(broken));
  const SparseMatrix mended = held(lower, {10});
  ASSERT_TRUE(own.factorise(mended));
  Factorisation whole(mended);
  ASSERT_TRUE(whole.factorise(mended));
  EXPECT_TRUE(same_bits(own.solve(b), whole.solve(b)));
}

/// Where room is short: update matrices on a stack, L in single precision.
struct Small {
  SparseMatrix lower;
  Factorisation factor{lower, 0};
  [[nodiscard]] Eigen::VectorXd refined(const SparseMatrix& A, const Eigen::VectorXd& b) const {
    return solve_refined(factor, lower, {A.valuePtr(), nullptr, nullptr}, b, 1e-14);
  }
};

std::vector<SparseMatrix> matrices_of_some_depth() {
  return {grid_matrix(40, 31, 0, 2, 26, [](int cell) { return cell % 3 == 0 ? 1e3 : 1.0; }),
          grid_matrix(6, 5, 4, 3, 31, [](int) { return 1.0; }), random_sparse(200, 0.02, 27)};
}

TEST(MultifrontalInLittleRoom, takes_less_and_gives_six_digits_and_by_refinement_all) {
  for (const SparseMatrix& lower : matrices_of_some_depth()) {
    const Eigen::VectorXd b = random_vector(lower.cols(), 28);
    Factorisation kept(lower);
    Small small{lower};
    const auto bytes = [](const auto& plan) {
      return 8 * (plan.panel_size + plan.update_size) + 4 * plan.trapezoids_size;
    };
    if (lower.cols() > 1000) {
      EXPECT_LT(bytes(small.factor.plan()), bytes(kept.plan()) / 3);
    }
    ASSERT_TRUE(kept.factorise(lower) && small.factor.factorise(lower));
    EXPECT_TRUE(small.factor.is_rounded() && !kept.is_rounded());
    const Eigen::VectorXd x = kept.solve(b);
    EXPECT_LT((small.factor.solve(b) - x).norm(), 1e-5 * x.norm());
    EXPECT_GT((small.factor.solve(b) - x).norm(), 1e-12 * x.norm());  // or nothing was rounded
    EXPECT_LT((small.refined(lower, b) - x).norm(), 1e-11 * x.norm());
    EXPECT_LT(backward_error(lower, small.refined(lower, b), b), 1e-14);
    // As exact as asked for, and no further.
    const Eigen::VectorXd left = b - lower.selfadjointView<Eigen::Lower>() * small.factor.solve(b);
    const double part = 2 * left.cwiseAbs().maxCoeff() / b.cwiseAbs().maxCoeff();
    EXPECT_TRUE(same_bits(solve_refined(small.factor, lower, {lower.valuePtr(), nullptr, nullptr}, b, part),
                          small.factor.solve(b)));
  }
}

TEST(MultifrontalInLittleRoom, recovers_from_a_matrix_that_is_not_positive_definite) {
  for (const SparseMatrix& lower : matrices_of_some_depth()) {
    const Eigen::VectorXd b = random_vector(lower.cols(), 33);
    Small small{lower};
    SparseMatrix broken = held(lower, {10});
    broken.coeffRef(50, 50) = -1e5;
    ASSERT_FALSE(small.factor.factorise(broken));
    const SparseMatrix changed = held(lower, {10});
    Factorisation kept(changed);
    ASSERT_TRUE(kept.factorise(changed) && small.factor.factorise(changed));
    EXPECT_LT((small.refined(changed, b) - kept.solve(b)).norm(), 1e-11 * b.norm());
  }
}

TEST(MultifrontalInLittleRoom, refinement_knows_held_rows_and_a_given_diagonal) {
  const SparseMatrix lower = grid_matrix(40, 31, 0, 2, 34, [](int) { return 1.0; });
  const Eigen::VectorXd b = random_vector(lower.cols(), 35);
  std::vector<char> is(static_cast<std::size_t>(lower.cols()), 0);
  std::vector<double> diagonal(is.size());
  SparseMatrix changed = lower;
  for (int i = 0; i < lower.cols(); ++i) diagonal[static_cast<std::size_t>(i)] = changed.coeffRef(i, i) *= 1.25;
  for (int u : {0, 3, 77, 401}) is[static_cast<std::size_t>(u)] = 1;
  changed = held(changed, {0, 3, 77, 401});
  Factorisation small(lower, 0), kept(changed);
  const hoofload::solver::multifrontal::LowerValues values{lower.valuePtr(), is.data(), diagonal.data()};
  ASSERT_TRUE(small.factorise(values) && kept.factorise(changed));
  EXPECT_LT((solve_refined(small, lower, values, b, 1e-14) - kept.solve(b)).norm(), 1e-11 * b.norm());
  const Eigen::VectorXd x = random_vector(lower.cols(), 36);
  const Eigen::VectorXd exact = b - changed.selfadjointView<Eigen::Lower>() * x;
  EXPECT_LT((residual(lower, values, b, x) - exact).cwiseAbs().maxCoeff(), 1e-13 * exact.cwiseAbs().maxCoeff());
}

TEST(Multifrontal, a_pattern_that_is_not_a_lower_triangle_is_refused) {
  EXPECT_THROW(Factorisation(SparseMatrix(3, 2)), std::invalid_argument);
  EXPECT_THROW(Factorisation(lower_of(2, {{0, 0, 1.0}, {0, 1, 1.0}, {1, 1, 1.0}})), std::invalid_argument);
}

TEST(Factor, reports_definiteness_and_solves) {
  const SparseMatrix lower = plane_grid(24);
  const Eigen::VectorXd b = random_vector(lower.cols(), 25);
  hoofload::solver::Factor factor(lower);
  ASSERT_TRUE(factor.factorise(lower));
  EXPECT_TRUE(factor.positive_definite());
  EXPECT_LT(backward_error(lower, factor.solve(b), b), 1e-12);
  EXPECT_FALSE(factor.factorise(SparseMatrix(-lower)) && factor.positive_definite());
}

}  // namespace
