#include "scenarios/material_words.hpp"

#include "materials/catalogue.hpp"
#include "materials/catalogue_keys.hpp"
#include "scenarios/nearest.hpp"
#include "scenarios/words.hpp"

#include <algorithm>
#include <array>

namespace hoofload::scenarios {
namespace {

constexpr std::array kKinds = {materials::Kind::tissue, materials::Kind::shoe, materials::Kind::pad,
                               materials::Kind::packing, materials::Kind::ground};

MaterialWord word_of(const materials::Entry& entry) {
  MaterialWord word{entry.id, entry.aliases, {}, {}};
  for (const auto kind : kKinds)
    if (materials::serves(entry, kind)) word.kinds.emplace_back(materials::name_of(kind));
  for (const auto& [name, graded] : entry.parameters) {
    const auto* rule = materials::find_rule(materials::parameter_rules(), name);
    if (rule == nullptr) continue;
    word.parameters.push_back(
        {name, graded.unit == "1" ? "" : graded.unit, graded.value, graded.low, graded.high, rule->above, rule->below});
  }
  return word;
}

}  // namespace

MaterialWords material_words(const materials::Catalogue& catalogue) {
  MaterialWords words;
  for (const auto& entry : catalogue.entries) words.push_back(word_of(entry));
  return words;
}

const MaterialWord* find_material(const MaterialWords& words, std::string_view id) {
  const std::string plain = plain_words(id);
  const auto called = [&](const std::string& name) { return plain_words(name) == plain; };
  for (const MaterialWord& w : words)
    if (called(w.id)) return &w;
  for (const MaterialWord& w : words)
    if (std::any_of(w.aliases.begin(), w.aliases.end(), called)) return &w;
  return nullptr;
}

bool serves_as(const MaterialWord& word, std::string_view kind) {
  return std::find(word.kinds.begin(), word.kinds.end(), kind) != word.kinds.end();
}

std::string nearest_material(const MaterialWords& words, std::string_view id, std::string_view kind) {
  std::vector<std::string_view> ids;
  for (const MaterialWord& w : words)
    if (kind.empty() || serves_as(w, kind)) ids.push_back(w.id);
  return nearest_name(id, ids);
}

std::string materials_of(const MaterialWords& words, std::string_view kind) {
  std::string text;
  for (const MaterialWord& w : words)
    if (kind.empty() || serves_as(w, kind)) text += (text.empty() ? "" : ", ") + w.id;
  return text;
}

}  // namespace hoofload::scenarios
