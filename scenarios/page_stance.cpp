// The stance on the page: solved once, kept by the browser, scrubbed there.
#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "scenarios/drawings.hpp"
#include "scenarios/page_record.hpp"
#include "scenarios/page_scene.hpp"
#include "scenarios/stance.hpp"
#include "scenarios/stance_frames.hpp"
#include "viz/cautions.hpp"

namespace hoofload::scenarios {

namespace {

using nlohmann::json;

constexpr int kPlaces = 37;  ///< 5 to 95 % in steps of 2.5 %

json values_json(const std::vector<RunResult>& results) {
  json list = json::array();
  for (const RunResult& run : results) {
    json values = json::object();
    for (const PhaseResult& phase : run.models.front().phases)
      for (const std::string& key : series_keys())
        if (const auto it = phase.values.find(key); it != phase.values.end())
          values[key] = std::abs(it->second.value) < 1e-6 ? 0 : it->second.value;
    list.push_back(std::move(values));
  }
  return list;
}

json frames_json(const std::vector<StanceFrames>& all, json& scale) {
  std::vector<std::vector<RunResult>> places;
  for (const StanceFrames& f : all) places.resize(std::max(places.size(), f.states.size()));
  for (std::size_t k = 0; k < places.size(); ++k) places[k] = results_at(all, k);
  std::vector<Drawn> drawn;
  std::vector<std::size_t> place_of;
  for (std::size_t k = 0; k < places.size(); ++k)
    for (const Drawn& d : drawn_runs(places[k], ModelKind::sagittal, Phase::stance)) {
      drawn.push_back(d);
      place_of.push_back(k);
    }
  json frames = json::array();
  for (std::size_t k = 0; k < places.size(); ++k)
    frames.push_back({{"share", std::round(1000 * share_of_step(static_cast<int>(k), kPlaces)) / 10},
                      {"scenes", json::object()},
                      {"values", values_json(places[k])}});
  const std::vector<SideDrawing> drawings = drawn_together(drawn);
  for (std::size_t n = 0; n < drawings.size(); ++n)
    frames[place_of[n]]["scenes"][std::to_string(drawings[n].drawn.run)] = scene_json(drawings[n], false);
  if (!drawings.empty()) scale = scale_json(drawings.front().view.scale);
  return frames;
}

}  // namespace

Reply stance_reply(Workshop& shop, const PageRequest& request, const std::function<void()>& wanted) {
  const std::string text = page_case_text(request, {{Phase::swing}, kPageDensity, false});
  const CaseReading reading = read_case(text, kPageCaseFile, shop.words);
  if (!reading.errors.empty()) return json_reply(problems_json(reading.errors), 422);
  const auto all =
      stance_frames(reading.runs, shop.catalogue, kPlaces, reporter(shop, request.client + " stance", wanted));
  json ended = json::array();
  for (const StanceFrames& f : all)
    ended.push_back({{"name", f.run.name},
                     {"places", f.states.size()},
                     {"last", f.shares.empty() ? json(nullptr) : json(std::round(1000 * f.shares.back()) / 10)},
                     {"why", f.ended}});
  json scale;
  json frames = frames_json(all, scale);
  return json_reply({{"frames", std::move(frames)},
                     {"scale", std::move(scale)},
                     {"runs", ended},
                     {"places", kPlaces},
                     {"caution", viz::caution_text}});
}

}  // namespace hoofload::scenarios
