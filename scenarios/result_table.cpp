#include "scenarios/result_table.hpp"

#include "scenarios/nothing.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "viz/text.hpp"

namespace hoofload::scenarios {

namespace {

using namespace std::string_view_literals;

constexpr std::array kHeadline = {
    "sole_pressure_peak"sv,   "sole_pressure_tip"sv,   "swing_sole_pressure"sv, "bone_share_lamellae"sv,
    "bone_share_sole"sv,      "ddft_moment"sv,         "navicular_force"sv,     "breakover_moment"sv,
    "breakover_arm"sv,        "rollover_moment"sv,     "rollover_arm"sv,        "cop"sv,
    "ground_pressure_heel"sv, "palmar_angle_loaded"sv, "nail_force_max"sv,      "ddft_peak_at"sv,
    "navicular_peak_at"sv,    "tendon_taut_at"sv,      "heel_off_at"sv};

/// Mere multiples of a listed quantity: they would list one change twice.
constexpr std::array kEchoes = {"ddft_moment_per_mass"sv, "navicular_force_per_mass"sv, "coffin_moment"sv,
                                "ddft_force"sv};

template <class List>
bool holds(const List& list, std::string_view key) {
  return std::find(list.begin(), list.end(), key) != list.end();
}

/// Zero where only the solver's rounding is left.
double cleaned(double value) { return std::abs(value) < kNothing ? 0 : value; }

viz::OptionCell cell_of(const RunResult& option, Phase phase, ModelKind model, const QuantityKey& key,
                        const Comparison& all, RunMode mode) {
  viz::OptionCell cell;
  const PhaseResult* solved = find_phase(option, model, phase);
  if (solved == nullptr) return cell;
  const auto it = solved->values.find(key.key);
  if (it == solved->values.end()) return cell;
  cell.value = cleaned(it->second.value);
  if (mode != RunMode::compare) return cell;
  for (const Difference& d : all.differences) {
    if (d.option != option.run.name || d.phase != phase || d.model != model || d.quantity != &key) continue;
    cell.change = cleaned(d.change);
    cell.percent = d.percent;
    if (d.interval) cell.low = d.interval->low, cell.high = d.interval->high;
    cell.bar = d.is_distinguishable ? d.bar : std::max(d.bar, std::abs(d.change));
  }
  return cell;
}

/// Rows of one phase and model; a quantity that no run has gets none.
void add_rows(const std::vector<RunResult>& results, Phase phase, ModelKind model, const Comparison& all, RunMode mode,
              TableDetail detail, std::vector<viz::ComparisonRow>& rows) {
  const PhaseResult* base = find_phase(results.front(), model, phase);
  for (const QuantityKey& key : quantity_catalogue()) {
    if (!is_shown(key, phase, detail)) continue;
    viz::ComparisonRow row{std::string(key.key),
                           std::string(key.unit),
                           std::string(name_of(phase)),
                           std::string(name_of(model)),
                           {},
                           0,
                           {}};
    if (base != nullptr)
      if (const auto it = base->values.find(key.key); it != base->values.end()) {
        row.baseline = cleaned(it->second.value);
        row.bar = it->second.has_bar ? it->second.bar : 0;
      }
    bool is_given = row.baseline.has_value();
    for (std::size_t k = 1; k < results.size(); ++k) {
      row.cells.push_back(cell_of(results[k], phase, model, key, all, mode));
      is_given = is_given || row.cells.back().value.has_value();
    }
    if (is_given) rows.push_back(std::move(row));
  }
}

void add_verdicts(const Comparison& comparison, TableDetail detail, viz::ComparisonTable& table) {
  for (const Difference& d : comparison.differences) {
    if (d.verdict == Verdict::neither || (detail == TableDetail::headline && holds(kEchoes, d.quantity->key))) continue;
    // These have a name of their own in that phase.
    if (d.phase == Phase::breakover && d.quantity->key == "ddft_moment") continue;
    if (d.phase == Phase::swing && d.quantity->key == "sole_pressure_mean") continue;
    viz::Worse line{d.option,
                    std::string(d.quantity->key),
                    std::string(name_of(d.phase)),
                    std::string(d.quantity->unit),
                    d.change,
                    d.percent,
                    true};
    if (d.quantity->model == Given::both) line.phase += ", " + std::string(name_of(d.model));
    (d.verdict == Verdict::worse ? table.worse : table.better).push_back(std::move(line));
  }
}

std::vector<ModelKind> models_of(const std::vector<RunResult>& results) { return results.front().run.study.models; }

/// Notes of the built models, each once, with the runs that it stands for unless that is all of them.
std::vector<std::string> model_notes(const std::vector<RunResult>& results) {
  std::vector<std::pair<std::string, std::vector<std::string>>> notes;
  for (const RunResult& run : results)
    for (const ModelResult& model : run.models) {
      if (!model.built) continue;
      for (const std::string& note : model.built->notes) {
        const std::string text = std::string(name_of(model.kind)) + " model: " + note;
        auto it = std::find_if(notes.begin(), notes.end(), [&](const auto& n) { return n.first == text; });
        if (it == notes.end()) it = notes.insert(notes.end(), {text, {}});
        if (!holds(it->second, std::string_view(run.run.name))) it->second.push_back(run.run.name);
      }
    }
  std::vector<std::string> texts;
  for (const auto& [text, runs] : notes) {
    std::string names;
    for (const std::string& name : runs) names += (names.empty() ? " [" : "; ") + name;
    texts.push_back(runs.size() == results.size() ? text : text + names + "]");
  }
  return texts;
}

std::vector<std::string> form_notes(const std::string& baseline, const Comparison& comparison) {
  std::vector<std::string> texts;
  for (const FormError& f : comparison.form_errors) {
    if (f.run != baseline || !holds(kHeadline, f.quantity->key) || !(f.bound() > kNothing)) continue;
    texts.push_back("model form, baseline: " + std::string(f.quantity->key) + " (" + std::string(name_of(f.phase)) +
                    ") is " + viz::number_text(f.axisymmetric) + " " + std::string(f.quantity->unit) +
                    " axisymmetric and " + viz::number_text(f.sagittal) +
                    " sagittal; the model-form error is at least " + viz::number_text(f.bound()));
  }
  return texts;
}

}  // namespace

/// With the foot in the air only fit-up speaks: its pressure and the nails'.
bool is_shown(const QuantityKey& key, Phase phase, TableDetail detail) {
  if (detail == TableDetail::full) return true;
  if (phase == Phase::swing) return key.key == "swing_sole_pressure" || key.key == "nail_force_max";
  if (phase == Phase::breakover && key.key == "ddft_moment") return false;  // the breakover moment under its own name
  return holds(kHeadline, key.key);
}

viz::ComparisonTable result_table(const std::vector<RunResult>& results, const Comparison& comparison, RunMode mode,
                                  TableDetail detail, const std::vector<std::string>& warnings) {
  viz::ComparisonTable table;
  if (results.empty()) return table;
  table.title = results.front().run.title;
  table.baseline = results.front().run.name;
  for (std::size_t k = 1; k < results.size(); ++k) table.options.push_back(results[k].run.name);
  for (const Phase phase : results.front().run.load.phases)
    for (const ModelKind model : models_of(results))
      add_rows(results, phase, model, comparison, mode, detail, table.rows);
  if (mode == RunMode::compare) add_verdicts(comparison, detail, table);
  table.warnings = warnings;
  return table;
}

std::vector<std::string> unsolved(const std::vector<RunResult>& results) {
  std::vector<std::string> texts;
  for (const RunResult& run : results)
    for (const ModelResult& model : run.models) {
      const std::string where = run.run.name + ", " + std::string(name_of(model.kind)) + " model";
      if (!model.built) texts.push_back(where + ": could not be built: " + model.why);
      for (const PhaseResult& p : model.phases)
        if (!p.solved) texts.push_back(where + ", " + std::string(name_of(p.phase)) + ": not solved: " + p.why);
    }
  return texts;
}

namespace {

std::vector<std::string> remarks(const std::vector<RunResult>& results) {
  std::vector<std::string> texts;
  for (const RunResult& run : results)
    for (const ModelResult& model : run.models)
      for (const PhaseResult& p : model.phases)
        if (p.solved && !p.solution.remark.empty())
          texts.push_back(run.run.name + ", " + std::string(name_of(p.phase)) + ": " + p.solution.remark);
  return texts;
}

}  // namespace

std::vector<std::string> result_warnings(const std::vector<RunResult>& results, const Comparison& comparison,
                                         const CaseErrors& reader) {
  std::vector<std::string> texts;
  const auto add = [&](const std::vector<std::string>& more) { texts.insert(texts.end(), more.begin(), more.end()); };
  for (const CaseError& warning : reader) texts.push_back(error_text(warning));
  add(unsolved(results));
  add(remarks(results));
  add(model_notes(results));
  if (!results.empty()) add(form_notes(results.front().run.name, comparison));
  return texts;
}

}  // namespace hoofload::scenarios
