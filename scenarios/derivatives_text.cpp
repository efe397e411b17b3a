#include "scenarios/comparison.hpp"
#include "scenarios/derivatives_command.hpp"
#include "scenarios/input_words.hpp"
#include "scenarios/nothing.hpp"
#include "scenarios/result_table.hpp"
#include "viz/text.hpp"

#include <algorithm>
#include <cmath>

namespace hoofload::scenarios {

namespace {

constexpr std::size_t kShown = 5;
constexpr int kNumber = 15, kPerUnit = 26;
constexpr double kPercent = 0.01;

bool is_scale(const SlopeInput& input) { return input.effect == Effect::scale; }

std::string now_text(const SlopeInput& input) {
  if (input.effect != Effect::replace) return "-";
  return viz::number_text(input.now) + (input.unit.empty() ? "" : " " + input.unit);
}

std::string sd_text(const SlopeInput& input) {
  if (!(input.sd > 0)) return "-";
  if (is_scale(input)) return viz::number_text(100 * input.sd) + " %";
  return viz::number_text(input.sd) + (input.unit.empty() ? "" : " " + input.unit);
}

std::string slope_text(const Slope& s, const QuantityKey& key, const SlopeInput& input) {
  return viz::signed_text(s.value * (is_scale(input) ? kPercent : 1)) + " " + slope_unit(key.unit, input);
}

/// By size, the largest first; inputs without a known spread come after those that have one.
std::vector<const Slope*> ranked(const std::vector<Slope>& slopes, const std::vector<SlopeInput>& inputs) {
  std::vector<const Slope*> order;
  for (const Slope& s : slopes) order.push_back(&s);
  std::stable_sort(order.begin(), order.end(), [&](const Slope* a, const Slope* b) {
    const bool a_has = inputs[a->input].sd > 0, b_has = inputs[b->input].sd > 0;
    return a_has != b_has ? a_has : a->size(inputs) > b->size(inputs);
  });
  return order;
}

int name_width(const std::vector<SlopeInput>& inputs) {
  int width = 0;
  for (const SlopeInput& i : inputs) width = std::max(width, viz::columns(input_words(i.name)));
  return std::min(width, 76) + 1;
}

std::string rows(const std::vector<Slope>& slopes, const std::vector<SlopeInput>& inputs, const QuantityKey& key,
                 std::size_t most) {
  std::string text;
  std::size_t told = 0;
  for (const Slope* s : ranked(slopes, inputs)) {
    const SlopeInput& input = inputs[s->input];
    if (s->size(inputs) < kNothing) continue;
    if (told++ == most) break;
    const std::string change = input.sd > 0 ? viz::signed_text(s->value * input.sd) : "-";
    text += "  " + viz::left_aligned(input_words(input.name), name_width(inputs)) +
            viz::right_aligned(now_text(input), kNumber) + viz::right_aligned(slope_text(*s, key, input), kPerUnit) +
            viz::right_aligned(sd_text(input), kNumber) + viz::right_aligned(change, kNumber) +
            (s->remark.empty() ? "" : "  [" + s->remark + "]") + "\n";
  }
  if (told == 0) text += "  nothing of it moves this\n";
  return text;
}

std::string heading(const std::vector<SlopeInput>& inputs) {
  return "  " + viz::left_aligned("by", name_width(inputs)) + viz::right_aligned("now", kNumber) +
         viz::right_aligned("slope", kPerUnit) + viz::right_aligned("one sd", kNumber) +
         viz::right_aligned("change", kNumber) + "\n";
}

bool is_asked(const QuantityKey& key, Phase phase, const ColumnChoice& choice) {
  return choice.quantity.empty() ? is_shown(key, phase, TableDetail::headline) : key.key == choice.quantity;
}

std::string missing_text(const RunSlopes& run, const std::vector<SlopeInput>& inputs) {
  std::string text;
  for (std::size_t k = 0; k < run.missing.size(); ++k) {
    const MissingSlope& m = run.missing[k];
    const bool is_again = k > 0 && run.missing[k - 1].input == m.input && run.missing[k - 1].why == m.why;
    if (!is_again) text += "  " + inputs[m.input].name + ": " + m.why + " (" + m.phase + ")\n";
  }
  return text.empty() ? "" : "no slope by:\n" + text;
}

}  // namespace

std::string slope_unit(std::string_view quantity_unit, const SlopeInput& input) {
  const std::string unit(quantity_unit);
  if (is_scale(input)) return unit + " per 1 %";
  return unit + (input.unit.empty() ? " per 1" : " per " + input.unit.substr(0, input.unit.find(',')));
}

std::string slopes_text(const std::vector<RunSlopes>& runs, const std::vector<SlopeInput>& inputs,
                        const ColumnChoice& choice) {
  std::string text =
      "AT THIS POINT ONLY: how much each quantity changes with each input where the case stands, all others held.\n"
      "\"change\" is that of one standard deviation (sd) of the input along the slope: where the curve bends, a sweep "
      "tells more.\n";
  const std::size_t most = choice.quantity.empty() ? kShown : inputs.size();
  for (const RunSlopes& run : runs) {
    for (const SlopeTable& table : run.phases)
      for (const QuantityKey& key : quantity_catalogue()) {
        const auto it = table.slopes.find(key.key);
        if (it == table.slopes.end() || !is_asked(key, table.phase, choice)) continue;
        text += "\n" + std::string(key.words) + " (" + std::string(key.key) + ") [" + std::string(key.unit) + "], " +
                std::string(name_of(table.phase)) + ", " + std::string(name_of(run.model)) + ", " + run.option + ": " +
                viz::number_text(table.values.find(key.key)->second) + "\n" + heading(inputs) +
                rows(it->second, inputs, key, most);
      }
    const std::string missing = missing_text(run, inputs);
    if (!missing.empty()) text += "\n" + std::string(name_of(run.model)) + ", " + run.option + ", " + missing;
  }
  return text;
}

}  // namespace hoofload::scenarios
