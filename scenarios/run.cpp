#include "scenarios/run.hpp"

#include "scenarios/bars.hpp"
#include "scenarios/stance.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <tuple>

namespace hoofload::scenarios {

namespace {

constexpr double kTwinDensity = 0.5;
constexpr double kNothing = 1e-8;  ///< of the size over all phases
constexpr double kLeastSize =
    0.01;  ///< of the size over all phases: in the air little is left but the clinch's preload

BuiltModel build(const Case& run, ModelKind kind, const materials::Catalogue& catalogue, double density) {
  return kind == ModelKind::sagittal ? build_sagittal(run, catalogue, density)
                                     : build_axisymmetric(run, catalogue, density);
}

/// What the coarse twin gave; the bar follows once all runs are known.
void add_twin(ModelResult& fine, const ModelResult& twin) {
  for (std::size_t i = 0; i < fine.phases.size() && i < twin.phases.size(); ++i) {
    if (!twin.phases[i].solved) continue;
    for (auto& [key, reading] : fine.phases[i].values) {
      const auto it = twin.phases[i].values.find(key);
      if (it == twin.phases[i].values.end()) continue;
      reading.twin = it->second.value;
      reading.has_bar = true;
    }
  }
}

/// S_0 of Eq. (77).
double least_size_of(std::string_view key) {
  const QuantityKey* quantity = find_quantity(key);
  return quantity == nullptr ? 0 : least_size(quantity->unit);
}

template <class Visit>
void on_each_reading(std::vector<RunResult>& results, Visit&& visit) {
  for (auto& run : results)
    for (auto& model : run.models)
      for (auto& phase : model.phases)
        for (auto& [key, reading] : phase.values)
          visit(std::tuple(model.kind, phase.phase, key), reading, run.run.study.density);
}

}  // namespace

void add_bars(std::vector<RunResult>& results) {
  std::map<std::tuple<ModelKind, Phase, std::string>, double> size;
  std::map<std::pair<ModelKind, std::string>, double> over_phases;
  on_each_reading(results, [&](const auto& kind, const Reading& reading, double) {
    if (!std::isfinite(reading.value)) return;
    const auto& [model, phase, key] = kind;
    size[kind] = std::max(size[kind], std::abs(reading.value));
    over_phases[{model, key}] = std::max(over_phases[{model, key}], size[kind]);
  });
  on_each_reading(results, [&](const auto& kind, Reading& reading, double density) {
    const auto& [model, phase, key] = kind;
    reading.size = std::max({size[kind], kLeastSize * over_phases[{model, key}], least_size_of(key)});
    if (!reading.has_bar) return;
    // What touches nowhere on both meshes is zero without a doubt.
    const double nothing = kNothing * over_phases[{model, key}];
    const bool is_zero = std::abs(reading.value) <= nothing && std::abs(reading.twin) <= nothing;
    const double factor = bar_factor(density, is_of_the_whole(key));
    reading.bar = is_zero ? 0 : bar_of_value({reading.value, reading.twin, reading.size}, factor);
  });
}

RunResult solve_run(const Case& run, const materials::Catalogue& catalogue, RunSlack& slack, bool baseline,
                    const std::function<void()>& before) {
  RunResult result{run, {}};
  for (const ModelKind kind : run.study.models) {
    if (before) before();
    ModelResult fine = solve_model(run, kind, catalogue, run.study.density, slack.fine[kind], baseline);
    if (run.study.bars && fine.built)
      add_twin(fine, solve_model(run, kind, catalogue, kTwinDensity * run.study.density, slack.twin[kind], baseline));
    // Factor and work space are most of a model's memory; only the stance is solved further on demand.
    const auto& asked = run.load.phases;
    if (fine.built && std::find(asked.begin(), asked.end(), Phase::stance) == asked.end()) fine.built->newton.reset();
    result.models.push_back(std::move(fine));
  }
  return result;
}

PhaseResult read_phase(const BuiltModel& built, const Case& run, PhaseSolution solution) {
  PhaseResult phase;
  phase.phase = solution.phase;
  phase.model = built.kind;
  phase.solved = solution.solved;
  phase.why = solution.why;
  if (solution.solved) {
    const auto& series = solution.series;
    phase.balance = series ? worst_balance(*series) : check_balance(built, solution);
    for (const auto& [key, value] : series ? stance_peaks(*series) : measure(built, run, solution))
      phase.values[key] = {value, built.kind, 0, 0, false};
  }
  phase.solution = std::move(solution);
  return phase;
}

ModelResult build_run(const Case& run, ModelKind kind, const materials::Catalogue& catalogue, double density) {
  ModelResult result;
  result.kind = kind;
  try {
    result.built = std::make_shared<BuiltModel>(build(run, kind, catalogue, density));
  } catch (const std::exception& e) {
    result.why = e.what();
  }
  return result;
}

ModelResult solve_model(const Case& run, ModelKind kind, const materials::Catalogue& catalogue, double density,
                        TendonSlack& slack, bool baseline) {
  ModelResult result = build_run(run, kind, catalogue, density);
  if (result.built) solve_built(result, run, slack, baseline);
  return result;
}

void solve_built(ModelResult& built, const Case& run, TendonSlack& slack, bool baseline) {
  for (auto& solution : solve_phases(built.built, run, slack, baseline))
    built.phases.push_back(read_phase(*built.built, run, std::move(solution)));
}

std::vector<RunResult> solve_runs(const std::vector<Case>& runs, const materials::Catalogue& catalogue,
                                  const std::function<void(const RunProgress&)>& report) {
  std::vector<RunResult> results;
  RunProgress progress;
  for (const auto& run : runs) progress.of += run.study.models.size();
  RunSlack slack;
  for (const auto& run : runs) {
    const auto before = [&] {
      progress.what = run.name;
      if (report) report(progress);
      ++progress.done;
    };
    results.push_back(solve_run(run, catalogue, slack, results.empty(), before));
  }
  add_bars(results);
  progress.what.clear();
  if (report) report(progress);
  return results;
}

bool all_solved(const std::vector<RunResult>& results) {
  for (const auto& run : results)
    for (const auto& model : run.models) {
      if (!model.built) return false;
      for (const auto& phase : model.phases)
        if (!phase.solved) return false;
    }
  return true;
}

}  // namespace hoofload::scenarios
