#include "scenarios/interval_text.hpp"

#include "scenarios/nothing.hpp"
#include "scenarios/result_table.hpp"
#include "viz/text.hpp"

#include <cmath>

namespace hoofload::scenarios {

namespace {

constexpr int kOption = 40, kNumber = 10;

std::string percent_of(double share) { return viz::number_text(100 * share, 3) + " %"; }

std::string signed_number(double x) { return std::abs(x) < kNothing ? "0" : viz::signed_text(x); }

/// Where the draws speak and which of two reasons makes a change not distinguishable.
std::string remark_alone(const Difference& d) {
  const bool is_outside = d.change < d.interval->low || d.change > d.interval->high;
  if (d.is_distinguishable) return is_outside ? "outside its interval: the draws' mesh is too coarse here" : "";
  if (d.interval->low <= 0 && d.interval->high >= 0) return "not distinguishable: the interval holds zero";
  return "not distinguishable: within the mesh bar";
}

std::vector<std::string> numbers_of(const Difference& d) {
  return {signed_number(d.change), signed_number(d.interval->low), signed_number(d.interval->median),
          signed_number(d.interval->high), d.p_better ? percent_of(*d.p_better) : "-"};
}

std::string head_of(const Difference& d) {
  return std::string(d.quantity->key) + " [" + std::string(d.quantity->unit) + "], " + std::string(name_of(d.phase)) +
         ", " + std::string(name_of(d.model));
}

/// Differences that have an interval, grouped by phase, model and quantity in the order of the table.
template <class Visit>
void each_group(const std::vector<RunResult>& results, const Comparison& comparison, TableDetail detail,
                Visit&& visit) {
  for (const Phase phase : results.front().run.load.phases)
    for (const ModelKind model : results.front().run.study.models)
      for (const QuantityKey& key : quantity_catalogue()) {
        if (!is_shown(key, phase, detail)) continue;
        std::vector<const Difference*> group;
        bool is_moved = false;
        for (const Difference& d : comparison.differences) {
          if (d.phase != phase || d.model != model || d.quantity != &key || !d.interval) continue;
          group.push_back(&d);
          is_moved = is_moved || moves(d);
        }
        if (is_moved) visit(group);
      }
}

}  // namespace

std::string interval_remark(const Difference& d) {
  const std::string alone = remark_alone(d);
  if (!d.widened_by) return alone;
  return alone + (alone.empty() ? "" : "; ") + "widened most by " + d.widened_by->input + " (" +
         percent_of(d.widened_by->share) + ")";
}

std::string interval_verdict(const Difference& d) {
  const std::string remark = interval_remark(d);
  if (!d.is_distinguishable) return remark;
  return "distinguishable" + (remark.empty() ? "" : "; " + remark);
}

bool moves(const Difference& d) {
  return std::abs(d.change) >= kNothing || std::abs(d.interval->low) >= kNothing || std::abs(d.interval->high) >= kNothing;
}

std::string interval_text(const std::vector<RunResult>& results, const Comparison& comparison) {
  std::string text;
  each_group(results, comparison, TableDetail::headline, [&](const std::vector<const Difference*>& group) {
    text += head_of(*group.front()) + "\n";
    for (const Difference* d : group) {
      text += "  " + viz::left_aligned(d->option, kOption);
      for (const std::string& number : numbers_of(*d)) text += viz::right_aligned(number, kNumber);
      const std::string said = interval_remark(*d);
      text += (said.empty() ? "" : "  " + said) + "\n";
    }
  });
  if (text.empty()) return {};
  std::string head = viz::left_aligned("Paired change over the draws", kOption + 2);
  for (const char* column : {"change", "5 %", "50 %", "95 %", "P(better)"}) head += viz::right_aligned(column, kNumber);
  return head + "\n" + text +
         "change: of the values above, on the fine mesh; the intervals hold what is uncertain of foot, materials and "
         "loads\n(docs/uncertainty.md), not the mesh's error.\n";
}

std::string interval_markdown(const std::vector<RunResult>& results, const Comparison& comparison) {
  std::string text;
  each_group(results, comparison, TableDetail::full, [&](const std::vector<const Difference*>& group) {
    for (const Difference* d : group) {
      text += "| " + head_of(*d) + " | " + d->option;
      for (const std::string& number : numbers_of(*d)) text += " | " + number;
      text +=
          " | " + (d->has_bar ? viz::number_text(d->bar, 2) : std::string("-")) + " | " + interval_remark(*d) + " |\n";
    }
  });
  if (text.empty()) return {};
  return "\n## Paired changes over the draws\n\n| quantity | option | change | 5 % | 50 % | 95 % | P(better) | mesh "
         "bar | |\n"
         "|---|---|---|---|---|---|---|---|---|\n" +
         text;
}

}  // namespace hoofload::scenarios
