// Runs of a sweep on several threads: workers solve, the caller's thread keeps what they bring.
#pragma once

#include "scenarios/sweep_runs.hpp"

#include <atomic>
#include <functional>
#include <vector>

namespace hoofload::scenarios {

/// Part i of n of a sweep: the runs whose number leaves i - 1 when divided by n.
struct Shard {
  std::size_t part = 1, of = 1;
};

/// Numbers of the runs that belong to the shard, in order.
[[nodiscard]] std::vector<std::size_t> runs_of(const Shard& shard, std::size_t runs);

/// Solves the runs with `solve` on `threads` threads, in the order given as far as threads allow; `keep` gets each as
/// it is done, always on the calling thread. When `stop` turns true no further run is begun; those in flight are
/// still kept. An exception of solve or keep ends the sweep likewise and is thrown on.
void solve_on_threads(const std::vector<std::size_t>& runs, std::size_t threads,
                      const std::function<SweepRun(std::size_t)>& solve, const std::function<void(SweepRun)>& keep,
                      const std::atomic<bool>& stop);

}  // namespace hoofload::scenarios
