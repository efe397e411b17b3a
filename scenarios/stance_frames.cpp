#include "scenarios/stance_frames.hpp"

#include <algorithm>

#include "scenarios/stance_solver.hpp"

namespace hoofload::scenarios {

namespace {

/// The fitted foot in the air, where every stance begins.
PhaseSolution fitted(const std::shared_ptr<BuiltModel>& built, const Case& run) {
  Case in_air = run;
  in_air.load.phases = {Phase::swing};
  TendonSlack none;
  return solve_phases(built, in_air, none, true).front();
}

}  // namespace

std::vector<StanceFrames> stance_frames(const std::vector<Case>& runs, const materials::Catalogue& catalogue,
                                        int places, const std::function<void(const RunProgress&)>& report) {
  std::vector<StanceFrames> all;
  RunProgress progress{0, runs.size() * static_cast<std::size_t>(places), ""};
  std::shared_ptr<StanceSolver> baseline;
  const auto tell = [&] {
    if (report) report(progress);
  };
  for (const Case& run : runs) {
    const std::size_t before = progress.done;
    progress.what = run.name;
    tell();
    StanceFrames frames{run, nullptr, {}, {}, {}};
    ModelResult made = build_run(run, ModelKind::sagittal, catalogue, run.study.density);
    frames.built = made.built;
    frames.ended = made.why;
    PhaseSolution fit;
    if (made.built) fit = fitted(made.built, run), frames.ended = fit.why;
    if (made.built && fit.solved) {
      const SlackByShare frozen = [&baseline](double share) {
        return baseline ? baseline->slack_at(share) : std::nullopt;
      };
      const auto solver = std::make_shared<StanceSolver>(made.built, run, fit, all.empty() ? SlackByShare() : frozen);
      for (int k = 0; k < places; ++k) {
        if (!solver->add_regular(share_of_step(k, places))) {
          frames.ended = solver->why();
          break;
        }
        frames.shares.push_back(share_of_step(k, places));
        frames.states.push_back(solver->last());
        ++progress.done;
        tell();
      }
      if (all.empty()) baseline = solver;
    }
    progress.done = before + static_cast<std::size_t>(places);
    all.push_back(std::move(frames));
  }
  tell();
  return all;
}

std::vector<RunResult> results_at(const std::vector<StanceFrames>& all, std::size_t place) {
  std::vector<RunResult> results;
  for (const StanceFrames& frames : all) {
    RunResult result{frames.run, {}};
    result.run.load.phases = {Phase::stance};
    ModelResult model{ModelKind::sagittal, frames.built, {}, frames.ended};
    if (frames.built && place < frames.states.size())
      model.phases.push_back(read_phase(*frames.built, result.run, frames.states[place]));
    result.models.push_back(std::move(model));
    results.push_back(std::move(result));
  }
  return results;
}

}  // namespace hoofload::scenarios
