#include "scenarios/case_overlay.hpp"

#include "scenarios/units.hpp"

#include <algorithm>
#include <array>
#include <charconv>

namespace hoofload::scenarios {

namespace {

/// The member for which `is_it` holds; added under `name` if there is none.
template <class IsIt>
Member& member_at(Table& table, const std::string& name, IsIt&& is_it, Value otherwise) {
  const auto it = std::find_if(table.begin(), table.end(), [&](const Member& m) { return is_it(m.key); });
  if (it != table.end()) return *it;
  table.push_back({name, {}, std::move(otherwise)});
  return table.back();
}

/// The table under that name, or null if something else stands there: the reader will say so.
template <class IsIt>
Table* table_at(Table& table, const std::string& name, IsIt&& is_it) {
  return std::get_if<Table>(&member_at(table, name, is_it, {{}, Table{}}).value.content);
}

void put_parameter(Table& root, const InputValue& s, const MaterialWords& materials) {
  Table* all = table_at(root, "materials", [](const std::string& key) { return key == "materials"; });
  if (all == nullptr) return;
  const auto is_it = [&](const std::string& key) {
    const MaterialWord* word = find_material(materials, key);
    return word != nullptr && word->id == s.input.material;
  };
  Table* one = table_at(*all, s.input.material, is_it);
  if (one == nullptr) return;
  const Value value = case_value(s.input, s.value);
  member_at(
      *one, s.input.parameter, [&](const std::string& key) { return key == s.input.parameter; }, value)
      .value = value;
}

void put_key(Table& root, const InputValue& s) {
  const std::string section = s.input.name.substr(0, s.input.name.find('.'));
  Table* table = table_at(root, section, [&](const std::string& key) { return key == section; });
  if (table == nullptr) return;
  const Value value = case_value(s.input, s.value);
  const auto is_it = [&](const std::string& key) { return find_key(section + "." + key) == s.input.key; };
  member_at(*table, s.input.name.substr(section.size() + 1), is_it, value).value = value;
}

std::optional<Input> find_parameter(std::string_view name, const MaterialWords& materials) {
  constexpr std::string_view kSection = "materials.";
  const std::size_t dot = name.rfind('.');
  if (name.substr(0, kSection.size()) != kSection || dot < kSection.size()) return {};
  const MaterialWord* word = find_material(materials, name.substr(kSection.size(), dot - kSection.size()));
  if (word == nullptr) return {};
  for (const ParameterWord& p : word->parameters)
    if (p.name == name.substr(dot + 1))
      return Input{std::string(kSection) + word->id + "." + p.name, nullptr, word->id, p.name, p.unit};
  return {};
}

}  // namespace

bool Input::is_shoeing() const {
  constexpr std::array<std::string_view, 4> kChosen = {"shoe", "nails", "pad", "packing"};
  return key != nullptr && std::count(kChosen.begin(), kChosen.end(), key->name.substr(0, key->name.find('.'))) > 0;
}

std::optional<Input> find_input(std::string_view name, const MaterialWords& materials) {
  const Key* key = find_key(name);
  if (key == nullptr) return find_parameter(name, materials);
  const bool is_fixed =
      std::holds_alternative<TextAt>(key->binding) || std::holds_alternative<WordListAt>(key->binding);
  if (is_fixed || key->name.find('.') == std::string_view::npos) return {};
  return Input{std::string(key->name), key, "", "", std::string(unit_of(*key))};
}

Value case_value(const Input& input, const std::string& value) {
  const bool is_number = input.key == nullptr || std::holds_alternative<NumberAt>(input.key->binding);
  if (is_number && !input.unit.empty() && find_unit(input.unit) != nullptr) return {{}, value + " " + input.unit};
  if (is_number) return {{}, parse_number(value).value_or(0)};
  if (std::holds_alternative<IntegerAt>(input.key->binding)) {
    std::int64_t integer = 0;
    std::from_chars(value.data(), value.data() + value.size(), integer);
    return {{}, integer};
  }
  if (std::holds_alternative<FlagAt>(input.key->binding)) return {{}, value == "true"};
  return {{}, value};
}

void overlay(CaseText& tree, const std::vector<InputValue>& settings, const MaterialWords& materials) {
  for (const InputValue& s : settings)
    s.input.key == nullptr ? put_parameter(tree.root, s, materials) : put_key(tree.root, s);
}

}  // namespace hoofload::scenarios
