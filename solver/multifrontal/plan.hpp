// What a factorisation of one pattern needs to know before any value: fronts, their rows, and where every number goes.
//
// A front holds the columns of its pivots (the panel, part of L) and the square of the rows below (the update matrix,
// its part of the Schur complement). Both are column-major and padded: pivots to a multiple of 4 columns and of
// row_multiple rows (a padding pivot is a unit vector), update rows to a multiple of row_multiple. So no kernel has a
// remainder loop.
//
// Where a place for every update matrix would take too much, all panels are formed in one place and kept without padding, as
// trapezoids (rounded_panel.hpp); update matrices are kept as lower triangles on a stack.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "solver/multifrontal/ordering.hpp"

namespace hoofload::solver::multifrontal {

struct Front {
  int first_pivot = 0;                  ///< position of its first pivot
  int pivots = 0, updates = 0;          ///< eliminated here; rows passed on to the parent
  int columns = 0;                      ///< pivots, padded
  int pivot_rows = 0, update_rows = 0;  ///< padded; a panel column is pivot_rows + update_rows long
  int parent = -1;
  int rows_in_parent_panel = 0;              ///< leading update rows that are pivots of the parent
  std::size_t first_row = 0;                 ///< of its update rows in Plan::row and Plan::row_in_parent
  std::size_t first_entry = 0, entries = 0;  ///< matrix entries that enter here
  std::size_t panel = 0, update = 0;         ///< offsets of its storage
  std::size_t work = 0;                      ///< where the update matrix is formed; differs from `update` on a stack
  std::size_t trapezoid = 0;                 ///< offset of the kept panel, if not all are kept as they are formed
  int first_child = 0, children = 0;         ///< in Plan::child

  [[nodiscard]] int height() const { return pivot_rows + update_rows; }
};

struct Plan {
  int size = 0;               ///< unknowns
  std::vector<int> original;  ///< unknown at each position
  std::vector<Front> fronts;  ///< children before parents
  std::vector<int> child;
  std::vector<int> row;               ///< positions of all update rows, ascending within a front
  std::vector<int> row_in_parent;     ///< storage row in the parent's panel
  std::vector<int> source;            ///< entry's index among the matrix values
  std::vector<std::uint32_t> target;  ///< its index in its front's panel
  std::size_t panel_size = 0, update_size = 0, trapezoids_size = 0;
  bool keeps_updates = true;  ///< each front has places of its own; else panels share one and update matrices a stack
  int highest = 0;            ///< largest height of a front

  [[nodiscard]] std::span<const int> rows(const Front& f) const {
    return {row.data() + f.first_row, static_cast<std::size_t>(f.updates)};
  }
};

/// Plan of a lower triangle (n x n). Throws std::invalid_argument if the pattern is not one. Update matrices that need more than
/// `most_kept` numbers are put on a stack, where a parent's takes the place of its children's (Duff, Reid 1983).
[[nodiscard]] Plan make_plan(const PatternRef& lower, int row_multiple, std::size_t most_kept);

}  // namespace hoofload::solver::multifrontal
