// The one table of case keys: name, where it goes, unit, range, meaning, grade and source. The reader, its checks and
// error texts, `explain`, the resolved case and docs/case-keys.md are all derived from it; defaults are those of the
// structs themselves. Adding a key is adding a member and a line here.
#pragma once

#include "scenarios/case.hpp"
#include "scenarios/words.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace hoofload::scenarios {

/// A number; low <= value <= high, both in `unit` ("": a plain number). Empty: not given and without default.
struct NumberAt {
  std::optional<double> (*get)(const Case&);
  void (*set)(Case&, double);
  std::string_view unit;
  double low, high;
};

struct IntegerAt {
  std::int64_t (*get)(const Case&);
  void (*set)(Case&, std::int64_t);
  std::int64_t low, high;
};

struct FlagAt {
  bool (*get)(const Case&);
  void (*set)(Case&, bool);
};

struct TextAt {
  const std::string& (*get)(const Case&);
  void (*set)(Case&, const std::string&);
};

/// One word of a closed choice, as its index in the enumeration.
struct WordAt {
  int (*get)(const Case&);
  void (*set)(Case&, int);
  Words words;
};

struct WordListAt {
  std::vector<int> (*get)(const Case&);
  void (*set)(Case&, const std::vector<int>&);
  Words words;
};

/// The id of a catalogue entry of that kind.
struct MaterialAt {
  const std::string& (*get)(const Case&);
  void (*set)(Case&, const std::string&);
  std::string_view kind;
};

/// Whether an [[option]] may set the key too: the differences are paired, so runs share phases, models and draws.
enum class Scope { any_run, whole_case };

struct Key {
  std::string_view name;  ///< "foot.toe_angle"
  std::variant<NumberAt, IntegerAt, FlagAt, TextAt, WordAt, WordListAt, MaterialAt> binding;
  std::string_view meaning;
  char grade;               ///< of the default: A to D, M from memory (docs/reference-foot.md); '-' a setting
  std::string_view source;  ///< of the default; empty for a setting
  Scope scope = Scope::any_run;
};

[[nodiscard]] std::span<const Key> case_keys();

/// The key of that name or of that synonym, or null.
[[nodiscard]] const Key* find_key(std::string_view name);

/// Other names under which a key is accepted.
[[nodiscard]] std::vector<std::string_view> synonyms_of(std::string_view key);

/// "foot", "shoe", ...: the sections that hold keys, and "materials".
[[nodiscard]] std::span<const std::string_view> case_sections();

/// Unit of a key's numbers, "" if it has none.
[[nodiscard]] std::string_view unit_of(const Key& key);

/// "length", "choice", "true or false", ...
[[nodiscard]] std::string type_text(const Key& key);

/// "35 deg to 70 deg", "\"open\", \"bare\"", ...
[[nodiscard]] std::string allowed_text(const Key& key);

/// The value that a case holds for the key, as TOML ("\"50 deg\"", 6, true, ["swing"]); empty if it holds none.
[[nodiscard]] std::string toml_value(const Key& key, const Case& c);

/// The same for people: lengths of shoe, pad and packing with their inch fraction, "3.18 mm (1/8 in)"; empty if none.
[[nodiscard]] std::string shown_value(const Key& key, const Case& c);

/// toml_value of the default case, or "none".
[[nodiscard]] std::string default_text(const Key& key);

/// A TOML basic string.
[[nodiscard]] std::string toml_string(std::string_view text);

}  // namespace hoofload::scenarios
