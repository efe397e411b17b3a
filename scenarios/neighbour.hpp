// A solved run as an anchor, and the same run with slightly other numbers found from it by the anchor's factors alone,
// Eqs. (109) to (113). Every contact keeps its state; what would change one is said.
#pragma once

#include "scenarios/run.hpp"

#include <optional>
#include <set>

namespace hoofload::scenarios {

/// An equilibrium with the factor of its stiffness.
struct Anchor {
  solver::Newton newton;
  solver::State state;
  solver::Loading loading;
};

struct AnchoredPhase {
  PhaseSolution solution;
  std::shared_ptr<const Anchor> anchor, rolled;  ///< rolled: at heel-off only
  Quantities values;
  std::string why;  ///< without an anchor
};

/// A model of a run with all its equilibria anchored.
struct AnchoredRun {
  Case run;
  std::shared_ptr<BuiltModel> built;  ///< null when it could not be built
  PhaseSolution fit;
  std::shared_ptr<const Anchor> unfilled, fitted;
  std::vector<AnchoredPhase> phases;
  TendonSlack slack;  ///< that its phases were balanced with
  bool is_baseline = true;
  int factorisations = 0;  ///< one for each anchor
  std::string why;
};

/// Solves a run's phases but the stance, and anchors each. `slack`: the baseline's for an option, empty for a baseline.
[[nodiscard]] AnchoredRun anchored_run(const Case& run, ModelKind kind, const materials::Catalogue& catalogue,
                                       const TendonSlack& slack, bool is_baseline);

struct NeighbourPhase {
  Quantities values;
  std::set<std::string> changes;  ///< what would not stay as it is: "2 contacts of the ground", ...
  std::string why;                ///< without values
};

struct Neighbour {
  std::vector<NeighbourPhase> phases;  ///< as the anchor's
  TendonSlack slack;
  std::string why;  ///< when none of it could be found
};

/// `shifted` near the anchor's own run; `slack`: that of the baseline shifted likewise, for an option.
[[nodiscard]] Neighbour neighbour_of(const AnchoredRun& anchored, const Case& shifted,
                                     const materials::Catalogue& catalogue, const TendonSlack& slack);

}  // namespace hoofload::scenarios
