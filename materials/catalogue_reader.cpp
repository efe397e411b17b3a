// The only file of this folder that includes the TOML parser.
#include <algorithm>
#include <cmath>
#include <fstream>
#include <initializer_list>
#include <sstream>

#include "materials/catalogue.hpp"
#include "materials/catalogue_keys.hpp"
#include "materials/nearest_name.hpp"
#include "materials/utf8.hpp"

namespace {
void parser_assertion_failed() { throw hoofload::materials::CatalogueError("unreadable TOML"); }
}  // namespace

// The library's own switches. Its assertions must throw: with the default they abort on input such as "[&", and without
// them the same input is undefined behaviour. The renamed namespace keeps this build of the header-only parser apart
// from any other file's, which may be configured otherwise.
#undef NDEBUG
#define TOML_ASSERT(expr) (static_cast<bool>(expr) ? void() : parser_assertion_failed())
#define TOML_EXCEPTIONS 1
#define TOML_HEADER_ONLY 1
#define TOML_ENABLE_FORMATTERS 0
#define TOML_MAX_NESTED_VALUES 32
#define toml hoofload_catalogue_toml
#include <toml++/toml.h>
#undef toml

namespace hoofload::materials {
namespace {

namespace parser = ::hoofload_catalogue_toml;

using Words = std::vector<std::string>;

const Words entry_keys{"id",     "aliases", "kind", "law",        "surface",
                       "source", "grade",   "note", "parameters", "properties"};
const Words value_keys{"value", "low", "high", "unit", "source", "grade"};
const Words friction_keys{"a", "b", "value", "low", "high", "unit", "source", "grade"};
constexpr KeyRule friction_rule{"value", "1", 0, 2, "Coulomb coefficient"};

/// Where a value is read: for messages, and for what it inherits from its entry.
struct Place {
  std::string file, what;
};

[[noreturn]] void fail(const Place& place, const parser::node& node, const std::string& message) {
  throw CatalogueError(place.file + ":" + std::to_string(node.source().begin.line) + ": " + place.what + ": " +
                       message);
}

std::string listed(const Words& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

void check_keys(const Place& place, const parser::table& table, const Words& allowed) {
  for (auto&& [key, node] : table) {
    const std::string name(key.str());
    if (std::find(allowed.begin(), allowed.end(), name) != allowed.end()) continue;
    fail(place, node,
         "unknown key \"" + name + "\"; did you mean \"" + nearest_name(name, allowed) +
             "\"? (allowed: " + listed(allowed) + ")");
  }
}

std::string text(const Place& place, const parser::table& table, const std::string& key) {
  const parser::node* node = table.get(key);
  if (!node) fail(place, table, "key \"" + key + "\" is missing");
  const auto value = node->value<std::string>();
  if (!node->is_string() || value->empty()) fail(place, *node, "\"" + key + "\" must be a text that is not empty");
  return *value;
}

std::string text_or(const Place& place, const parser::table& table, const std::string& key, std::string fallback) {
  return table.contains(key) ? text(place, table, key) : fallback;
}

double number(const Place& place, const parser::table& table, const std::string& key) {
  const parser::node* node = table.get(key);
  if (!node) fail(place, table, "key \"" + key + "\" is missing");
  const auto value = node->value<double>();
  if (!node->is_number() || !std::isfinite(*value)) fail(place, *node, "\"" + key + "\" must be a finite number");
  return *value;
}

char grade(const Place& place, const parser::table& table, const std::string& fallback) {
  const std::string letter = text_or(place, table, "grade", fallback);
  if (letter.size() != 1 || letter[0] < 'A' || letter[0] > 'D') fail(place, table, "grade must be A, B, C or D");
  return letter[0];
}

/// {value, low, high, unit}, converted to the rule's unit; source and grade as given or as the entry's.
Graded graded(const Place& place, const parser::table& table, const KeyRule& rule, const Entry& entry) {
  const std::string unit = text(place, table, "unit");
  const auto factor = conversion(unit, rule.unit);
  if (!factor) {
    fail(place, *table.get("unit"), "unit \"" + unit + "\" does not fit; allowed: " + units_for(rule.unit));
  }
  Graded g{number(place, table, "value") * *factor,       number(place, table, "low") * *factor,
           number(place, table, "high") * *factor,        std::string(rule.unit),
           text_or(place, table, "source", entry.source), grade(place, table, std::string(1, entry.grade))};
  if (!(g.low <= g.value && g.value <= g.high)) fail(place, table, "low <= value <= high does not hold");
  if (!(g.low > rule.above && g.high < rule.below)) {
    std::ostringstream range;
    range << "must lie between " << rule.above << " and " << rule.below << " " << rule.unit;
    fail(place, table, range.str());
  }
  return g;
}

using Values = std::map<std::string, Graded, std::less<>>;

Values values(const Place& place, const parser::table& parent, const std::string& section,
              std::span<const KeyRule> rules, const Entry& entry) {
  Values read;
  const parser::node* node = parent.get(section);
  if (!node) return read;
  if (!node->is_table()) fail(place, *node, "\"" + section + "\" must be a table");
  Words names;
  for (const KeyRule& rule : rules) names.emplace_back(rule.key);
  check_keys(place, *node->as_table(), names);
  for (auto&& [key, value] : *node->as_table()) {
    const Place here{place.file, place.what + ", " + std::string(key.str())};
    if (!value.is_table()) fail(here, value, "must be { value, low, high, unit }");
    check_keys(here, *value.as_table(), value_keys);
    read.emplace(std::string(key.str()), graded(here, *value.as_table(), *find_rule(rules, key.str()), entry));
  }
  return read;
}

/// One text or a list of texts.
Words words(const Place& place, const parser::table& table, const std::string& key) {
  const parser::node* node = table.get(key);
  if (!node) return {};
  if (!node->is_array()) return {text(place, table, key)};
  Words list;
  for (const parser::node& element : *node->as_array()) {
    if (!element.is_string()) fail(place, element, "\"" + key + "\" must hold texts");
    list.push_back(*element.value<std::string>());
  }
  return list;
}

std::vector<Kind> kinds_of(const Place& place, const parser::table& table) {
  constexpr std::array all{Kind::tissue, Kind::shoe, Kind::pad, Kind::packing, Kind::ground};
  std::vector<Kind> kinds;
  for (const std::string& word : words(place, table, "kind")) {
    const auto found = std::find_if(all.begin(), all.end(), [&](Kind kind) { return name_of(kind) == word; });
    if (found == all.end()) fail(place, *table.get("kind"), "kind must be tissue, shoe, pad, packing or ground");
    kinds.push_back(*found);
  }
  if (kinds.empty()) fail(place, table, "key \"kind\" is missing");
  return kinds;
}

Entry read_entry(const std::string& file, const parser::table& table) {
  const std::string id = text({file, "material"}, table, "id");
  const Place place{file, "material \"" + id + "\""};
  check_keys(place, table, entry_keys);
  Entry entry;
  entry.id = id;
  entry.aliases = words(place, table, "aliases");
  entry.kinds = kinds_of(place, table);
  entry.law = text(place, table, "law");
  const Words laws = law_names();
  if (std::find(laws.begin(), laws.end(), entry.law) == laws.end()) {
    fail(place, *table.get("law"),
         "unknown law \"" + entry.law + "\"; did you mean \"" + nearest_name(entry.law, laws) +
             "\"? (allowed: " + listed(laws) + ")");
  }
  entry.surface = text_or(place, table, "surface", "");
  entry.source = text(place, table, "source");
  entry.grade = grade(place, table, "");
  entry.note = text_or(place, table, "note", "");
  entry.parameters = values(place, table, "parameters", parameter_rules(), entry);
  entry.properties = values(place, table, "properties", property_rules(), entry);
  if (const std::string error = recipe_error(entry); !error.empty()) fail(place, table, error);
  return entry;
}

void add_entry(const std::string& file, const parser::table& table, Catalogue& catalogue) {
  Entry entry = read_entry(file, table);
  Words names = entry.aliases;
  names.push_back(entry.id);
  for (const std::string& name : names) {
    if (find(catalogue, name))
      fail({file, "material \"" + entry.id + "\""}, table, "\"" + name + "\" is taken already");
  }
  catalogue.entries.push_back(std::move(entry));
}

void add_friction(const std::string& file, const parser::table& table, Catalogue& catalogue) {
  const Place place{file, "friction"};
  check_keys(place, table, friction_keys);
  Friction pair{text(place, table, "a"), text(place, table, "b"), {}};
  if (find_friction(catalogue, pair.a, pair.b)) fail(place, table, pair.a + "-" + pair.b + " is given already");
  Entry nothing_to_inherit;
  nothing_to_inherit.source = text(place, table, "source");
  nothing_to_inherit.grade = grade(place, table, "");
  pair.mu = graded(place, table, friction_rule, nothing_to_inherit);
  catalogue.friction.push_back(std::move(pair));
}

using Add = void (*)(const std::string&, const parser::table&, Catalogue&);

void add_all(const std::string& file, const parser::table& root, const std::string& key, Add add,
             Catalogue& catalogue) {
  const parser::node* node = root.get(key);
  if (!node) return;
  if (!node->is_array_of_tables()) fail({file, key}, *node, "must be a list of tables");
  for (const parser::node& element : *node->as_array()) add(file, *element.as_table(), catalogue);
}

parser::table parsed(std::string_view toml_text, const std::string& name) {
  if (!is_utf8(toml_text)) throw CatalogueError(name + ": not valid UTF-8");
  try {
    return parser::parse(toml_text, name);
  } catch (const parser::parse_error& error) {
    throw CatalogueError(name + ":" + std::to_string(error.source().begin.line) + ": " +
                         std::string(error.description()));
  } catch (const CatalogueError& error) {
    throw CatalogueError(name + ": " + error.what());
  }
}

}  // namespace

void read_catalogue(std::string_view toml_text, const std::string& name, Catalogue& catalogue) {
  const parser::table root = parsed(toml_text, name);
  check_keys({name, "top level"}, root, {"material", "friction"});
  add_all(name, root, "material", add_entry, catalogue);
  add_all(name, root, "friction", add_friction, catalogue);
}

Catalogue load_catalogue(const std::filesystem::path& folder) {
  std::vector<std::filesystem::path> files;
  std::error_code missing;
  for (const auto& file : std::filesystem::directory_iterator(folder, missing)) {
    if (file.path().extension() == ".toml") files.push_back(file.path());
  }
  if (files.empty()) throw CatalogueError(folder.string() + ": no catalogue file (*.toml) found here");
  std::sort(files.begin(), files.end());
  Catalogue catalogue;
  for (const auto& file : files) {
    std::ifstream stream(file, std::ios::binary);
    std::ostringstream content;
    content << stream.rdbuf();
    if (!stream) throw CatalogueError(file.string() + ": cannot be read");
    read_catalogue(content.str(), file.string(), catalogue);
  }
  return catalogue;
}

}  // namespace hoofload::materials
