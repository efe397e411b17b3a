// Solved models that are kept while a page is open, so that a moved slider solves only what it changed.
//
// An option starts from the baseline's solution where it can (warm_start.hpp) and from the unloaded foot where it
// cannot. What
// comes out follows a slider; what is exported or reported is solved by solve_runs.
#pragma once

#include <functional>
#include <list>
#include <map>
#include <string>
#include <vector>

#include "scenarios/run.hpp"

namespace hoofload::scenarios {

/// One model of one run as solved before. `after`: the baseline's slack lengths, for its options.
struct Kept {
  std::string key;  ///< everything that the solution depends on
  ModelResult result;
  TendonSlack after;
  bool warm = false;
};

/// Most recently used first.
struct Shelf {
  std::list<Kept> kept;
  std::size_t most = 48;
};

struct PageResult {
  std::vector<RunResult> runs;
  std::vector<std::map<ModelKind, bool>> warm;  ///< of each run and model: solved from the baseline's solution
  std::size_t solved = 0;                       ///< models solved now; the others were kept
};

/// `report` may throw to break off; what was solved until then is kept. The shelf belongs to one thread.
[[nodiscard]] PageResult solve_for_page(const std::vector<Case>& runs, const materials::Catalogue& catalogue,
                                        Shelf& shelf, const std::function<void(const RunProgress&)>& report = {});

}  // namespace hoofload::scenarios
