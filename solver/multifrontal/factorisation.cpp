#include "solver/multifrontal/factorisation.hpp"

#include <algorithm>
#include <bit>
#include <cassert>
#include <cstdint>

#include "solver/multifrontal/kernels.hpp"
#include "solver/multifrontal/rounded_panel.hpp"

namespace hoofload::solver::multifrontal {

Factorisation::Factorisation(const PatternRef& lower, std::size_t most_kept)
    : plan_(make_plan(lower, row_multiple(), most_kept)),
      panels_(Eigen::VectorXd::Zero(static_cast<Eigen::Index>(plan_.panel_size))),
      updates_(Eigen::VectorXd::Zero(static_cast<Eigen::Index>(plan_.update_size))),
      trapezoids_(plan_.trapezoids_size),
      values_(plan_.keeps_updates ? plan_.source.size() : 0, 0.0),
      held_(static_cast<std::size_t>(plan_.size), 0),
      held_changed_(held_.size(), 0),
      diagonal_changed_(held_.size(), 0),
      stale_(plan_.fronts.size(), 1) {}

void Factorisation::forget() {
  std::fill(stale_.begin(), stale_.end(), 1);
  factored_ = false;
}

/// Keeps which rows are held and the diagonal given for the others, and notes what is not as it was.
void Factorisation::take_rows(const LowerValues& lower) {
  const bool given = lower.diagonal != nullptr;
  const bool other = given != (diagonal_.size() > 0);
  diagonal_.conservativeResize(given ? plan_.size : 0);
  for (std::size_t k = 0; k < held_.size(); ++k) {
    const int unknown = plan_.original[k];
    const char held = lower.held != nullptr ? lower.held[unknown] : char{0};
    held_changed_[k] = held != held_[k] ? 1 : 0;
    held_[k] = held;
    diagonal_changed_[k] = other ? 1 : held_changed_[k];
    if (!given) continue;
    double& last = diagonal_[static_cast<Eigen::Index>(k)];
    const double value = held != 0 ? 1.0 : lower.diagonal[unknown];
    if (std::bit_cast<std::uint64_t>(value) != std::bit_cast<std::uint64_t>(last)) diagonal_changed_[k] = 1;
    last = value;
  }
}

/// Keeps a front's entries. True if any differs from the one kept, bit by bit.
bool Factorisation::take_values(const Front& front, const double* entries) {
  std::uint64_t different = 0;
  for (std::size_t k = front.first_entry; k < front.first_entry + front.entries; ++k) {
    const double value = entries[plan_.source[k]];
    different |= std::bit_cast<std::uint64_t>(value) ^ std::bit_cast<std::uint64_t>(values_[k]);
    values_[k] = value;
  }
  return different != 0;
}

bool Factorisation::has_new_rows(const Front& front) const {
  const auto first = static_cast<std::size_t>(front.first_pivot), pivots = static_cast<std::size_t>(front.pivots);
  for (std::size_t k = first; k < first + pivots; ++k)
    if (diagonal_changed_[k] != 0) return true;
  for (int row : plan_.rows(front))
    if (held_changed_[static_cast<std::size_t>(row)] != 0) return true;
  return false;
}

/// A front's own part of the matrix. A held row has then no entry but its diagonal, in this front and, as its update matrices
/// pass on zeros, in all others.
void Factorisation::enter_values(const Front& front, const LowerValues& lower) {
  double* panel = panels_.data() + front.panel;
  const auto height = static_cast<std::size_t>(front.height());
  std::fill_n(panel, height * static_cast<std::size_t>(front.columns), 0.0);
  for (std::size_t k = front.first_entry; k < front.first_entry + front.entries; ++k)
    panel[plan_.target[k]] += lower.entries[plan_.source[k]];
  for (int j = front.pivots; j < front.columns; ++j) panel[static_cast<std::size_t>(j) * (height + 1)] = 1;
  const auto clear_row = [&](std::size_t row, std::size_t columns) {
    for (std::size_t j = 0; j < columns; ++j) panel[j * height + row] = 0;
  };
  const auto first = static_cast<std::size_t>(front.first_pivot), pivots = static_cast<std::size_t>(front.pivots);
  for (std::size_t j = 0; j < pivots; ++j) {
    if (diagonal_.size() > 0) panel[j * (height + 1)] = diagonal_[static_cast<Eigen::Index>(first + j)];
    if (held_[first + j] == 0) continue;
    std::fill_n(panel + j * height, height, 0.0);
    clear_row(j, j);
    panel[j * (height + 1)] = 1;
  }
  auto row = static_cast<std::size_t>(front.pivot_rows);
  for (int position : plan_.rows(front)) {
    if (held_[static_cast<std::size_t>(position)] != 0) clear_row(row, pivots);
    ++row;
  }
}

/// A column of an update matrix as it is kept, in a square or in a lower triangle on the stack: row i, from its diagonal on, is
/// [i] of what is returned.
const double* Factorisation::kept_column(const Front& child, int column) const {
  const auto j = static_cast<std::size_t>(column);
  const double* update = updates_.data() + child.update;
  if (plan_.keeps_updates) return update + j * static_cast<std::size_t>(child.update_rows);
  return update + j * static_cast<std::size_t>(child.updates) - j * (j + 1) / 2;
}

void Factorisation::add_child_to_panel(const Front& child, const Front& front) {
  const int* place = plan_.row_in_parent.data() + child.first_row;
  for (int j = 0; j < child.rows_in_parent_panel; ++j) {
    const double* from = kept_column(child, j);
    double* to =
        panels_.data() + front.panel + static_cast<std::size_t>(place[j]) * static_cast<std::size_t>(front.height());
    for (int i = j; i < child.updates; ++i) to[place[i]] += from[i];
  }
}

void Factorisation::add_child_to_update(const Front& child, const Front& front) {
  const int* place = plan_.row_in_parent.data() + child.first_row;
  for (int j = child.rows_in_parent_panel; j < child.updates; ++j) {
    const double* from = kept_column(child, j);
    double* to = updates_.data() + front.work +
                 static_cast<std::size_t>(place[j] - front.pivot_rows) * static_cast<std::size_t>(front.update_rows) -
                 front.pivot_rows;
    for (int i = j; i < child.updates; ++i) to[place[i]] += from[i];
  }
}

/// Keeps what a front has formed: its panel rounded, its update matrix as a triangle in the place of its children's.
void Factorisation::to_stack(const Front& front) {
  round_panel(panels_.data(), front.pivots, front.updates, front.pivot_rows, front.height(),
              trapezoids_.data() + front.trapezoid);
  const double* from = updates_.data() + front.work;
  double* to = updates_.data() + front.update;
  for (int j = 0; j < front.updates; ++j, from += front.update_rows + 1) to = std::copy_n(from, front.updates - j, to);
}

bool Factorisation::factor_front(const Front& front, const LowerValues& lower) {
  enter_values(front, lower);
  double* panel = panels_.data() + front.panel;
  const int* child = plan_.child.data() + front.first_child;
  for (int c = 0; c < front.children; ++c) add_child_to_panel(plan_.fronts[static_cast<std::size_t>(child[c])], front);
  if (!factor_panel(panel, front.columns, front.height())) return false;
  schur_complement(panel, front.pivots, front.pivot_rows, front.update_rows, updates_.data() + front.work);
  for (int c = 0; c < front.children; ++c) add_child_to_update(plan_.fronts[static_cast<std::size_t>(child[c])], front);
  if (!plan_.keeps_updates) to_stack(front);
  return true;
}

bool Factorisation::factorise(const LowerValues& lower) {
  take_rows(lower);
  for (std::size_t f = 0; f < plan_.fronts.size(); ++f) {
    const Front& front = plan_.fronts[f];
    if (!plan_.keeps_updates || take_values(front, lower.entries) || has_new_rows(front)) stale_[f] = 1;
    if (stale_[f] != 0 && front.parent >= 0) stale_[static_cast<std::size_t>(front.parent)] = 1;
  }
  fronts_done_ = 0;
  factored_ = false;
  for (std::size_t f = 0; f < plan_.fronts.size(); ++f) {
    if (stale_[f] == 0) continue;
    if (!factor_front(plan_.fronts[f], lower)) return false;
    stale_[f] = 0;
    ++fronts_done_;
  }
  factored_ = true;
  return true;
}

void Factorisation::solve_column(const double* b, double* x, double* by_position, double* local) const {
  const auto n = static_cast<std::size_t>(plan_.size);
  const bool rounded = is_rounded();
  const auto begin_front = [&](const Front& f) {
    std::fill_n(local, f.height(), 0.0);
    std::copy_n(by_position + f.first_pivot, f.pivots, local);
    return local + (rounded ? f.pivots : f.pivot_rows);
  };
  for (std::size_t k = 0; k < n; ++k) by_position[k] = b[plan_.original[k]];
  for (const Front& f : plan_.fronts) {
    const double* below = begin_front(f);
    if (rounded)
      forward(trapezoids_.data() + f.trapezoid, f.pivots, f.pivots + f.updates, local);
    else
      forward(panels_.data() + f.panel, f.columns, f.height(), local);
    std::copy_n(local, f.pivots, by_position + f.first_pivot);
    for (int row : plan_.rows(f)) by_position[row] += *below++;
  }
  for (auto f = plan_.fronts.rbegin(); f != plan_.fronts.rend(); ++f) {
    double* below = begin_front(*f);
    for (int row : plan_.rows(*f)) *below++ = by_position[row];
    if (rounded)
      backward(trapezoids_.data() + f->trapezoid, f->pivots, f->pivots + f->updates, local);
    else
      backward(panels_.data() + f->panel, f->columns, f->height(), local);
    std::copy_n(local, f->pivots, by_position + f->first_pivot);
  }
  for (std::size_t k = 0; k < n; ++k) x[plan_.original[k]] = by_position[k];
}

Eigen::VectorXd Factorisation::solve(const Eigen::VectorXd& b) const {
  Eigen::VectorXd x(b.size()), work(plan_.size + plan_.highest);
  assert(factored_ && b.size() == plan_.size);
  solve_column(b.data(), x.data(), work.data(), work.data() + plan_.size);
  return x;
}

Eigen::MatrixXd Factorisation::solve_columns(const Eigen::MatrixXd& b) const {
  Eigen::MatrixXd x(b.rows(), b.cols());
  Eigen::VectorXd work(plan_.size + plan_.highest);
  assert(factored_ && b.rows() == plan_.size);
  for (Eigen::Index c = 0; c < b.cols(); ++c)
    solve_column(b.col(c).data(), x.col(c).data(), work.data(), work.data() + plan_.size);
  return x;
}

}  // namespace hoofload::solver::multifrontal
