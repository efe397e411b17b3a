// The lower triangle that a set of elements fills, and where every product of two unknowns of an element lands in it.
#pragma once

#include <Eigen/SparseCore>
#include <span>

namespace hoofload::solver {

/// Unknowns that depend on each other: an element's, each named once. `places` (m (m + 1) / 2 for m unknowns, may be null) takes
/// the value index of each pair of them, a >= b by position, packed by columns.
struct Coupling {
  std::span<const int> unknowns;
  int* places = nullptr;
};

/// Pattern (n x n, values zero) with all diagonals and all pairs of the couplings; fills their places.
///
/// Column by column, so that neither a list of all pairs nor a search for each is needed: both cost more than the
/// factorisation's analysis on a large mesh.
[[nodiscard]] Eigen::SparseMatrix<double, Eigen::ColMajor, int> lower_pattern(int n,
                                                                             std::span<const Coupling> couplings);

}  // namespace hoofload::solver
