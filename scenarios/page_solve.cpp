#include "scenarios/page_solve.hpp"

#include <algorithm>
#include <chrono>

#include "scenarios/case_resolved.hpp"
#include "scenarios/comparison.hpp"
#include "scenarios/warm_start.hpp"

namespace hoofload::scenarios {

namespace {

/// The run without its names: two runs that differ in nothing else are one.
std::string nameless(const Case& run, ModelKind kind) {
  Case c = run;
  c.name = "run";
  c.title.clear();
  c.study.models = {kind};
  return resolved_case_toml(c);
}

const Kept* find_kept(std::list<Kept>& list, const std::string& key) {
  const auto it = std::find_if(list.begin(), list.end(), [&](const Kept& k) { return k.key == key; });
  if (it == list.end()) return nullptr;
  list.splice(list.begin(), list, it);
  return &list.front();
}

const Kept& keep(std::list<Kept>& list, std::size_t most, Kept solved) {
  // Factor and work space are most of a model's memory; a warm start needs neither of its anchor.
  if (solved.result.built) solved.result.built->newton.reset();
  list.push_front(std::move(solved));
  while (list.size() > most) list.pop_back();
  return list.front();
}

/// All phases from the anchor's into a model that is built; false, and nothing in it, if one of them cannot start there.
bool solve_from(const ModelResult& anchor, const Case& run, TendonSlack& slack, bool baseline, ModelResult& result) {
  if (!anchor.built || anchor.phases.empty()) return false;
  for (const PhaseResult& phase : anchor.phases) {
    auto solution = solve_warm(*anchor.built, phase.solution, *result.built, run, slack, baseline);
    if (!solution) {
      result.phases.clear();
      return false;
    }
    result.phases.push_back(read_phase(*result.built, run, std::move(*solution)));
  }
  return true;
}

/// Solves from the first of the anchors that will do, else from the unloaded foot.
Kept solve_near(const std::vector<const Kept*>& anchors, const Case& run, ModelKind kind,
                const materials::Catalogue& catalogue, std::string key, const TendonSlack& slack, bool baseline) {
  Kept kept{std::move(key), build_run(run, kind, catalogue, run.study.density), slack, false, baseline, 0};
  if (!kept.result.built) return kept;
  const auto start = std::chrono::steady_clock::now();
  for (const Kept* anchor : anchors)
    if (!kept.warm) kept.warm = solve_from(anchor->result, run, kept.after, baseline, kept.result);
  if (!kept.warm) solve_built(kept.result, run, kept.after, baseline);
  kept.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  return kept;
}

bool has_phases(const Kept& kept, const Case& run, ModelKind kind) {
  return kept.result.kind == kind && !kept.result.phases.empty() &&
         kept.result.phases.front().phase == run.load.phases.front();
}

/// What a moved slider's run may start from: its own last moved state, then the last state at rest of its sort: a baseline's
/// tendon is set, an option's stretches.
std::vector<const Kept*> near_states(const Shelf& shelf, const std::string& place, const Case& run, ModelKind kind,
                                     bool baseline) {
  std::vector<const Kept*> anchors;
  const auto add_first = [&](const std::list<Kept>& list, const auto& is_good) {
    const auto it =
        std::find_if(list.begin(), list.end(), [&](const Kept& k) { return has_phases(k, run, kind) && is_good(k); });
    if (it != list.end()) anchors.push_back(&*it);
  };
  add_first(shelf.moving, [&](const Kept& k) { return k.key == place && k.is_baseline == baseline; });
  add_first(shelf.kept, [&](const Kept& k) { return k.is_baseline == baseline; });
  return anchors;
}

/// What another process kept on disk for this key: the model is built, the state has its bits.
std::optional<Kept> kept_on_disk(const SolutionStore& store, const std::string& key, const Case& run, ModelKind kind,
                                 const materials::Catalogue& catalogue, bool baseline) {
  const auto stored = fetch(store, key);
  if (!stored) return {};
  Kept kept{key, build_run(run, kind, catalogue, run.study.density), {}, false, baseline, 0};
  if (!kept.result.built || !fits(*stored, *kept.result.built)) return {};
  for (const PhaseSolution& solution : stored->phases)
    kept.result.phases.push_back(read_phase(*kept.result.built, run, solution));
  kept.after.length = stored->slack;
  return kept;
}

void keep_on_disk(const SolutionStore& store, const Kept& kept) {
  if (!kept.result.built || kept.result.phases.empty()) return;
  StoredSolution stored{kept.key, {}, kept.after.length};
  for (const PhaseResult& phase : kept.result.phases) {
    if (!phase.solved) return;
    stored.phases.push_back(phase.solution);
  }
  put(store, stored);
}

struct Bench {
  const materials::Catalogue& catalogue;
  Shelf& shelf;
  bool moving;
  std::size_t solved = 0;
  double seconds = 0;
};

const Kept& kept_in(Bench& bench, std::list<Kept>& list, std::size_t most, Kept solved) {
  bench.seconds += solved.seconds;
  return keep(list, most, std::move(solved));
}

/// One run's model: kept, or solved now. `baseline`: null for the baseline itself.
const Kept& model_of(Bench& bench, const Case& run, ModelKind kind, std::size_t place, const Kept* baseline,
                     const std::string& base_key) {
  const std::string key = baseline == nullptr ? base_key : base_key + "\n" + nameless(run, kind);
  if (const Kept* kept = find_kept(bench.shelf.kept, key)) return *kept;
  const bool is_baseline = baseline == nullptr;
  if (bench.shelf.store && !bench.moving)
    if (auto kept = kept_on_disk(*bench.shelf.store, key, run, kind, bench.catalogue, is_baseline))
      return keep(bench.shelf.kept, bench.shelf.most, std::move(*kept));
  ++bench.solved;
  const TendonSlack slack = is_baseline ? TendonSlack{} : baseline->after;
  std::vector<const Kept*> anchors;
  if (baseline != nullptr) anchors.push_back(baseline);
  Shelf& shelf = bench.shelf;
  if (!bench.moving) {
    Kept solved = solve_near(anchors, run, kind, bench.catalogue, key, slack, is_baseline);
    if (shelf.store) keep_on_disk(*shelf.store, solved);
    return kept_in(bench, shelf.kept, shelf.most, std::move(solved));
  }
  const std::string own_place = std::to_string(place) + std::string(name_of(kind));
  const auto near = near_states(shelf, own_place, run, kind, is_baseline);
  anchors.insert(anchors.begin(), near.begin(), near.end());
  Kept solved = solve_near(anchors, run, kind, bench.catalogue, own_place, slack, is_baseline);
  shelf.moving.remove_if([&](const Kept& k) { return k.key == own_place; });
  return kept_in(bench, shelf.moving, shelf.most_moving, std::move(solved));
}

}  // namespace

PageResult solve_for_page(const std::vector<Case>& runs, const materials::Catalogue& catalogue, Shelf& shelf,
                          const std::function<void(const RunProgress&)>& report, bool moving) {
  PageResult page;
  RunProgress progress;
  Bench bench{catalogue, shelf, moving};
  for (const Case& run : runs) {
    page.runs.push_back({run, {}});
    page.warm.emplace_back();
    progress.of += run.study.models.size();
  }
  for (const ModelKind kind : runs.front().study.models) {
    const std::string base_key = nameless(runs.front(), kind);
    Kept baseline;  // a copy: the shelf may drop its own while the options are solved
    for (std::size_t k = 0; k < runs.size(); ++k) {
      progress.what = runs[k].name;
      if (report) report(progress);
      const Kept& kept = model_of(bench, runs[k], kind, k, k == 0 ? nullptr : &baseline, base_key);
      if (k == 0) baseline = kept;
      page.runs[k].models.push_back(kept.result);
      page.warm[k][kind] = kept.warm;
      ++progress.done;
    }
  }
  if (report) report(progress);
  page.solved = bench.solved;
  page.seconds = bench.seconds;
  page.moving = moving && bench.solved > 0;
  return page;
}

}  // namespace hoofload::scenarios
