#include "scenarios/input_words.hpp"

#include "materials/catalogue_keys.hpp"
#include "scenarios/case_keys.hpp"

namespace hoofload::scenarios {

namespace {

constexpr std::string_view kMaterials = "materials.";

/// A description up to where it goes into detail.
std::string_view first_clause(std::string_view meaning) { return meaning.substr(0, meaning.find_first_of(",;:(")); }

std::string words_alone(std::string_view name) {
  if (const Key* key = find_key(name)) return std::string(first_clause(key->meaning));
  const std::size_t dot = name.rfind('.');
  if (name.substr(0, kMaterials.size()) != kMaterials || dot < kMaterials.size()) return {};
  const auto* rule = materials::find_rule(materials::parameter_rules(), name.substr(dot + 1));
  if (rule == nullptr) return {};
  return std::string(first_clause(rule->meaning)) + " of " +
         std::string(name.substr(kMaterials.size(), dot - kMaterials.size()));
}

}  // namespace

std::string input_words(std::string_view name) {
  std::string words = words_alone(name);
  while (!words.empty() && words.back() == ' ') words.pop_back();
  return words.empty() ? std::string(name) : words + " (" + std::string(name) + ")";
}

}  // namespace hoofload::scenarios
