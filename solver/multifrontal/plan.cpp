#include "solver/multifrontal/plan.hpp"

#include <algorithm>
#include <cassert>
#include <limits>
#include <stdexcept>

#include "solver/multifrontal/rounded_panel.hpp"
#include "solver/multifrontal/supernodes.hpp"

namespace hoofload::solver::multifrontal {

namespace {

int padded(int n, int multiple) { return (n + multiple - 1) / multiple * multiple; }

/// A matrix entry enters at the front that eliminates the first of its two unknowns.
struct Entry {
  int value;        ///< index among the matrix values
  int column, row;  ///< positions, column <= row
};

std::vector<Entry> entries_of(const PatternRef& lower, const std::vector<int>& position) {
  std::vector<Entry> all;
  all.reserve(static_cast<std::size_t>(lower.nonZeros()));
  for (int c = 0; c < lower.cols(); ++c) {
    for (int p = lower.outerIndexPtr()[c]; p < lower.outerIndexPtr()[c + 1]; ++p) {
      const int a = position[static_cast<std::size_t>(c)];
      const int b = position[static_cast<std::size_t>(lower.innerIndexPtr()[p])];
      all.push_back({p, std::min(a, b), std::max(a, b)});
    }
  }
  return all;
}

/// Front of each position, and the fronts' pivots.
std::vector<int> number_unknowns(const NodeGraph& graph, const Supernodes& super, Plan& plan) {
  std::vector<int> front_of;
  for (std::size_t s = 0; s < super.nodes.size(); ++s) {
    Front f;
    f.first_pivot = static_cast<int>(plan.original.size());
    f.parent = super.parent[s];
    for (int node : super.nodes[s]) {
      const auto at = static_cast<std::size_t>(node);
      for (int p = graph.first_unknown[at]; p < graph.first_unknown[at + 1]; ++p)
        plan.original.push_back(graph.unknown[static_cast<std::size_t>(p)]);
    }
    f.pivots = static_cast<int>(plan.original.size()) - f.first_pivot;
    front_of.insert(front_of.end(), static_cast<std::size_t>(f.pivots), static_cast<int>(s));
    plan.fronts.push_back(f);
  }
  return front_of;
}

void list_children(Plan& plan) {
  for (const Front& f : plan.fronts)
    if (f.parent >= 0) ++plan.fronts[static_cast<std::size_t>(f.parent)].children;
  int next = 0;
  for (Front& f : plan.fronts) {
    f.first_child = next;
    next += f.children;
    f.children = 0;
  }
  plan.child.resize(static_cast<std::size_t>(next));
  for (std::size_t s = 0; s < plan.fronts.size(); ++s) {
    if (plan.fronts[s].parent < 0) continue;
    Front& up = plan.fronts[static_cast<std::size_t>(plan.fronts[s].parent)];
    plan.child[static_cast<std::size_t>(up.first_child + up.children++)] = static_cast<int>(s);
  }
}

/// Update rows: those of the pivots' matrix entries and of the children, beyond the front's own pivots.
void find_rows(const std::vector<Entry>& all, const std::vector<int>& front_of, Plan& plan) {
  std::vector<std::vector<int>> wanted(plan.fronts.size());
  for (const Entry& e : all) {
    const int f = front_of[static_cast<std::size_t>(e.column)];
    if (front_of[static_cast<std::size_t>(e.row)] != f) wanted[static_cast<std::size_t>(f)].push_back(e.row);
  }
  for (std::size_t s = 0; s < plan.fronts.size(); ++s) {
    Front& f = plan.fronts[s];
    std::vector<int>& rows = wanted[s];
    for (int k = 0; k < f.children; ++k) {
      const Front& c = plan.fronts[static_cast<std::size_t>(plan.child[static_cast<std::size_t>(f.first_child + k)])];
      for (int r : plan.rows(c))
        if (r >= f.first_pivot + f.pivots) rows.push_back(r);
    }
    std::sort(rows.begin(), rows.end());
    rows.erase(std::unique(rows.begin(), rows.end()), rows.end());
    f.first_row = plan.row.size();
    f.updates = static_cast<int>(rows.size());
    plan.row.insert(plan.row.end(), rows.begin(), rows.end());
    rows = {};
  }
}

std::size_t panel_entries(const Front& f) {
  return static_cast<std::size_t>(f.height()) * static_cast<std::size_t>(f.columns);
}

std::size_t square(const Front& f) {
  return static_cast<std::size_t>(f.update_rows) * static_cast<std::size_t>(f.update_rows);
}

/// Lower triangle of the rows that are there, columns one after another, up to a whole packet.
std::size_t triangle(const Front& f) {
  const auto n = static_cast<std::size_t>(f.updates);
  return (n * (n + 1) / 2 + 7) / 8 * 8;
}

/// Places on a stack: a front forms its matrix above those of its children, which are the topmost, and moves its triangle down
/// to where theirs began.
void stack_updates(Plan& plan) {
  plan.keeps_updates = false;
  plan.panel_size = plan.update_size = 0;
  std::size_t top = 0;
  for (Front& f : plan.fronts) {
    f.work = top;
    const int* child = plan.child.data() + f.first_child;
    f.update = f.children > 0 ? plan.fronts[static_cast<std::size_t>(child[0])].update : top;
    std::size_t below = f.update;  // the children's matrices fill the stack from there to its top
    for (int k = 0; k < f.children; ++k) {
      const Front& c = plan.fronts[static_cast<std::size_t>(child[k])];
      assert(c.update == below);
      below += triangle(c);
    }
    assert(below == top);
    plan.update_size = std::max(plan.update_size, f.work + square(f));
    top = f.update + triangle(f);
    f.panel = 0;
    plan.panel_size = std::max(plan.panel_size, panel_entries(f));
    f.trapezoid = plan.trapezoids_size;
    plan.trapezoids_size += trapezoid_entries(f.pivots, f.pivots + f.updates);
  }
}

void lay_out(Plan& plan, int row_multiple, std::size_t most_kept) {
  for (Front& f : plan.fronts) {
    f.columns = padded(f.pivots, 4);
    f.pivot_rows = padded(f.pivots, std::max(4, row_multiple));
    f.update_rows = padded(f.updates, std::max(4, row_multiple));
    f.panel = plan.panel_size;
    f.update = f.work = plan.update_size;
    plan.panel_size += panel_entries(f);
    plan.update_size += square(f);
    plan.highest = std::max(plan.highest, f.height());
    if (panel_entries(f) > std::numeric_limits<std::uint32_t>::max())
      throw std::length_error("sparse factorisation: a front has more than 2^32 entries");
  }
  if (plan.update_size > most_kept) stack_updates(plan);
}

/// Storage row of a position in a front's panel.
int storage_row(const Plan& plan, const Front& f, int position) {
  if (position < f.first_pivot + f.pivots) return position - f.first_pivot;
  const auto rows = plan.rows(f);
  const auto it = std::lower_bound(rows.begin(), rows.end(), position);
  assert(it != rows.end() && *it == position);
  return f.pivot_rows + static_cast<int>(it - rows.begin());
}

void map_children(Plan& plan) {
  plan.row_in_parent.resize(plan.row.size());
  for (Front& f : plan.fronts) {
    if (f.parent < 0) continue;
    const Front& up = plan.fronts[static_cast<std::size_t>(f.parent)];
    for (std::size_t k = 0; k < static_cast<std::size_t>(f.updates); ++k) {
      const int r = plan.row[f.first_row + k];
      if (r < up.first_pivot + up.pivots) ++f.rows_in_parent_panel;
      plan.row_in_parent[f.first_row + k] = storage_row(plan, up, r);
    }
  }
}

void map_entries(const std::vector<Entry>& all, const std::vector<int>& front_of, Plan& plan) {
  const auto front = [&](const Entry& e) -> Front& {
    return plan.fronts[static_cast<std::size_t>(front_of[static_cast<std::size_t>(e.column)])];
  };
  for (const Entry& e : all) ++front(e).entries;
  std::size_t next = 0;
  for (Front& f : plan.fronts) {
    f.first_entry = next;
    next += f.entries;
    f.entries = 0;
  }
  plan.source.resize(next);
  plan.target.resize(next);
  for (const Entry& e : all) {
    Front& f = front(e);
    const std::size_t k = f.first_entry + f.entries++;
    plan.source[k] = e.value;
    const int column = e.column - f.first_pivot;
    plan.target[k] = static_cast<std::uint32_t>(column) * static_cast<std::uint32_t>(f.height()) +
                     static_cast<std::uint32_t>(storage_row(plan, f, e.row));
  }
}

}  // namespace

Plan make_plan(const PatternRef& lower, int row_multiple, std::size_t most_kept) {
  const NodeGraph graph = compress(lower);
  const Supernodes super = find_supernodes(graph);
  Plan plan;
  plan.size = static_cast<int>(lower.cols());
  const std::vector<int> front_of = number_unknowns(graph, super, plan);
  std::vector<int> position(plan.original.size());
  for (std::size_t k = 0; k < plan.original.size(); ++k)
    position[static_cast<std::size_t>(plan.original[k])] = static_cast<int>(k);
  list_children(plan);
  const std::vector<Entry> entries = entries_of(lower, position);
  find_rows(entries, front_of, plan);
  lay_out(plan, row_multiple, most_kept);
  map_children(plan);
  map_entries(entries, front_of, plan);
  return plan;
}

}  // namespace hoofload::solver::multifrontal
