#include "scenarios/result_csv.hpp"

#include <cmath>

#include "scenarios/case_errors.hpp"
#include "scenarios/provenance.hpp"
#include "scenarios/units.hpp"
#include "viz/cautions.hpp"

namespace hoofload::scenarios {

namespace {

std::string cell(std::string text) {
  if (!text.empty() && std::string_view("=+-@\t\r").find(text.front()) != std::string_view::npos) text.insert(0, "'");
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + "\"";
}

std::string number_cell(double value) { return std::isfinite(value) ? number_text(value) : ""; }

const Difference* find_difference(const Comparison& comparison, const std::string& run, Phase phase, ModelKind model,
                                  const QuantityKey& key) {
  for (const Difference& d : comparison.differences)
    if (d.option == run && d.phase == phase && d.model == model && d.quantity == &key) return &d;
  return nullptr;
}

std::string row(const RunResult& run, const PhaseResult& phase, const QuantityKey& key, const Reading& reading,
                const Difference* d) {
  std::string text = cell(run.run.name) + "," + std::string(name_of(phase.phase)) + "," +
                     std::string(name_of(phase.model)) + "," + std::string(key.key) + "," + number_cell(reading.value) +
                     "," + cell(std::string(key.unit)) + "," + (reading.has_bar ? number_cell(reading.bar) : "");
  if (d == nullptr) return text + ",,,,\n";
  return text + "," + number_cell(d->change) + "," + (d->percent ? number_cell(*d->percent) : "") + "," +
         (d->has_bar ? number_cell(d->bar) : "") + "," + (d->is_distinguishable ? "yes" : "no") + "\n";
}

std::string remark(const std::string& text) {
  std::string line = "# ";
  for (const char c : text) line += c == '\n' || c == '\r' ? ' ' : c;
  return line + "\n";
}

}  // namespace

std::string result_csv(const std::vector<RunResult>& results, const Comparison& comparison,
                       const std::vector<std::string>& warnings) {
  std::string text = remark(results.empty() ? "" : results.front().run.title) + remark(provenance_line(results)) +
                     remark(std::string(viz::caution_text));
  for (const std::string& warning : warnings) text += remark(warning);
  text += "run,phase,model,quantity,value,unit,mesh_bar,change,percent,bar_of_change,distinguishable\n";
  for (const RunResult& run : results)
    for (const ModelResult& model : run.models)
      for (const PhaseResult& phase : model.phases)
        for (const QuantityKey& key : quantity_catalogue())
          if (const auto it = phase.values.find(key.key); it != phase.values.end())
            text += row(run, phase, key, it->second,
                        find_difference(comparison, run.run.name, phase.phase, model.kind, key));
  return text;
}

}  // namespace hoofload::scenarios
