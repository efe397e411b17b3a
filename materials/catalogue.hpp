// The catalogue: tissues, shoe, pad, packing and ground materials and friction, read from TOML at run time.
//
// Every value has a unit, a range (low, high), a source and a grade: A direct equine test with known spread, B direct
// but thin or indirect, C surrogate tissue or handbook class value, D assumption. Inside, values are in N, mm, MPa, rad.
#pragma once

#include <filesystem>
#include <map>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "materials/material.hpp"

namespace hoofload::materials {

enum class Kind { tissue, shoe, pad, packing, ground };

/// A value in the house unit of its key (MPa, 1, rad, mm^2, kg/m^3 ...), low <= value <= high.
struct Graded {
  double value, low, high;
  std::string unit;
  std::string source;
  char grade;
};

/// `parameters` feed the law; `properties` (density, hardness, crush stress ...) are facts that no law reads.
struct Entry {
  std::string id;
  std::vector<std::string> aliases;
  std::vector<Kind> kinds;
  std::string law;
  std::string surface;  ///< friction class, empty when it never touches anything
  std::string source;
  char grade;
  std::string note;
  std::map<std::string, Graded, std::less<>> parameters;
  std::map<std::string, Graded, std::less<>> properties;
};

/// Coulomb coefficient between two friction classes (in either order).
struct Friction {
  std::string a, b;
  Graded mu;
};

struct Catalogue {
  std::vector<Entry> entries;
  std::vector<Friction> friction;
};

/// One clear message: file, line, entry, key, what is wrong and what is allowed.
struct CatalogueError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// The folder materials/ of the source tree this was built from, or "materials" when that is gone.
[[nodiscard]] std::filesystem::path data_directory();

/// Reads every *.toml of a folder in order of name. Throws CatalogueError on the first fault.
[[nodiscard]] Catalogue load_catalogue(const std::filesystem::path& folder = data_directory() / "catalogue");

/// Adds the content of one TOML text; `name` stands for the file in messages. Throws CatalogueError.
void read_catalogue(std::string_view text, const std::string& name, Catalogue& catalogue);

/// Entry by id or alias (case ignored), or null.
[[nodiscard]] const Entry* find(const Catalogue& catalogue, std::string_view id);

/// Id nearest in spelling among the entries of a kind.
[[nodiscard]] std::string nearest_id(const Catalogue& catalogue, std::string_view id);
[[nodiscard]] std::string nearest_id(const Catalogue& catalogue, std::string_view id, Kind kind);

[[nodiscard]] bool serves(const Entry& entry, Kind kind);
[[nodiscard]] std::string_view name_of(Kind kind);

/// Friction between the surfaces of two entries or two friction classes, or null when the catalogue has no value.
[[nodiscard]] const Friction* find_friction(const Catalogue& catalogue, std::string_view a, std::string_view b);

/// True when the entry is a solid: law_of may be called ("cable" and "rigid" entries are not solids).
[[nodiscard]] bool is_solid(const Entry& entry);

/// The law with the entry's parameter values; a fibre law takes its direction [rad] from the body, not the catalogue.
/// Throws CatalogueError when the entry is no solid or its values are not admissible together.
[[nodiscard]] Material law_of(const Entry& entry, double fibre_angle = 0);

}  // namespace hoofload::materials
