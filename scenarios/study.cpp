#include "scenarios/study.hpp"

#include "scenarios/nothing.hpp"
#include "scenarios/sweep_pool.hpp"
#include "scenarios/units.hpp"

#include <algorithm>
#include <cmath>
#include <thread>
#include <tuple>

namespace hoofload::scenarios {

namespace {

constexpr std::size_t kFewest = 20;  ///< with fewer, 5 and 95 % lie beyond the outermost draws

using Samples = std::vector<std::optional<double>>;  ///< one a draw

const Samples* find_samples(const DrawTable& table, const std::string& option, ModelKind model, Phase phase,
                            std::string_view quantity) {
  const auto it = table.find({option, std::string(name_of(model)), std::string(name_of(phase)), std::string(quantity)});
  return it == table.end() ? nullptr : &it->second;
}

std::optional<Interval> interval_of(std::vector<double> values) {
  if (values.size() < kFewest) return {};
  std::sort(values.begin(), values.end());
  return Interval{quantile_of(values, 0.05), quantile_of(values, 0.5), quantile_of(values, 0.95), values.size()};
}

std::vector<double> present(const Samples& samples) {
  std::vector<double> values;
  for (const auto& s : samples)
    if (s) values.push_back(*s);
  return values;
}

void add_to_difference(const PairedDraws& paired, Difference& d) {
  std::size_t better = 0;
  for (const double change : paired.changes) better += d.quantity->worse_sign * change < -kNothing ? 1 : 0;
  const std::size_t draws = paired.changes.size();
  d.interval = interval_of(paired.changes);
  if (!d.interval) return;
  if (d.quantity->worse_sign != 0) d.p_better = static_cast<double>(better) / static_cast<double>(draws);
  if (d.interval->low <= 0 && d.interval->high >= 0) d.is_distinguishable = false;
  d.verdict = verdict_of(d);
}

UnitPoints study_points(const Case& baseline, const Uncertainties& list) {
  return sobol_points(static_cast<std::size_t>(baseline.study.samples), list.size(),
                      static_cast<std::uint64_t>(baseline.study.seed));
}

/// The base case as the draws solve it.
void prepare(CaseText& tree, const Case& baseline, const MaterialWords& words) {
  const auto setting = [&](const char* name, std::string value) {
    return InputValue{find_input(name, words).value(), std::move(value)};
  };
  overlay(tree,
          {setting("study.density", number_text(baseline.study.sample_density)), setting("study.bars", "false"),
           setting("study.samples", "0")},
          words);
}

}  // namespace

Sweep study_sweep(const std::string& text, const std::string& file, const std::vector<Case>& runs,
                  const Uncertainties& list) {
  const Case& baseline = runs.front();
  Sweep sweep;
  sweep.catalogue = materials::load_catalogue();
  sweep.words = material_words(sweep.catalogue);
  sweep.base = parse_case_text(text, file);
  prepare(sweep.base, baseline, sweep.words);
  sweep.base_runs = runs;
  sweep.baseline_sets_tendon = true;
  sweep.plan.file = sweep.plan.base = file;
  sweep.plan.method = SweepMethod::list;
  const UnitPoints points = study_points(baseline, list);
  const std::size_t draws = points.count;
  for (std::size_t draw = 0; draw < draws; ++draw) {
    const auto first = points.values.begin() + static_cast<std::ptrdiff_t>(draw * list.size());
    const std::vector<double> shares(first, first + static_cast<std::ptrdiff_t>(list.size()));
    const std::vector<InputValue> inputs = drawn_inputs(list, baseline, sweep.words, shares);
    if (draw == 0)
      for (const InputValue& v : inputs) sweep.plan.variations.push_back({v.input, {}, {}});
    for (std::size_t k = 0; k < inputs.size(); ++k) sweep.plan.variations[k].values.push_back(inputs[k].value);
  }
  return sweep;
}

SampledStudy solve_study(const std::string& text, const std::string& file, const std::vector<Case>& runs,
                         std::size_t threads, const std::function<void(std::size_t)>& report) {
  SampledStudy study;
  study.list = uncertainties(runs, materials::load_catalogue());
  study.points = study_points(runs.front(), study.list);
  study.density = runs.front().study.sample_density;
  const Sweep sweep = study_sweep(text, file, runs, study.list);
  const auto draws = static_cast<std::size_t>(runs.front().study.samples);
  study.runs.resize(draws);
  ReferenceSlack reference;
  const std::atomic<bool> stop{false};
  std::size_t done = 0;
  const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
  solve_on_threads(
      runs_of({}, draws), std::min(draws, threads == 0 ? cores : threads),
      [&](std::size_t draw) { return solve_sweep_run(sweep, draw, reference); },
      [&](SweepRun run) {
        const std::size_t draw = run.run;
        study.runs[draw] = std::move(run);
        if (report) report(++done);
      },
      stop);
  return study;
}

DrawTable draw_table(const SampledStudy& study) {
  DrawTable table;
  for (std::size_t draw = 0; draw < study.runs.size(); ++draw)
    for (const SweepRow& row : study.runs[draw].rows) {
      if (row.quantity.empty() || !row.value) continue;
      Samples& samples = table[{row.option, row.model, row.phase, row.quantity}];
      samples.resize(study.runs.size());
      samples[draw] = row.value;
    }
  return table;
}

PairedDraws paired_draws(const DrawTable& table, const std::string& baseline, const Difference& d) {
  const Samples* base = find_samples(table, baseline, d.model, d.phase, d.quantity->key);
  const Samples* now = find_samples(table, d.option, d.model, d.phase, d.quantity->key);
  PairedDraws paired;
  if (base == nullptr || now == nullptr) return paired;
  for (std::size_t draw = 0; draw < base->size(); ++draw) {
    if (!(*base)[draw] || !(*now)[draw]) continue;
    paired.draws.push_back(draw);
    paired.changes.push_back(*(*now)[draw] - *(*base)[draw]);
  }
  return paired;
}

void add_intervals(const SampledStudy& study, std::vector<RunResult>& results, Comparison& comparison) {
  const DrawTable table = draw_table(study);
  for (RunResult& run : results)
    for (ModelResult& model : run.models)
      for (PhaseResult& phase : model.phases)
        for (auto& [key, reading] : phase.values)
          if (const Samples* s = find_samples(table, run.run.name, model.kind, phase.phase, key))
            reading.interval = interval_of(present(*s));
  for (Difference& d : comparison.differences) {
    const PairedDraws paired = paired_draws(table, results.front().run.name, d);
    if (!paired.draws.empty()) add_to_difference(paired, d);
  }
}

std::vector<std::string> study_notes(const SampledStudy& study, std::int64_t seed) {
  std::map<std::string, std::size_t> reasons;
  std::size_t whole = 0;
  for (const SweepRun& run : study.runs) {
    const auto bad =
        std::find_if(run.rows.begin(), run.rows.end(), [](const SweepRow& r) { return r.outcome != "solved"; });
    if (bad == run.rows.end())
      ++whole;
    else
      ++reasons[bad->outcome + ": " + bad->reason.substr(0, bad->reason.find('('))];
  }
  std::vector<std::string> notes{
      "intervals: 5 to 95 % over " + std::to_string(study.runs.size()) + " draws (seed " + std::to_string(seed) +
      ") of " + std::to_string(study.list.size()) + " uncertainties (docs/uncertainty.md), on meshes of density " +
      number_text(study.density) +
      "; they hold what is uncertain of foot, materials and loads, not the mesh's error (the "
      "bar) and not the model's"};
  if (whole == study.runs.size()) return notes;
  notes.push_back(std::to_string(study.runs.size() - whole) + " of " + std::to_string(study.runs.size()) +
                  " draws lack some value; what they lack is left out of the intervals");
  for (const auto& [reason, count] : reasons) notes.push_back(std::to_string(count) + " draws " + reason);
  return notes;
}

double quantile_of(const std::vector<double>& sorted, double share) {
  const double at = share * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(at);
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  return sorted[below] + (at - std::floor(at)) * (sorted[above] - sorted[below]);
}

}  // namespace hoofload::scenarios
