#include "scenarios/sweep_runs.hpp"

#include "scenarios/case_resolved.hpp"
#include "scenarios/comparison.hpp"
#include "scenarios/sha256.hpp"
#include "scenarios/units.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>

namespace hoofload::scenarios {

namespace {

CaseReading read_with(const Sweep& sweep, const std::vector<InputValue>& settings) {
  CaseText tree = sweep.base;
  overlay(tree, settings, sweep.words);
  return read_case(tree, sweep.plan.base, sweep.words);
}

/// What is wrong with drawn values; a place in the base case would mean nothing.
std::string reason_of(const CaseErrors& errors) {
  std::string text;
  for (const CaseError& e : errors)
    text += (text.empty() ? "" : "; ") + e.key + ": " + e.problem + (e.value.empty() ? "" : " (" + e.value + ")");
  return text;
}

bool is_given(ModelKind model, Phase phase) { return model == ModelKind::sagittal || phase != Phase::breakover; }

void add_gap(const std::string& option, ModelKind model, Phase phase, const std::string& outcome,
             const std::string& reason, std::vector<SweepRow>& rows) {
  if (is_given(model, phase))
    rows.push_back({option, std::string(name_of(model)), std::string(name_of(phase)), "", "", {}, {}, outcome, reason});
}

void add_gaps(const Case& option, const std::string& outcome, const std::string& reason, std::vector<SweepRow>& rows) {
  for (const ModelKind model : option.study.models)
    for (const Phase phase : option.load.phases) add_gap(option.name, model, phase, outcome, reason, rows);
}

void add_values(const std::string& option, const PhaseResult& phase, std::vector<SweepRow>& rows) {
  for (const QuantityKey& key : quantity_catalogue()) {
    const auto it = phase.values.find(key.key);
    if (it == phase.values.end()) continue;
    const Reading& r = it->second;
    SweepRow row{option,
                 std::string(name_of(phase.model)),
                 std::string(name_of(phase.phase)),
                 std::string(key.key),
                 std::string(key.unit),
                 {},
                 {},
                 "solved",
                 ""};
    if (std::isfinite(r.value)) row.value = r.value;
    if (r.has_bar && std::isfinite(r.bar)) row.mesh_bar = r.bar;
    if (!row.value) row.reason = "no such value here";
    rows.push_back(std::move(row));
  }
}

void add_rows(const RunResult& result, std::vector<SweepRow>& rows) {
  for (const ModelResult& model : result.models) {
    if (!model.built) {
      for (const Phase phase : result.run.load.phases)
        add_gap(result.run.name, model.kind, phase, "not built", model.why, rows);
      continue;
    }
    for (const PhaseResult& phase : model.phases) {
      if (phase.solved)
        add_values(result.run.name, phase, rows);
      else
        add_gap(result.run.name, model.kind, phase.phase, "not solved", phase.why, rows);
    }
  }
}

bool has_tendon(const Case& run) {
  return std::count(run.study.models.begin(), run.study.models.end(), ModelKind::sagittal) > 0;
}

bool has_stance(const Case& run) {
  return std::count(run.load.phases.begin(), run.load.phases.end(), Phase::stance) > 0;
}

/// The run's foot in the base case's own shoeing; nothing if no shoeing varies, the baseline then sets its own tendon.
std::optional<Case> reference_of(const Sweep& sweep, const std::vector<InputValue>& settings) {
  if (sweep.baseline_sets_tendon) return {};
  std::vector<InputValue> kept;
  std::copy_if(settings.begin(), settings.end(), std::back_inserter(kept),
               [](const InputValue& s) { return !s.input.is_shoeing(); });
  if (kept.size() == settings.size()) return {};
  CaseReading reading = read_with(sweep, kept);
  if (reading.runs.empty() || !has_tendon(reading.runs.front())) return {};
  return std::move(reading.runs.front());
}

void solve_into(const Sweep& sweep, const std::vector<Case>& cases, SweepRun& out, ReferenceSlack& reference) {
  RunSlack slack;
  const std::optional<Case> set_on = reference_of(sweep, out.settings);
  if (set_on) slack = reference.of(*set_on, sweep.catalogue);
  std::vector<RunResult> results;
  for (const Case& one : cases) {
    const bool is_baseline = results.empty() && !set_on;
    results.push_back(solve_run(one, sweep.catalogue, slack, is_baseline));
  }
  add_bars(results);
  for (const RunResult& result : results) add_rows(result, out.rows);
}

}  // namespace

std::string sweep_fingerprint(const Sweep& sweep) {
  std::string text = "hoofload-sweep/1\n";
  for (const Case& run : sweep.base_runs) text += run.name + "\n" + resolved_case_toml(run);
  for (const materials::Entry& e : sweep.catalogue.entries)
    for (const auto* values : {&e.parameters, &e.properties})
      for (const auto& [name, v] : *values) text += e.id + "." + name + "=" + number_text(v.value) + v.unit + "\n";
  for (const materials::Friction& f : sweep.catalogue.friction) text += f.a + f.b + number_text(f.mu.value) + "\n";
  std::string rolling = sha256(text);
  for (const Variation& v : sweep.plan.variations) rolling += "\n" + v.input.name + " " + v.input.unit;
  const std::size_t runs = run_count(sweep.plan);
  for (std::size_t run = 0; run < runs; ++run) {
    rolling += "\n" + std::to_string(run);
    for (const InputValue& s : settings_of(sweep.plan, run)) rolling += "," + s.value;
    if (rolling.size() > (1U << 20U)) rolling = sha256(rolling);
  }
  return sha256(rolling);
}

RunSlack ReferenceSlack::of(const Case& reference, const materials::Catalogue& catalogue) {
  const auto solved = [&] {
    auto slack = std::make_shared<RunSlack>();
    const RunResult result = solve_run(reference, catalogue, *slack, true);
    return slack;
  };
  // The stance solves its baseline on demand and remembers: that memory must not be shared between runs.
  if (has_stance(reference)) return *solved();
  const std::string name = case_fingerprint(reference);
  {
    const std::lock_guard lock(guard_);
    if (const auto it = known_.find(name); it != known_.end()) return *it->second;
  }
  const auto slack = solved();
  const std::lock_guard lock(guard_);
  constexpr std::size_t kMostKnown = 64;  // a sweep that varies the foot has a reference for every run
  if (known_.size() < kMostKnown) known_.emplace(name, slack);
  return *slack;
}

SweepRun solve_sweep_run(const Sweep& sweep, std::size_t run, ReferenceSlack& reference) {
  const auto start = std::chrono::steady_clock::now();
  SweepRun out;
  out.run = run;
  out.settings = settings_of(sweep.plan, run);
  const CaseReading reading = read_with(sweep, out.settings);
  if (reading.errors.empty()) {
    std::string text;
    for (const Case& one : reading.runs) text += resolved_case_toml(one);
    out.case_sha256 = sha256(text);
    solve_into(sweep, reading.runs, out, reference);
  } else {
    for (const Case& option : sweep.base_runs) add_gaps(option, "refused", reason_of(reading.errors), out.rows);
  }
  const auto bad = std::find_if(out.rows.begin(), out.rows.end(), [](const auto& r) { return r.outcome != "solved"; });
  out.outcome = bad == out.rows.end() ? "solved" : bad->outcome;
  out.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  return out;
}

}  // namespace hoofload::scenarios
