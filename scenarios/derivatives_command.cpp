#include "scenarios/derivatives_command.hpp"

#include "scenarios/input_words.hpp"
#include "scenarios/nearest.hpp"
#include "scenarios/progress.hpp"
#include "scenarios/provenance.hpp"
#include "scenarios/result_table.hpp"
#include "viz/cautions.hpp"

#include <algorithm>
#include <cmath>
#include <iostream>
#include <nlohmann/json.hpp>
#include <stdexcept>

namespace hoofload::scenarios {

namespace {

using nlohmann::json;

constexpr std::string_view kHeld =
    "held: which points touch, stick or slide; where points that stick began to; the mesh's topology";

/// The one of the names that is asked for; an error with what there is otherwise.
void check_name(const char* option, const std::string& asked, const std::vector<std::string_view>& names) {
  if (asked.empty() || std::find(names.begin(), names.end(), asked) != names.end()) return;
  std::string allowed;
  for (const std::string_view n : names) allowed += (allowed.empty() ? "" : ", ") + std::string(n);
  const std::string near = nearest_name(asked, names);
  throw std::invalid_argument(std::string(option) + " " + asked + ": there is none; allowed: " + allowed +
                              (near.empty() ? "" : "; nearest: " + near));
}

/// The runs with only the models and phases that are asked for.
std::vector<Case> chosen_runs(const DerivativesRequest& request) {
  std::vector<Case> runs = request.runs;
  std::vector<std::string_view> options, models, phases, quantities;
  for (const Case& run : request.runs) options.push_back(run.name);
  for (const ModelKind kind : runs.front().study.models) models.push_back(name_of(kind));
  for (const Phase phase : runs.front().load.phases)
    if (phase != Phase::stance) phases.push_back(name_of(phase));
  for (const QuantityKey& key : quantity_catalogue()) quantities.push_back(key.key);
  check_name("--option", request.choice.option, options);
  check_name("--model", request.choice.model, models);
  check_name("--phase", request.choice.phase, phases);
  check_name("--quantity", request.choice.quantity, quantities);
  for (Case& run : runs) {
    const auto is_other_model = [&](ModelKind k) {
      return !request.choice.model.empty() && name_of(k) != request.choice.model;
    };
    const auto is_other_phase = [&](Phase p) {
      return p == Phase::stance || (!request.choice.phase.empty() && name_of(p) != request.choice.phase);
    };
    std::erase_if(run.study.models, is_other_model);
    std::erase_if(run.load.phases, is_other_phase);
  }
  return runs;
}

json input_json(const SlopeInput& input) {
  constexpr const char* kEffects[] = {"value", "share of the value", "added to the value"};
  json j = {{"name", input.name},
            {"words", input_words(input.name)},
            {"unit", input.unit},
            {"is", kEffects[static_cast<int>(input.effect)]},
            {"now", input.effect == Effect::replace ? json(input.now) : json(nullptr)},
            {"sd", input.sd > 0 ? json(input.sd) : json(nullptr)}};
  for (const Moved& m : input.moved) j["moves"].push_back(m.input);
  return j;
}

json table_json(const RunSlopes& run, const SlopeTable& table, const std::vector<SlopeInput>& inputs,
                const ColumnChoice& choice) {
  json list = json::array();
  for (const QuantityKey& key : quantity_catalogue()) {
    const auto it = table.slopes.find(key.key);
    if (it == table.slopes.end() || (!choice.quantity.empty() && key.key != choice.quantity)) continue;
    json by = json::array();
    for (const Slope& s : it->second) {
      const SlopeInput& input = inputs[s.input];
      const bool is_finite = std::isfinite(s.value);
      by.push_back({{"input", input.name},
                    {"slope", is_finite ? json(s.value) : json(nullptr)},
                    {"for_one_sd", input.sd > 0 && is_finite ? json(s.value * input.sd) : json(nullptr)},
                    {"remark", s.remark}});
    }
    list.push_back({{"option", run.option},
                    {"model", name_of(run.model)},
                    {"phase", name_of(table.phase)},
                    {"quantity", key.key},
                    {"unit", key.unit},
                    {"value", table.values.find(key.key)->second},
                    {"by", std::move(by)}});
  }
  return list;
}

std::vector<RunResult> as_results(const std::vector<Case>& runs) {
  std::vector<RunResult> results;
  for (const Case& run : runs) results.push_back({run, {}});
  return results;
}

json slopes_json(const DerivativesRequest& request, const std::vector<Case>& runs, const std::vector<RunSlopes>& slopes,
                 const std::vector<SlopeInput>& inputs) {
  json j = {{"schema", "hoofload-derivatives/1"},
            {"provenance", provenance_json(request.case_file, as_results(runs))},
            {"at", "this point only"},
            {"held", kHeld},
            {"caution", viz::caution_text},
            {"inputs", json::array()},
            {"derivatives", json::array()},
            {"missing", json::array()},
            {"unsolved", json::array()}};
  for (const SlopeInput& input : inputs) j["inputs"].push_back(input_json(input));
  for (const RunSlopes& run : slopes) {
    for (const SlopeTable& table : run.phases)
      for (json& one : table_json(run, table, inputs, request.choice)) j["derivatives"].push_back(std::move(one));
    for (const MissingSlope& m : run.missing)
      j["missing"].push_back({{"option", run.option},
                              {"model", name_of(run.model)},
                              {"phase", m.phase},
                              {"input", inputs[m.input].name},
                              {"why", m.why}});
    for (const std::string& why : run.unsolved)
      j["unsolved"].push_back({{"option", run.option}, {"model", name_of(run.model)}, {"why", why}});
  }
  return j;
}

void add_notes(const std::vector<RunSlopes>& slopes, std::string& text) {
  int factorisations = 0;
  for (const RunSlopes& run : slopes) factorisations += run.factorisations;
  text += "\n" + std::string(kHeld) + " (docs/theory.md, section 22).\n" + std::to_string(factorisations) +
          " factorisations at the solved states gave all slopes. Phase stance has none.\n";
}

}  // namespace

int derivatives_command(const DerivativesRequest& request) {
  std::vector<Case> runs;
  std::vector<SlopeInput> inputs;
  const materials::Catalogue catalogue = materials::load_catalogue();
  try {
    runs = chosen_runs(request);
    const auto is_asked = [&](const Case& run) { return run.name == request.choice.option; };
    const auto asked = std::find_if(runs.begin(), runs.end(), is_asked);
    const auto of = asked == runs.end() ? 0 : static_cast<std::size_t>(asked - runs.begin());
    inputs = slope_inputs(runs, catalogue, request.by, of);
  } catch (const std::invalid_argument& e) {
    std::cerr << "derivatives: " << e.what() << '\n';
    return exit_usage;
  }
  const std::string option = request.choice.option.empty() ? runs.front().name : request.choice.option;
  const Progress bar =
      start_progress(inputs.size() * runs.front().study.models.size(), request.quiet ? Talk::quiet : Talk::normal);
  const auto slopes =
      slopes_of(runs, {option}, inputs, catalogue, [&](const RunProgress& p) { show_progress(bar, p.done, p.what); });
  end_progress(bar);
  if (request.json) {
    std::cout << slopes_json(request, runs, slopes, inputs).dump(1) << '\n';
  } else {
    std::string text = slopes_text(slopes, inputs, request.choice);
    add_notes(slopes, text);
    std::cout << text << '\n' << viz::caution_text << "\n\n" << provenance_line(as_results(runs)) << '\n';
  }
  std::cout.flush();
  bool all_solved = true;
  for (const RunSlopes& run : slopes)
    for (const std::string& why : run.unsolved) {
      std::cerr << request.case_file << ": " << run.option << ", " << name_of(run.model) << ": " << why << '\n';
      all_solved = false;
    }
  if (!all_solved) return exit_not_converged;
  return std::cout ? exit_done : exit_system;
}

}  // namespace hoofload::scenarios
