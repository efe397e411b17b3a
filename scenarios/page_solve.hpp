// Solved models that are kept while a page is open, so that a moved slider solves only what it changed.
//
// At rest an option starts from the baseline's solution where it can (warm_start.hpp) and from the unloaded foot where it cannot:
// what is shown then does not depend on what was shown before. While a slider moves every run starts from the last state of its
// own, so that the picture keeps up; with friction that state's history comes along, and at rest it is solved anew.
// What is exported or reported is solved by solve_runs.
#pragma once

#include <functional>
#include <list>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "scenarios/run.hpp"
#include "scenarios/solution_file.hpp"

namespace hoofload::scenarios {

/// One model of one run as solved before. `after`: the baseline's slack lengths, for its options.
struct Kept {
  std::string key;  ///< everything that the solution depends on
  ModelResult result;
  TendonSlack after;
  bool warm = false;
  bool is_baseline = false;
  double seconds = 0;  ///< that its solve took
};

/// Most recently used first. A model without its factor takes 5 to 6 MB.
struct Shelf {
  std::list<Kept> kept;
  std::size_t most = 32;
  std::list<Kept> moving;  ///< states of moved sliders: where the next move starts, never what is shown at rest
  std::size_t most_moving = 12;
  std::optional<SolutionStore> store;  ///< of states at rest on disk, for the next start; none: not kept
};

struct PageResult {
  std::vector<RunResult> runs;
  std::vector<std::map<ModelKind, bool>> warm;  ///< of each run and model: solved from another solution
  std::size_t solved = 0;                       ///< models solved now; the others were kept
  bool moving = false;
  double seconds = 0;  ///< in the solver alone, models built
};

/// `report` may throw to break off; what was solved until then is kept. The shelf belongs to one thread.
[[nodiscard]] PageResult solve_for_page(const std::vector<Case>& runs, const materials::Catalogue& catalogue,
                                        Shelf& shelf, const std::function<void(const RunProgress&)>& report = {},
                                        bool moving = false);

}  // namespace hoofload::scenarios
