#include "scenarios/sweep_pool.hpp"

#include <condition_variable>
#include <deque>
#include <exception>
#include <mutex>
#include <thread>

#include "scenarios/keep_memory.hpp"

namespace hoofload::scenarios {

namespace {

/// What the threads share.
struct Pool {
  std::mutex guard;
  std::condition_variable changed;
  std::size_t next = 0;  ///< place in the list of runs
  std::size_t working = 0;
  bool stopped = false;
  std::exception_ptr trouble;
  std::deque<SweepRun> done;
};

/// Takes run after run until there is none or the sweep is stopped.
void work(Pool& pool, const std::vector<std::size_t>& runs, const std::function<SweepRun(std::size_t)>& solve,
          const std::atomic<bool>& stop) {
  std::unique_lock lock(pool.guard);
  while (pool.next < runs.size() && !pool.stopped && !stop) {
    const std::size_t run = runs[pool.next++];
    lock.unlock();
    std::exception_ptr trouble;
    SweepRun solved;
    try {
      solved = solve(run);
    } catch (...) {
      trouble = std::current_exception();
    }
    lock.lock();
    if (trouble) {
      pool.stopped = true;
      if (!pool.trouble) pool.trouble = trouble;
    } else {
      pool.done.push_back(std::move(solved));
    }
    pool.changed.notify_all();
  }
  --pool.working;
  pool.changed.notify_all();
}

/// Keeps what comes in until the last worker has left.
void keep_all(Pool& pool, const std::function<void(SweepRun)>& keep) {
  std::unique_lock lock(pool.guard);
  while (pool.working > 0 || !pool.done.empty()) {
    pool.changed.wait(lock, [&] { return pool.working == 0 || !pool.done.empty(); });
    while (!pool.done.empty()) {
      SweepRun run = std::move(pool.done.front());
      pool.done.pop_front();
      const bool is_lost = pool.trouble != nullptr;
      lock.unlock();
      std::exception_ptr trouble;
      try {
        keep(std::move(run));
      } catch (...) {
        trouble = std::current_exception();
      }
      lock.lock();
      if (trouble) pool.stopped = true;
      if (trouble && !is_lost) pool.trouble = trouble;
    }
  }
}

}  // namespace

std::vector<std::size_t> runs_of(const Shard& shard, std::size_t runs) {
  std::vector<std::size_t> list;
  for (std::size_t run = shard.part - 1; run < runs; run += shard.of) list.push_back(run);
  return list;
}

void solve_on_threads(const std::vector<std::size_t>& runs, std::size_t threads,
                      const std::function<SweepRun(std::size_t)>& solve, const std::function<void(SweepRun)>& keep,
                      const std::atomic<bool>& stop) {
  keep_memory();
  Pool pool;
  pool.working = threads;
  std::vector<std::jthread> workers;
  for (std::size_t k = 0; k < threads; ++k) workers.emplace_back([&] { work(pool, runs, solve, stop); });
  keep_all(pool, keep);
  workers.clear();
  if (pool.trouble) std::rethrow_exception(pool.trouble);
}

}  // namespace hoofload::scenarios
