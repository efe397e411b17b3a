// The arrow: Case -> mesh -> model -> solution -> quantities, for every run of a case. Command line, page, tests and
// worked
// examples take this road.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "materials/catalogue.hpp"
#include "scenarios/build_model.hpp"
#include "scenarios/quantities.hpp"

namespace hoofload::scenarios {

/// Spread of a value or of a change over the draws of what is uncertain; not the mesh's error, which stands in the bar.
struct Interval {
  double low = 0, median = 0, high = 0;  ///< 5, 50 and 95 % of the draws lie below
  std::size_t draws = 0;                 ///< that gave the value
};

/// A value as it is reported.
struct Reading {
  double value = 0;
  ModelKind model = ModelKind::axisymmetric;
  double bar = 0;   ///< discretisation bar, Eq. (77)
  double twin = 0;  ///< value on the coarse mesh, when has_bar
  double size = 0;  ///< S of Eq. (77): largest |value| of its kind (key, phase, model) over the runs
  bool has_bar = false;
  std::optional<Interval> interval = std::nullopt;  ///< when sampled
};

struct PhaseResult {
  Phase phase = Phase::swing;
  ModelKind model = ModelKind::axisymmetric;
  bool solved = false;
  std::string why;  ///< when not
  std::map<std::string, Reading, std::less<>> values;
  BalanceCheck balance;
  PhaseSolution solution;  ///< state for pictures and fields
};

/// One model of one run: the built model (for pictures) and its phases.
struct ModelResult {
  ModelKind kind = ModelKind::axisymmetric;
  std::shared_ptr<BuiltModel> built;  ///< null when the model could not be built
  std::vector<PhaseResult> phases;
  std::string why;  ///< when it could not be built
};

struct RunResult {
  Case run;
  std::vector<ModelResult> models;
};

struct RunProgress {
  std::size_t done = 0, of = 0;
  std::string what;  ///< run, model
};

/// Solves every run with every model asked for, and a coarse twin of each for the bars. Baseline first: its tendon
/// slack
/// is frozen for the others. Never throws for a run that cannot be built or solved: the result says why.
[[nodiscard]] std::vector<RunResult> solve_runs(const std::vector<Case>& runs, const materials::Catalogue& catalogue,
                                                const std::function<void(const RunProgress&)>& report = {});

/// The parts of it, for those who keep solved models (page_solve.hpp): a model without its phases, one with all phases of the
/// run at a mesh density of one's own, and what a solution says. `slack` as in solve_phases.
[[nodiscard]] ModelResult build_run(const Case& run, ModelKind kind, const materials::Catalogue& catalogue,
                                    double density);
[[nodiscard]] ModelResult solve_model(const Case& run, ModelKind kind, const materials::Catalogue& catalogue,
                                      double density, TendonSlack& slack, bool baseline);
void solve_built(ModelResult& built, const Case& run, TendonSlack& slack, bool baseline);
[[nodiscard]] PhaseResult read_phase(const BuiltModel& built, const Case& run, PhaseSolution solution);

/// Slack lengths that a baseline found, by model, on its mesh and on the coarse twin.
struct RunSlack {
  std::map<ModelKind, TendonSlack> fine, twin;
};

/// One run with all its models and, if asked for, their coarse twins; bars not yet. `slack`: filled by a baseline, used by
/// an option. `before` is called ahead of each model. Never throws for what cannot be built or solved.
[[nodiscard]] RunResult solve_run(const Case& run, const materials::Catalogue& catalogue, RunSlack& slack, bool baseline,
                                  const std::function<void()>& before = {});

/// Sizes and bars over the runs of one comparison, Eq. (77).
void add_bars(std::vector<RunResult>& results);

/// True when every phase of every run was solved.
[[nodiscard]] bool all_solved(const std::vector<RunResult>& results);

}  // namespace hoofload::scenarios
