#include "scenarios/effects.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>

#include "materials/catalogue.hpp"
#include "scenarios/bars.hpp"
#include "scenarios/units.hpp"

namespace hoofload::scenarios {

namespace {

constexpr double kTwin = 0.5;

std::vector<Case> runs_of(const EffectCase& effect, double density, const MaterialWords& materials) {
  const std::string text = "schema = 1\ntitle = \"Published effects: " + std::string(effect.name) +
                           "\"\nstudy.bars = false\nstudy.density = " + number_text(density) + std::string(effect.text);
  CaseReading reading = read_case(text, std::string(effect.name), materials);
  if (!reading.errors.empty())
    throw std::logic_error("published effects: " + std::string(effect.name) + ": " + reading.errors.front().key + ": " +
                           reading.errors.front().problem);
  return std::move(reading.runs);
}

std::vector<const EffectRow*> chosen_rows(const std::vector<std::string>& names) {
  std::vector<const EffectRow*> rows;
  for (const EffectRow& row : effect_rows())
    if (names.empty() || std::find(names.begin(), names.end(), row.number) != names.end()) rows.push_back(&row);
  return rows;
}

std::vector<const EffectCase*> cases_of(const std::vector<const EffectRow*>& rows) {
  std::vector<const EffectCase*> needed;
  for (const EffectCase& effect : effect_cases())
    if (std::any_of(rows.begin(), rows.end(), [&](const EffectRow* row) {
          return std::find(row->cases.begin(), row->cases.end(), effect.name) != row->cases.end();
        }))
      needed.push_back(&effect);
  return needed;
}

bool is_inside(const EffectLine& line, double value) {
  return (!line.low || value >= *line.low) && (!line.high || value <= *line.high);
}

LineAnswer answer_line(const EffectLine& line, const EffectCases& fine, const EffectCases& coarse, double density) {
  try {
    return judged(line, line.amount(fine), line.amount(coarse), density);
  } catch (const std::runtime_error& e) {
    LineAnswer answer;
    answer.verdict = EffectVerdict::unsolved;
    answer.why = e.what();
    return answer;
  }
}

}  // namespace

LineAnswer judged(const EffectLine& line, const Amount& fine, const Amount& coarse, double density) {
  LineAnswer answer;
  const double factor = bar_factor(density, fine.of_the_whole);
  answer.value = fine.value;
  // A change is read against a baseline of nothing, of the size that it is a change of.
  answer.bar = fine.change_of
                   ? bar_of_change({0, 0, *fine.change_of}, {fine.value, coarse.value, *fine.change_of}, factor)
                   : bar_of_value({fine.value, coarse.value, std::abs(fine.value)}, factor);
  if (!line.low && !line.high) return answer;
  const bool inside = is_inside(line, answer.value);
  const bool is_clear =
      is_inside(line, answer.value - answer.bar) == inside && is_inside(line, answer.value + answer.bar) == inside;
  const bool is_nothing = line.is_sign && std::abs(answer.value) <= answer.bar;
  answer.verdict = inside && !is_nothing ? EffectVerdict::pass : EffectVerdict::miss;
  answer.at_the_edge = !is_clear || is_nothing;
  return answer;
}

EffectVerdict verdict_of(const RowAnswer& answer) {
  const auto any = [&](EffectVerdict v) {
    return std::any_of(answer.lines.begin(), answer.lines.end(), [&](const LineAnswer& l) { return l.verdict == v; });
  };
  return any(EffectVerdict::miss)       ? EffectVerdict::miss
         : any(EffectVerdict::unsolved) ? EffectVerdict::unsolved
                                        : EffectVerdict::pass;
}

std::vector<RowAnswer> answer_effects(const std::vector<std::string>& rows, double density,
                                      const std::function<void(const RunProgress&)>& report) {
  const auto catalogue = materials::load_catalogue();
  const MaterialWords words = material_words(catalogue);
  const auto chosen = chosen_rows(rows);
  const auto needed = cases_of(chosen);
  EffectCases fine, coarse;
  RunProgress progress;
  progress.of = 2 * needed.size();
  for (const EffectCase* effect : needed)
    for (const auto& [cases, share] : {std::pair(&fine, 1.0), std::pair(&coarse, kTwin)}) {
      progress.what = effect->name;
      if (report) report(progress);
      cases->emplace(effect->name, solve_runs(runs_of(*effect, share * density, words), catalogue));
      ++progress.done;
    }
  if (report) report(progress);
  std::vector<RowAnswer> answers;
  for (const EffectRow* row : chosen) {
    answers.push_back({row, {}});
    for (const EffectLine& line : row->lines) answers.back().lines.push_back(answer_line(line, fine, coarse, density));
  }
  return answers;
}

}  // namespace hoofload::scenarios
