#include "scenarios/page_answer.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

#include "scenarios/comparison.hpp"
#include "scenarios/nothing.hpp"
#include "scenarios/page_scene.hpp"
#include "scenarios/provenance.hpp"
#include "scenarios/result_table.hpp"
#include "viz/cautions.hpp"

namespace hoofload::scenarios {

namespace {

using nlohmann::json;

json number(double value) { return std::isfinite(value) ? json(value) : json(nullptr); }

/// Lists come along the sole; behind the toe in the sagittal model, from the axis in the other.
json profile_json(const BuiltModel& built, const PhaseResult& phase) {
  json x = json::array(), kPa = json::array();
  for (const PressureSample& sample : sole_pressure_profile(built, phase.solution)) {
    x.push_back(number(std::round(100 * (built.kind == ModelKind::sagittal ? -sample.X.x() : sample.X.x())) / 100));
    kPa.push_back(number(std::round(100 * sample.kPa) / 100));
  }
  return {{"x", x}, {"kPa", kPa}, {"tip", number(built.kind == ModelKind::sagittal ? -built.tip_x : built.tip_x)}};
}

json run_json(const RunResult& run, const std::map<ModelKind, bool>& warm, Phase phase) {
  json models = json::object(), why = json::array();
  for (const ModelResult& model : run.models) {
    const std::string name(name_of(model.kind));
    if (!model.built) why.push_back(name + " model: could not be built: " + model.why);
    for (const PhaseResult& p : model.phases)
      if (!p.solved) why.push_back(name + " model: not solved: " + p.why);
    const PhaseResult* solved = find_phase(run, model.kind, phase);
    if (solved == nullptr) continue;
    json values = json::object();
    for (const auto& [key, reading] : solved->values)
      values[key] = number(std::abs(reading.value) < kNothing ? 0 : reading.value);
    const auto at = warm.find(model.kind);
    models[name] = {{"values", values},
                    {"profile", profile_json(*model.built, *solved)},
                    {"from_baseline", at != warm.end() && at->second},
                    {"balance", number(solved->balance.force)}};
  }
  return {{"name", run.run.name}, {"models", models}, {"unsolved", why}};
}

/// A quick solve has no bars; on the default mesh they are about this part of a reading (docs/error-bars.md).
constexpr double kUnseen = 0.01;

json difference_json(const Difference& d) {
  constexpr std::array verdicts{"neither", "worse", "better"};
  const bool is_seen = std::abs(d.change) > kUnseen * std::max(std::abs(d.baseline), std::abs(d.value));
  return {{"run", d.option},
          {"key", d.quantity->key},
          {"model", name_of(d.model)},
          {"change", number(d.change)},
          {"percent", d.percent ? number(*d.percent) : json(nullptr)},
          {"distinguishable", d.is_distinguishable && is_seen},
          {"verdict", verdicts[is_seen ? static_cast<std::size_t>(d.verdict) : 0]}};
}

/// Scenes by model, one for each run that was solved: {"sagittal": {"scale": ..., "runs": {"0": scene, ...}}}.
json scenes_json(const std::vector<RunResult>& runs, Phase phase, bool probed) {
  json all = json::object();
  const auto add = [&](const char* model, const auto& drawings) {
    if (drawings.empty()) return;
    json scenes = json::object();
    for (const auto& drawing : drawings) scenes[std::to_string(drawing.drawn.run)] = scene_json(drawing, probed);
    all[model] = {{"scale", scale_json(drawings.front().view.scale)}, {"runs", scenes}};
  };
  add("sagittal", side_drawings(runs, phase));
  add("axisymmetric", ring_drawings(runs, phase));
  return all;
}

}  // namespace

json answer_json(const PageRequest& request, const PageResult& result, const CaseErrors& reader_warnings) {
  const Comparison comparison = compare(result.runs);
  json runs = json::array(), differences = json::array();
  for (std::size_t k = 0; k < result.runs.size(); ++k)
    runs.push_back(run_json(result.runs[k], result.warm[k], request.phase));
  for (const Difference& d : comparison.differences) differences.push_back(difference_json(d));
  return {{"number", request.number},
          {"phase", name_of(request.phase)},
          {"runs", runs},
          {"differences", differences},
          {"scenes", scenes_json(result.runs, request.phase, !result.moving)},
          {"moving", result.moving},
          {"solved", result.solved},
          {"solver_ms", std::round(1e4 * result.seconds) / 10},
          {"warnings", result_warnings(result.runs, comparison, reader_warnings)},
          {"provenance", provenance_line(result.runs)},
          {"caution", viz::caution_text}};
}

json problems_json(const CaseErrors& errors) {
  json list = json::array();
  for (const CaseError& e : errors)
    list.push_back(
        {{"key", e.key}, {"problem", e.problem}, {"value", e.value}, {"allowed", e.allowed}, {"nearest", e.nearest}});
  return {{"problems", list}};
}

}  // namespace hoofload::scenarios
