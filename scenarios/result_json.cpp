#include "scenarios/result_json.hpp"

#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

#include "scenarios/case_resolved.hpp"
#include "scenarios/provenance.hpp"
#include "scenarios/stance.hpp"
#include "viz/cautions.hpp"

namespace hoofload::scenarios {

namespace {

using nlohmann::json;

json number(double value) { return std::isfinite(value) ? json(value) : json(nullptr); }

json reading_json(const Reading& r, const QuantityKey& key) {
  return {{"value", number(r.value)},
          {"unit", key.unit},
          {"model", name_of(r.model)},
          {"mesh_bar", r.has_bar ? number(r.bar) : json(nullptr)},
          {"low", r.interval ? number(r.interval->low) : json(nullptr)},
          {"median", r.interval ? number(r.interval->median) : json(nullptr)},
          {"high", r.interval ? number(r.interval->high) : json(nullptr)}};
}

/// Both models' readings of one quantity in one phase, the leading model's first; null if neither has it.
json quantity_json(const RunResult& run, Phase phase, const QuantityKey& key) {
  const ModelKind first = leading_model(key);
  const ModelKind second = first == ModelKind::sagittal ? ModelKind::axisymmetric : ModelKind::sagittal;
  json entry;
  for (const ModelKind model : {first, second}) {
    const PhaseResult* solved = find_phase(run, model, phase);
    if (solved == nullptr) continue;
    const auto it = solved->values.find(key.key);
    if (it == solved->values.end()) continue;
    json reading = reading_json(it->second, key);
    if (entry.is_null())
      entry = std::move(reading);
    else
      entry["also"] = json::array({std::move(reading)});
  }
  return entry;
}

json balance_json(const RunResult& run, Phase phase) {
  json list = json::object();
  for (const ModelResult& model : run.models)
    if (const PhaseResult* p = find_phase(run, model.kind, phase))
      list[std::string(name_of(model.kind))] = {{"force", number(p->balance.force)},
                                                {"moment", number(p->balance.moment)},
                                                {"bone_ledger", number(p->balance.bone_ledger)},
                                                {"ground_ledger", number(p->balance.ground_ledger)}};
  return list;
}

json numbers(const std::vector<double>& values) {
  json list = json::array();
  for (const double v : values) list.push_back(number(v));
  return list;
}

/// Stance of one model: shares of stance, the values of each key at them, and the events.
json series_json(const StanceSeries& series) {
  json values = json::object(), events = json::array();
  for (const std::string& key : series_keys())
    if (const auto list = values_of(series, key); !list.empty())
      values[key] = {{"unit", find_quantity(key)->unit}, {"values", numbers(list)}};
  for (const StanceEvent& e : series.events) events.push_back({{"name", e.name}, {"share", number(e.share)}});
  return {{"share", numbers(shares_of(series))},
          {"values", std::move(values)},
          {"events", std::move(events)},
          {"ended", series.ended.empty() ? json(nullptr) : json(series.ended)}};
}

json all_series_json(const RunResult& run) {
  json all = json::object();
  for (const ModelResult& model : run.models)
    for (const PhaseResult& p : model.phases)
      if (p.solution.series) all[std::string(name_of(model.kind))] = series_json(*p.solution.series);
  return all;
}

json option_json(const RunResult& run) {
  json phases = json::object(), balance = json::object();
  for (const Phase phase : run.run.load.phases) {
    const std::string name(name_of(phase));
    phases[name] = json::object();
    for (const QuantityKey& key : quantity_catalogue())
      if (json entry = quantity_json(run, phase, key); !entry.is_null())
        phases[name][std::string(key.key)] = std::move(entry);
    balance[name] = balance_json(run, phase);
  }
  json unsolved = json::array();
  for (const ModelResult& model : run.models) {
    if (!model.built) unsolved.push_back({{"model", name_of(model.kind)}, {"phase", nullptr}, {"why", model.why}});
    for (const PhaseResult& p : model.phases)
      if (!p.solved) unsolved.push_back({{"model", name_of(p.model)}, {"phase", name_of(p.phase)}, {"why", p.why}});
  }
  json option{{"name", run.run.name}, {"phases", phases}, {"balance", balance}, {"unsolved", unsolved}};
  if (json series = all_series_json(run); !series.empty()) option["series"] = std::move(series);
  return option;
}

json difference_json(const Difference& d) {
  constexpr std::array verdicts{"neither", "worse", "better"};
  return {{"option", d.option},
          {"phase", name_of(d.phase)},
          {"quantity", d.quantity->key},
          {"unit", d.quantity->unit},
          {"model", name_of(d.model)},
          {"change", number(d.change)},
          {"percent", d.percent ? number(*d.percent) : json(nullptr)},
          {"mesh_bar", d.has_bar ? number(d.bar) : json(nullptr)},
          {"distinguishable", d.is_distinguishable},
          {"verdict", verdicts[static_cast<std::size_t>(d.verdict)]},
          {"low", d.interval ? number(d.interval->low) : json(nullptr)},
          {"median", d.interval ? number(d.interval->median) : json(nullptr)},
          {"high", d.interval ? number(d.interval->high) : json(nullptr)},
          {"p_better", d.p_better ? number(*d.p_better) : json(nullptr)},
          {"widened_by", d.widened_by ? json{{"input", d.widened_by->input}, {"share", number(d.widened_by->share)}}
                                      : json(nullptr)}};
}

json form_error_json(const FormError& f) {
  return {{"option", f.run},
          {"phase", name_of(f.phase)},
          {"quantity", f.quantity->key},
          {"unit", f.quantity->unit},
          {"axisymmetric", number(f.axisymmetric)},
          {"sagittal", number(f.sagittal)},
          {"lower_bound", number(f.bound())}};
}

}  // namespace

json result_json(const std::vector<RunResult>& results, const Comparison& comparison, const ResultContext& context) {
  json options = json::array(), cases = json::array(), differences = json::array(), form_errors = json::array();
  for (const RunResult& run : results) {
    options.push_back(option_json(run));
    cases.push_back(resolved_case_json(run.run));
  }
  for (const Difference& d : comparison.differences) differences.push_back(difference_json(d));
  for (const FormError& f : comparison.form_errors) form_errors.push_back(form_error_json(f));
  return {{"schema", "hoofload-result/1"},
          {"provenance", provenance_json(context.case_file, results)},
          {"case", {{"title", results.empty() ? "" : results.front().run.title}, {"runs", cases}}},
          {"options", options},
          {"differences", differences},
          {"model_form", form_errors},
          {"warnings", context.warnings},
          {"cautions", json::array({viz::caution_text})}};
}

}  // namespace hoofload::scenarios
