// One run of a sweep: its settings put into the base case, solved, and told as rows. A run depends on nothing but the
// plan and its own number, so any order, any threads and any shards give the same rows.
#pragma once

#include "materials/catalogue.hpp"
#include "scenarios/run.hpp"
#include "scenarios/sweep_plan.hpp"

#include <map>
#include <memory>
#include <mutex>

namespace hoofload::scenarios {

/// One value, or the reason why there is none (then `quantity` is empty).
struct SweepRow {
  std::string option, model, phase, quantity, unit;
  std::optional<double> value, mesh_bar;
  std::string outcome;  ///< "solved", "not solved", "not built", "refused"
  std::string reason;
};

struct SweepRun {
  std::size_t run = 0;
  std::vector<InputValue> settings;
  std::string case_sha256;  ///< of the resolved case; empty when it was refused
  std::string outcome;      ///< "solved" when every row is, else the first that is not
  double seconds = 0;
  std::vector<SweepRow> rows;  ///< by option, model, phase, then in catalogue order
};

/// A plan with everything that its runs need.
struct Sweep {
  SweepPlan plan;
  CaseText base;                ///< the base case's tree
  std::vector<Case> base_runs;  ///< it as it stands: which options, models and phases there are
  MaterialWords words;
  materials::Catalogue catalogue;
  bool baseline_sets_tendon = false;  ///< as in a comparison: the draws of a study vary shoeing that nobody chose
};

/// SHA-256 over everything that decides the results but the program itself: the resolved base case, the catalogue's
/// values and every run's settings.
[[nodiscard]] std::string sweep_fingerprint(const Sweep& sweep);

/// Slack lengths of reference runs that many runs of a sweep share; what it gives does not depend on who asked before.
class ReferenceSlack {
 public:
  /// Of the baseline `reference`, solved if it has not been.
  [[nodiscard]] RunSlack of(const Case& reference, const materials::Catalogue& catalogue);

 private:
  std::mutex guard_;
  std::map<std::string, std::shared_ptr<const RunSlack>> known_;
};

/// Solves one run. The tendon is set on the foot as the run has it but with the base case's own shoeing: the effect
/// of a shoe is a prediction (docs/theory.md). Never throws for what cannot be read, built or solved.
[[nodiscard]] SweepRun solve_sweep_run(const Sweep& sweep, std::size_t run, ReferenceSlack& reference);

}  // namespace hoofload::scenarios
