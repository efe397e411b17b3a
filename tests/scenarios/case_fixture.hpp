// What the tests of the case reader share: the catalogue's words, a short good case, and looking errors up.
#pragma once

#include "materials/catalogue.hpp"
#include "scenarios/case.hpp"

#include <stdexcept>
#include <string>
#include <string_view>

namespace hoofload::scenarios {

inline const MaterialWords& catalogue_words() {
  static const MaterialWords words = material_words(materials::load_catalogue());
  return words;
}

inline CaseReading read(const std::string& text) { return read_case(text, "case.toml", catalogue_words()); }

/// The only run of a text that must be good.
inline Case good_case(const std::string& text) {
  const CaseReading reading = read(text);
  for (const CaseError& e : reading.errors) throw std::runtime_error(error_text(e));
  return reading.runs.at(0);
}

inline std::string all_errors(const CaseErrors& errors) {
  std::string text;
  for (const CaseError& e : errors) text += error_text(e) + "\n";
  return text;
}

}  // namespace hoofload::scenarios
