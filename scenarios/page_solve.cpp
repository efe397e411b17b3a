#include "scenarios/page_solve.hpp"

#include <algorithm>
#include <memory>

#include "scenarios/case_resolved.hpp"
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

const Kept* find_kept(Shelf& shelf, const std::string& key) {
  const auto it = std::find_if(shelf.kept.begin(), shelf.kept.end(), [&](const Kept& k) { return k.key == key; });
  if (it == shelf.kept.end()) return nullptr;
  shelf.kept.splice(shelf.kept.begin(), shelf.kept, it);
  return &shelf.kept.front();
}

const Kept& keep(Shelf& shelf, Kept solved) {
  shelf.kept.push_front(std::move(solved));
  while (shelf.kept.size() > shelf.most) shelf.kept.pop_back();
  return shelf.kept.front();
}

Kept solve_baseline(const Case& run, ModelKind kind, const materials::Catalogue& catalogue, std::string key) {
  Kept kept{std::move(key), {}, {}, false};
  kept.result = solve_model(run, kind, catalogue, run.study.density, kept.after, true);
  return kept;
}

/// All phases from the baseline's, or nothing if one of them cannot start there.
std::optional<ModelResult> solve_from(const ModelResult& anchor, const Case& run, const materials::Catalogue& catalogue,
                                      const TendonSlack& slack) {
  if (!anchor.built) return {};
  ModelResult result = build_run(run, anchor.kind, catalogue, run.study.density);
  if (!result.built) return result;
  for (const PhaseResult& phase : anchor.phases) {
    auto solution = solve_warm(*anchor.built, phase.solution, *result.built, run, slack);
    if (!solution) return {};
    result.phases.push_back(read_phase(*result.built, run, std::move(*solution)));
  }
  return result;
}

Kept solve_option(const Case& run, const Kept& baseline, const materials::Catalogue& catalogue, std::string key) {
  Kept kept{std::move(key), {}, baseline.after, false};
  if (auto warm = solve_from(baseline.result, run, catalogue, baseline.after)) {
    kept.result = std::move(*warm);
    kept.warm = true;
    return kept;
  }
  kept.result = solve_model(run, baseline.result.kind, catalogue, run.study.density, kept.after, false);
  return kept;
}

}  // namespace

PageResult solve_for_page(const std::vector<Case>& runs, const materials::Catalogue& catalogue, Shelf& shelf,
                          const std::function<void(const RunProgress&)>& report) {
  PageResult page;
  RunProgress progress;
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
      const std::string key = k == 0 ? base_key : base_key + "\n" + nameless(runs[k], kind);
      const Kept* kept = find_kept(shelf, key);
      if (kept == nullptr) {
        ++page.solved;
        kept = &keep(shelf, k == 0 ? solve_baseline(runs[k], kind, catalogue, key)
                                   : solve_option(runs[k], baseline, catalogue, key));
      }
      if (k == 0) baseline = *kept;
      page.runs[k].models.push_back(kept->result);
      page.warm[k][kind] = kept->warm;
      ++progress.done;
    }
  }
  if (report) report(progress);
  return page;
}

}  // namespace hoofload::scenarios
