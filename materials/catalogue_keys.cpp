#include "materials/catalogue_keys.hpp"

#include <algorithm>
#include <array>
#include <numbers>

#include "materials/hardness.hpp"

namespace hoofload::materials {
namespace {

constexpr std::array<KeyRule, 14> parameters{{
    {"E", "MPa", 0, unbounded, "Young's modulus"},
    {"nu", "1", -1, 0.5, "Poisson's ratio"},
    {"mu", "MPa", 0, unbounded, "shear modulus"},
    {"lambda", "MPa", -1e-300, unbounded, "first Lame constant"},
    {"kappa", "MPa", 0, unbounded, "bulk modulus"},
    {"shore_a", "ShoreA", 0, 100, "Shore A hardness, turned into E by Gent 1958"},
    {"C10", "MPa", 0, unbounded, "Yeoh's first constant"},
    {"C20", "MPa", -1e-300, unbounded, "Yeoh's second constant"},
    {"E_L", "MPa", 0, unbounded, "Young's modulus along the fibre"},
    {"E_T", "MPa", 0, unbounded, "Young's modulus across the fibre"},
    {"nu_LT", "1", -1, 10, "contraction across per stretch along the fibre"},
    {"nu_TT", "1", -1, 1, "Poisson's ratio across the fibre"},
    {"G_LT", "MPa", 0, unbounded, "shear modulus along the fibre"},
    {"area", "mm^2", 0, unbounded, "cross-section"},
}};

constexpr std::array<KeyRule, 8> properties{{
    {"density", "kg/m^3", 0, 30000, "density"},
    {"shore_a", "ShoreA", 0, 100, "nominal hardness"},
    {"area", "mm^2", 0, unbounded, "cross-section"},
    {"relaxation_per_decade", "1", 0, 1, "modulus lost per decade of time"},
    {"loss_tangent", "1", 0, 10, "tan delta at 1-10 Hz"},
    {"crush_stress", "MPa", 0, unbounded, "plateau of crushing"},
    {"yield_stress", "MPa", 0, unbounded, "yield or tensile strength"},
    {"punch_stiffness", "N/mm", 0, unbounded, "load per settlement of a rigid punch of 65 mm radius"},
}};

struct Unit {
  std::string_view name, house;
  double factor;
};

constexpr std::array<Unit, 15> units{{
    {"MPa", "MPa", 1},
    {"N/mm^2", "MPa", 1},
    {"kPa", "MPa", 1e-3},
    {"GPa", "MPa", 1e3},
    {"1", "1", 1},
    {"%", "1", 1e-2},
    {"ShoreA", "ShoreA", 1},
    {"mm^2", "mm^2", 1},
    {"cm^2", "mm^2", 100},
    {"kg/m^3", "kg/m^3", 1},
    {"N/mm", "N/mm", 1},
    {"kN/mm", "N/mm", 1e3},
    {"g/cm^3", "kg/m^3", 1e3},
    {"rad", "rad", 1},
    {"deg", "rad", std::numbers::pi / 180},
}};

double value(const Entry& entry, std::string_view key) { return entry.parameters.find(key)->second.value; }

template <class Law>
Material hooke_law(const Entry& e, double) {
  return Law{value(e, "E"), value(e, "nu")};
}

template <class Law>
Material fibre_law(const Entry& e, double angle) {
  return Law{value(e, "E_L"), value(e, "E_T"), value(e, "nu_LT"), value(e, "nu_TT"), value(e, "G_LT"), angle};
}

Material compressible_from_E_nu(const Entry& e, double) {
  const Lame m = lame(value(e, "E"), value(e, "nu"));
  return CompressibleNeoHooke{m.mu, m.lambda};
}

Material compressible_from_lame(const Entry& e, double) {
  return CompressibleNeoHooke{value(e, "mu"), value(e, "lambda")};
}

Material neo_hooke_from_moduli(const Entry& e, double) { return NeoHooke{value(e, "mu"), value(e, "kappa")}; }

Material neo_hooke_from_E_nu(const Entry& e, double) {
  const LinearIsotropic small{value(e, "E"), value(e, "nu")};
  return NeoHooke{mu0(small), kappa0(small)};
}

Material neo_hooke_from_E_kappa(const Entry& e, double) {
  return NeoHooke{shear_modulus(value(e, "E"), value(e, "kappa")), value(e, "kappa")};
}

Material neo_hooke_from_hardness(const Entry& e, double) {
  return NeoHooke{shear_modulus(gent_modulus(value(e, "shore_a")).E, value(e, "kappa")), value(e, "kappa")};
}

Material yeoh_law(const Entry& e, double) { return Yeoh{value(e, "C10"), value(e, "C20"), value(e, "kappa")}; }

/// One way to make a law: these keys, no others. build is null for what is not a solid.
struct Recipe {
  std::string_view law;
  std::vector<std::string_view> keys;
  Material (*build)(const Entry&, double);
};

const std::array<Recipe, 13>& recipes() {
  static const std::vector<std::string_view> fibre{"E_L", "E_T", "nu_LT", "nu_TT", "G_LT"};
  static const std::array<Recipe, 13> all{{
      {LinearIsotropic::name, {"E", "nu"}, hooke_law<LinearIsotropic>},
      {SaintVenantKirchhoff::name, {"E", "nu"}, hooke_law<SaintVenantKirchhoff>},
      {LinearTransverse::name, fibre, fibre_law<LinearTransverse>},
      {TransverseKirchhoff::name, fibre, fibre_law<TransverseKirchhoff>},
      {CompressibleNeoHooke::name, {"E", "nu"}, compressible_from_E_nu},
      {CompressibleNeoHooke::name, {"mu", "lambda"}, compressible_from_lame},
      {NeoHooke::name, {"mu", "kappa"}, neo_hooke_from_moduli},
      {NeoHooke::name, {"E", "nu"}, neo_hooke_from_E_nu},
      {NeoHooke::name, {"E", "kappa"}, neo_hooke_from_E_kappa},
      {NeoHooke::name, {"shore_a", "kappa"}, neo_hooke_from_hardness},
      {Yeoh::name, {"C10", "C20", "kappa"}, yeoh_law},
      {"cable", {"E", "area"}, nullptr},
      {"rigid", {}, nullptr},
  }};
  return all;
}

bool fits(const Recipe& recipe, const Entry& entry) {
  return entry.parameters.size() == recipe.keys.size() &&
         std::all_of(recipe.keys.begin(), recipe.keys.end(),
                     [&](std::string_view key) { return entry.parameters.contains(key); });
}

const Recipe* find_recipe(const Entry& entry) {
  for (const Recipe& recipe : recipes()) {
    if (recipe.law == entry.law && fits(recipe, entry)) return &recipe;
  }
  return nullptr;
}

std::string joined(const std::vector<std::string_view>& words) {
  std::string text;
  for (std::string_view word : words) text.append(text.empty() ? "" : ", ").append(word);
  return text;
}

/// What the ranges of single parameters cannot see.
std::string stability_error(const Material& material) {
  return std::visit(
      [](const auto& law) -> std::string {
        if constexpr (requires { law.E_L; }) {
          if (!is_stable(law.E_L, law.E_T, law.nu_LT, law.nu_TT)) {
            return "E_L, E_T, nu_LT, nu_TT give a negative energy: |nu_LT| < sqrt(E_L/E_T) and "
                   "1 - nu_TT - 2 nu_LT^2 E_T/E_L > 0 are needed";
          }
        }
        return range_error(law);
      },
      material);
}

}  // namespace

std::span<const KeyRule> parameter_rules() { return parameters; }
std::span<const KeyRule> property_rules() { return properties; }

const KeyRule* find_rule(std::span<const KeyRule> rules, std::string_view key) {
  const auto rule = std::find_if(rules.begin(), rules.end(), [&](const KeyRule& r) { return r.key == key; });
  return rule == rules.end() ? nullptr : &*rule;
}

std::optional<double> conversion(std::string_view unit, std::string_view house_unit) {
  for (const Unit& u : units) {
    if (u.name == unit && u.house == house_unit) return u.factor;
  }
  return std::nullopt;
}

std::string units_for(std::string_view house_unit) {
  std::vector<std::string_view> names;
  for (const Unit& u : units) {
    if (u.house == house_unit) names.push_back(u.name);
  }
  return joined(names);
}

std::vector<std::string> law_names() {
  std::vector<std::string> names;
  for (const Recipe& recipe : recipes()) {
    if (names.empty() || names.back() != recipe.law) names.emplace_back(recipe.law);
  }
  return names;
}

std::string recipe_error(const Entry& entry) {
  if (const Recipe* recipe = find_recipe(entry)) {
    return recipe->build ? stability_error(recipe->build(entry, 0)) : std::string{};
  }
  std::string allowed;
  for (const Recipe& recipe : recipes()) {
    if (recipe.law == entry.law) allowed.append(allowed.empty() ? "" : " or ").append("{" + joined(recipe.keys) + "}");
  }
  return "parameters of law \"" + entry.law + "\" must be exactly " + allowed;
}

bool is_solid(const Entry& entry) {
  const Recipe* recipe = find_recipe(entry);
  return recipe && recipe->build;
}

Material law_of(const Entry& entry, double fibre_angle) {
  const Recipe* recipe = find_recipe(entry);
  if (!recipe) throw CatalogueError("material \"" + entry.id + "\": " + recipe_error(entry));
  if (!recipe->build) {
    throw CatalogueError("material \"" + entry.id + "\": \"" + entry.law + "\" is not a solid and has no stress");
  }
  const Material material = recipe->build(entry, fibre_angle);
  if (const std::string error = stability_error(material); !error.empty()) {
    throw CatalogueError("material \"" + entry.id + "\": " + error);
  }
  return material;
}

}  // namespace hoofload::materials
