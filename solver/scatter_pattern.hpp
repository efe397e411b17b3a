// The lower triangle that a set of elements fills, and where every product of two unknowns of an element lands in it.
#pragma once

#include <Eigen/SparseCore>
#include <span>
#include <vector>

namespace hoofload::solver {

using SparseMatrix = Eigen::SparseMatrix<double, Eigen::ColMajor, int>;

/// Places of the entries of a lower triangle (n x n), without values: one pattern serves every matrix that has it.
struct LowerPattern {
  int n = 0;
  std::vector<int> outer;  ///< first entry of each column, one past the end
  std::vector<int> inner;  ///< rows, ascending within a column, the diagonal first

  [[nodiscard]] int entries() const { return static_cast<int>(inner.size()); }
  /// The matrix with these values (entries() of them; null: the pattern alone). The view lives as long as both.
  [[nodiscard]] Eigen::Map<const SparseMatrix> with(const double* values) const {
    return {n, n, entries(), outer.data(), inner.data(), values};
  }
};

/// Unknowns that depend on each other: an element's, each named once. `places` (m (m + 1) / 2 for m unknowns, may be null) takes
/// the value index of each pair of them, a >= b by position, packed by columns.
struct Coupling {
  std::span<const int> unknowns;
  int* places = nullptr;
};

/// Pattern (n x n) with all diagonals and all pairs of the couplings; fills their places.
///
/// Column by column, so that neither a list of all pairs nor a search for each is needed: both cost more than the
/// factorisation's analysis on a large mesh.
[[nodiscard]] LowerPattern lower_pattern(int n, std::span<const Coupling> couplings);

}  // namespace hoofload::solver
