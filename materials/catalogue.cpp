#include "materials/catalogue.hpp"

#include <algorithm>

#include "materials/catalogue_keys.hpp"
#include "materials/nearest_name.hpp"

namespace hoofload::materials {
namespace {

bool same_name(std::string_view a, std::string_view b) { return a.size() == b.size() && edit_distance(a, b) == 0; }

constexpr std::array<std::pair<Kind, std::string_view>, 5> kinds{{
    {Kind::tissue, "tissue"},
    {Kind::shoe, "shoe"},
    {Kind::pad, "pad"},
    {Kind::packing, "packing"},
    {Kind::ground, "ground"},
}};

}  // namespace

std::string_view name_of(Kind kind) {
  return std::find_if(kinds.begin(), kinds.end(), [&](const auto& k) { return k.first == kind; })->second;
}

std::filesystem::path data_directory() {
#ifdef HOOFLOAD_DATA_DIR
  const std::filesystem::path built_from = HOOFLOAD_DATA_DIR;
  for (const auto& folder : {built_from / "materials", built_from}) {
    if (std::filesystem::is_directory(folder / "catalogue")) return folder;
  }
#endif
  return "materials";
}

const Entry* find(const Catalogue& catalogue, std::string_view id) {
  for (const Entry& entry : catalogue.entries) {
    if (same_name(entry.id, id)) return &entry;
    for (const std::string& alias : entry.aliases) {
      if (same_name(alias, id)) return &entry;
    }
  }
  return nullptr;
}

std::string nearest_id(const Catalogue& catalogue, std::string_view id) {
  std::vector<std::string> ids;
  for (const Entry& entry : catalogue.entries) ids.push_back(entry.id);
  return nearest_name(id, ids);
}

std::string nearest_id(const Catalogue& catalogue, std::string_view id, Kind kind) {
  std::vector<std::string> ids;
  for (const Entry& entry : catalogue.entries) {
    if (serves(entry, kind)) ids.push_back(entry.id);
  }
  return nearest_name(id, ids);
}

bool serves(const Entry& entry, Kind kind) {
  return std::find(entry.kinds.begin(), entry.kinds.end(), kind) != entry.kinds.end();
}

const Friction* find_friction(const Catalogue& catalogue, std::string_view a, std::string_view b) {
  const auto surface = [&](std::string_view name) {
    const Entry* entry = find(catalogue, name);
    return entry && !entry->surface.empty() ? std::string(entry->surface) : std::string(name);
  };
  const std::string first = surface(a), second = surface(b);
  for (const Friction& pair : catalogue.friction) {
    if ((pair.a == first && pair.b == second) || (pair.a == second && pair.b == first)) return &pair;
  }
  return nullptr;
}

}  // namespace hoofload::materials
