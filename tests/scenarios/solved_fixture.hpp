// One small comparison, solved once for all tests of what is made of results: coarse axisymmetric model, three runs.
#pragma once

#include "materials/catalogue.hpp"
#include "scenarios/comparison.hpp"
#include "tests/scenarios/case_fixture.hpp"

namespace hoofload::scenarios {

inline const std::string& small_case() {
  static const std::string text =
      "schema = 1\ntitle = \"Small\"\n[horse]\nmass = \"520 kg\"\n[load]\nphases = [\"swing\", \"standing\"]\n"
      "[study]\ndensity = 0.5\nmodels = [\"axisymmetric\"]\n"
      "[[option]]\nname = \"plate, packed before nailing\"\n"
      "shoe = { type = \"full plate\", material = \"polyurethane A90\", plate_thickness = \"6 mm\" }\n"
      "packing = { region = \"full sole\", material = \"silicone A30\", order = \"before nailing\", proud = \"1 mm\" "
      "}\n"
      "[[option]]\nname = \"the same again\"\n"
      "shoe = { type = \"full plate\", material = \"polyurethane A90\", plate_thickness = \"6 mm\" }\n"
      "packing = { region = \"full sole\", material = \"silicone A30\", order = \"before nailing\", proud = \"1 mm\" "
      "}\n";
  return text;
}

inline const std::vector<Case>& small_runs() {
  static const std::vector<Case> runs = [] {
    const CaseReading reading = read(small_case());
    if (!reading.errors.empty()) throw std::runtime_error(all_errors(reading.errors));
    return reading.runs;
  }();
  return runs;
}

inline const std::vector<RunResult>& small_results() {
  static const std::vector<RunResult> results = solve_runs(small_runs(), materials::load_catalogue());
  return results;
}

}  // namespace hoofload::scenarios
