// What the case reader must know of the material catalogue: which ids and parameters exist, with units and ranges.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace hoofload::materials {
struct Catalogue;
}

namespace hoofload::scenarios {

struct ParameterWord {
  std::string name;     ///< "E"
  std::string unit;     ///< "MPa"; empty: a plain number
  double value;         ///< in the inside unit
  double low, high;     ///< published range
  double above, below;  ///< admissible between, both excluded
};

struct MaterialWord {
  std::string id;  ///< "mild steel"
  std::vector<std::string> aliases;
  std::vector<std::string> kinds;  ///< tissue, shoe, pad, packing, ground
  std::vector<ParameterWord> parameters;
};

using MaterialWords = std::vector<MaterialWord>;

/// The words of a catalogue, in its order.
[[nodiscard]] MaterialWords material_words(const materials::Catalogue& catalogue);

/// The entry of that id or alias, or null; case, hyphens and underscores do not matter.
[[nodiscard]] const MaterialWord* find_material(const MaterialWords& words, std::string_view id);

[[nodiscard]] bool serves_as(const MaterialWord& word, std::string_view kind);

/// Id nearest in spelling among the entries of a kind (any kind if empty); empty if none is near.
[[nodiscard]] std::string nearest_material(const MaterialWords& words, std::string_view id, std::string_view kind);

/// "mild steel, aluminium, ...": the ids of a kind.
[[nodiscard]] std::string materials_of(const MaterialWords& words, std::string_view kind);

}  // namespace hoofload::scenarios
