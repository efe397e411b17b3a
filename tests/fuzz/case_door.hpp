// One fuzzed case through the whole door: read, and if it is good, everything that is made of it.
#pragma once

#include "scenarios/case_report.hpp"
#include "scenarios/case_resolved.hpp"

#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace hoofload::fuzz {

/// The demo and some cases that reach other corners.
inline std::vector<std::string> seed_cases() {
  std::ifstream stream("scenarios/cases/demo.toml");
  std::ostringstream demo;
  demo << stream.rdbuf();
  if (demo.str().empty()) throw std::runtime_error("run from the root of the source tree");
  return {demo.str(),
          "schema = 1\n[load]\nphases = [\"press\", \"stance\"]\nforce = \"2500 N\"\n[ground]\ntype = "
          "\"elastic\"\nmaterial = \"turf\"\n",
          "schema = 1\n[shoe]\ntype = \"heart bar\"\nattachment = \"glued\"\n[pad]\ntype = \"rim\"\nmaterial = "
          "\"leather\"\nthickness = \"1/8 in\"\n"
          "[materials]\n\"sole horn\".E = \"150 MPa\"\n",
          "schema = 1\n[foot]\npalmar_angle = \"10 deg\"\ntoe_angle = \"52 deg\"\nhl_distal = \"24 mm\"\nhl_proximal = "
          "\"17 mm\"\n"
          "[[option]]\nname = \"bare\"\nshoe.type = \"bare\"\n",
          ""};
}

/// True if the case was good. Throws std::logic_error where the door breaks a promise.
inline bool through_the_door(const std::string& text, const scenarios::MaterialWords& words) {
  const auto reading = scenarios::read_case(text, "fuzz.toml", words);
  if (reading.errors.empty() == reading.runs.empty()) throw std::logic_error("runs and errors must exclude each other");
  for (const auto& e : reading.errors) {
    if (scenarios::error_text(e).find('\n') != std::string::npos) throw std::logic_error("an error must be one line");
    if (e.problem.empty()) throw std::logic_error("an error must say what is wrong");
  }
  if (scenarios::check_json("fuzz.toml", reading).dump().empty()) throw std::logic_error("no JSON");
  if (reading.runs.empty()) return false;
  if (scenarios::check_text("fuzz.toml", reading).empty()) throw std::logic_error("no text");
  for (const auto& run : reading.runs) {
    const std::string resolved = scenarios::resolved_case_toml(run);
    const auto again = scenarios::read_case(resolved, "resolved.toml", words);
    if (again.runs.size() != 1)
      throw std::logic_error("a resolved case must be good:\n" + resolved + scenarios::error_text(again.errors.at(0)));
    if (scenarios::resolved_case_toml(again.runs[0]) != resolved)
      throw std::logic_error("a resolved case must read back:\n" + resolved + "\n--- became ---\n" +
                             scenarios::resolved_case_toml(again.runs[0]));
  }
  return true;
}

}  // namespace hoofload::fuzz
