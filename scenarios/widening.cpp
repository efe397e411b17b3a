#include "scenarios/widening.hpp"

#include "scenarios/nothing.hpp"
#include "scenarios/result_table.hpp"
#include "viz/text.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace hoofload::scenarios {

namespace {

constexpr std::size_t kMostSlices = 8, kFewestInSlice = 16;
constexpr std::size_t kShown = 3;

std::size_t slices_of(std::size_t draws) { return std::clamp<std::size_t>(draws / kFewestInSlice, 2, kMostSlices); }

/// Share of every uncertainty in the variance of one change.
std::vector<double> shares_of(const SampledStudy& study, const PairedDraws& paired) {
  std::vector<double> shares;
  for (std::size_t k = 0; k < study.list.size(); ++k) {
    std::vector<double> u;
    for (const std::size_t draw : paired.draws) u.push_back(study.points.at(draw, k));
    shares.push_back(share_of_variance(u, paired.changes));
  }
  return shares;
}

bool can_be_measured(UncertainGroup group) { return group != UncertainGroup::tissues; }

std::string ranked(const SampledStudy& study, const std::vector<double>& mean, bool is_any) {
  std::vector<std::size_t> order(mean.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return mean[a] > mean[b]; });
  std::string text;
  std::size_t shown = 0;
  for (const std::size_t k : order) {
    if (shown == kShown || (!is_any && !can_be_measured(study.list[k].group))) continue;
    text += (shown++ > 0 ? ", " : "") + study.list[k].name + " " + viz::number_text(100 * mean[k], 2) + " %";
  }
  return text;
}

}  // namespace

double share_of_variance(const std::vector<double>& u, const std::vector<double>& y) {
  const std::size_t slices = slices_of(y.size());
  if (y.size() <= slices) return 0;
  std::vector<double> sum(slices, 0), count(slices, 0);
  const double n = static_cast<double>(y.size());
  const double mean = std::accumulate(y.begin(), y.end(), 0.0) / n;
  double all = 0, between = 0;
  for (std::size_t s = 0; s < y.size(); ++s) {
    const auto slice = std::min(slices - 1, static_cast<std::size_t>(u[s] * static_cast<double>(slices)));
    sum[slice] += y[s] - mean;
    count[slice] += 1;
    all += (y[s] - mean) * (y[s] - mean);
  }
  for (std::size_t m = 0; m < slices; ++m) between += count[m] > 0 ? sum[m] * sum[m] / count[m] : 0;
  if (!(all > 0)) return 0;
  return std::max(0.0, 1 - (n - 1) / (n - static_cast<double>(slices)) * (1 - between / all));
}

double share_by_chance(std::size_t draws) {
  const double slices = static_cast<double>(slices_of(draws));
  return 4 * std::sqrt(2 * (slices - 1)) / static_cast<double>(draws - 1);
}

void add_widening(const SampledStudy& study, const std::vector<RunResult>& results, Comparison& comparison) {
  const DrawTable table = draw_table(study);
  for (Difference& d : comparison.differences) {
    if (!d.interval || d.interval->high - d.interval->low < kNothing) continue;
    const PairedDraws paired = paired_draws(table, results.front().run.name, d);
    const std::vector<double> shares = shares_of(study, paired);
    const auto most = std::max_element(shares.begin(), shares.end());
    if (most == shares.end() || *most < share_by_chance(paired.draws.size())) continue;
    const Uncertainty& u = study.list[static_cast<std::size_t>(most - shares.begin())];
    d.widened_by = Widening{u.name, *most};
  }
}

std::string widening_text(const SampledStudy& study, const std::vector<RunResult>& results,
                          const Comparison& comparison) {
  const DrawTable table = draw_table(study);
  std::vector<double> mean(study.list.size(), 0);
  std::size_t changes = 0;
  for (const Difference& d : comparison.differences) {
    if (!d.widened_by || !is_shown(*d.quantity, d.phase, TableDetail::headline)) continue;
    const auto shares = shares_of(study, paired_draws(table, results.front().run.name, d));
    for (std::size_t k = 0; k < mean.size(); ++k) mean[k] += shares[k];
    ++changes;
  }
  if (changes == 0) return {};
  for (double& m : mean) m /= static_cast<double>(changes);
  return "Measure this again first: " + ranked(study, mean, false) + "\n  (mean share of the variance of the " +
         std::to_string(changes) +
         " changes above that would go if it were known; tissues, which nobody can measure on the\n  foot, "
         "included: " +
         ranked(study, mean, true) + ")\n";
}

}  // namespace hoofload::scenarios
