#include "scenarios/sweep_read.hpp"

#include <cerrno>
#include <cstring>
#include <fstream>
#include <sstream>

namespace hoofload::scenarios {

FileText read_text_file(const std::filesystem::path& path) {
  std::error_code error;
  if (std::filesystem::is_directory(path, error)) return {"", "is a folder"};
  std::ifstream stream(path, std::ios::binary);
  if (!stream) return {"", std::strerror(errno)};
  std::ostringstream text;
  text << stream.rdbuf();
  if (stream.bad()) return {"", "cannot be read"};
  return {text.str(), ""};
}

SweepReading read_sweep(const std::string& plan_file) {
  SweepReading reading;
  const FileText plan_text = read_text_file(plan_file);
  if (!plan_text.problem.empty()) {
    reading.missing_file = plan_file + ": " + plan_text.problem;
    return reading;
  }
  auto sweep = std::make_shared<Sweep>();
  sweep->catalogue = materials::load_catalogue();
  sweep->words = material_words(sweep->catalogue);
  PlanReading plan = read_sweep_plan(plan_text.text, plan_file, sweep->words);
  reading.errors = std::move(plan.errors);
  sweep->plan = std::move(plan.plan);
  if (sweep->plan.base.empty()) return reading;
  const FileText base = read_text_file(sweep->plan.base);
  if (!base.problem.empty()) {
    reading.missing_file = plan_file + ": base: " + sweep->plan.base + ": " + base.problem;
    return reading;
  }
  sweep->base = parse_case_text(base.text, sweep->plan.base);
  CaseReading runs = read_case(sweep->base, sweep->plan.base, sweep->words);
  reading.errors.insert(reading.errors.end(), runs.errors.begin(), runs.errors.end());
  reading.warnings = std::move(runs.warnings);
  sweep->base_runs = std::move(runs.runs);
  if (reading.errors.empty()) reading.sweep = std::move(sweep);
  return reading;
}

}  // namespace hoofload::scenarios
