// What a key says of itself: type, allowed values, the value that a case holds, its default.
#include "scenarios/case_keys.hpp"
#include "scenarios/units.hpp"

#include <algorithm>
#include <array>
#include <cstdio>

namespace hoofload::scenarios {
namespace {

template <class... Fs>
struct Overloaded : Fs... {
  using Fs::operator()...;
};

std::string with_unit(double value, std::string_view unit) {
  return number_text(value) + (unit.empty() ? "" : " " + std::string(unit));
}

std::string toml_list(const WordListAt& list, const Case& c) {
  std::string text = "[";
  for (const int index : list.get(c))
    text += (text.size() > 1 ? ", " : "") + toml_string(list.words.canonical[static_cast<std::size_t>(index)]);
  return text + "]";
}

std::string toml_number(const NumberAt& number, const Case& c) {
  const auto value = number.get(c);
  if (!value) return "";
  return number.unit.empty() ? number_text(*value) : toml_string(quantity_text(*value, number.unit));
}

/// Text of several lines as it would be written: one a line, between three quotes.
std::string text_value(const std::string& text) {
  if (text.empty()) return "";
  if (text.find('\n') == std::string::npos) return toml_string(text);
  std::string quoted = "\"\"\"\n";
  std::string_view rest = text;
  while (!rest.empty()) {
    const std::size_t end = rest.find('\n');
    const std::string line = toml_string(rest.substr(0, end));
    quoted += line.substr(1, line.size() - 2);
    if (end == std::string_view::npos) break;
    quoted += '\n';
    rest.remove_prefix(end + 1);
  }
  return quoted + "\"\"\"";
}

}  // namespace

std::string toml_string(std::string_view text) {
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') {
      quoted += '\\';
      quoted += c;
    } else if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) {
      std::array<char, 8> code{};
      std::snprintf(code.data(), code.size(), "\\u%04X", static_cast<unsigned>(static_cast<unsigned char>(c)));
      quoted += code.data();
    } else {
      quoted += c;
    }
  }
  return quoted + '"';
}

std::string_view unit_of(const Key& key) {
  const auto* number = std::get_if<NumberAt>(&key.binding);
  return number == nullptr ? std::string_view{} : number->unit;
}

std::string type_text(const Key& key) {
  return std::visit(
      Overloaded{[](const NumberAt& n) {
                   const Unit* unit = find_unit(n.unit);
                   return std::string(name_of(unit == nullptr ? Dimension::none : unit->dimension));
                 },
                 [](const IntegerAt&) { return std::string("whole number"); },
                 [](const FlagAt&) { return std::string("true or false"); },
                 [](const TextAt&) { return std::string("text"); }, [](const WordAt&) { return std::string("choice"); },
                 [](const WordListAt&) { return std::string("list of choices"); },
                 [](const MaterialAt&) { return std::string("material"); }},
      key.binding);
}

std::string allowed_text(const Key& key) {
  return std::visit(
      Overloaded{[](const NumberAt& n) { return with_unit(n.low, n.unit) + " to " + with_unit(n.high, n.unit); },
                 [](const IntegerAt& i) {
                   const std::string low = std::to_string(i.low);
                   return i.low == i.high ? low : low + " to " + std::to_string(i.high);
                 },
                 [](const FlagAt&) { return std::string("true, false"); },
                 [](const TextAt&) { return std::string("text of 1 to 200 bytes"); },
                 [](const WordAt& w) { return listed(w.words); },
                 [](const WordListAt& w) { return "one or more of " + listed(w.words); },
                 [](const MaterialAt& m) { return "a " + std::string(m.kind) + " material of the catalogue"; }},
      key.binding);
}

std::string toml_value(const Key& key, const Case& c) {
  return std::visit(
      Overloaded{[&](const NumberAt& n) { return toml_number(n, c); },
                 [&](const IntegerAt& i) { return std::to_string(i.get(c)); },
                 [&](const FlagAt& f) { return std::string(f.get(c) ? "true" : "false"); },
                 [&](const TextAt& t) { return text_value(t.get(c)); },
                 [&](const WordAt& w) { return toml_string(w.words.canonical[static_cast<std::size_t>(w.get(c))]); },
                 [&](const WordListAt& w) { return toml_list(w, c); },
                 [&](const MaterialAt& m) { return m.get(c).empty() ? "" : toml_string(m.get(c)); }},
      key.binding);
}

std::string shown_value(const Key& key, const Case& c) {
  const auto* number = std::get_if<NumberAt>(&key.binding);
  if (const auto* text = std::get_if<TextAt>(&key.binding);
      text != nullptr && text->get(c).find('\n') != std::string::npos)
    return "a table of " + std::to_string(std::count(text->get(c).begin(), text->get(c).end(), '\n')) + " lines";
  if (number == nullptr) return toml_value(key, c);
  const auto value = number->get(c);
  if (!value) return "";
  const std::string_view section = key.name.substr(0, key.name.find('.'));
  const bool set_with_a_rule = section == "shoe" || section == "pad" || section == "packing";
  if (set_with_a_rule && number->unit == "mm") return with_inch_fraction(*value);
  return quantity_text(*value, number->unit);
}

std::string default_text(const Key& key) {
  const std::string text = toml_value(key, Case{});
  return text.empty() ? "none" : text;
}

}  // namespace hoofload::scenarios
