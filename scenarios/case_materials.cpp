#include "scenarios/case_materials.hpp"

#include "materials/hardness.hpp"
#include "materials/relaxation.hpp"

namespace hoofload::scenarios {

namespace {

/// Nearly incompressible laws need the mixed element; a layer of a compressible law does not.
solver::Formulation formulation_of(const materials::Material& law) {
  if (const auto* soft = std::get_if<materials::NeoHooke>(&law))
    return soft->kappa > 5 * soft->mu ? solver::Formulation::mixed : solver::Formulation::displacement;
  return solver::Formulation::displacement;
}

materials::Entry overridden(const materials::Catalogue& catalogue, const Case& run, std::string_view id) {
  const materials::Entry* entry = materials::find(catalogue, id);
  if (entry == nullptr) throw materials::CatalogueError("no material named '" + std::string(id) + "'");
  materials::Entry copy = *entry;
  for (const auto& change : run.overrides) {
    if (materials::find(catalogue, change.material) != entry) continue;
    const auto it = copy.parameters.find(change.parameter);
    if (it != copy.parameters.end()) it->second.value = change.value;
  }
  return copy;
}

}  // namespace

ChosenMaterial CaseMaterials::material(std::string_view id, std::optional<double> hardness) const {
  materials::Material law = materials::law_of(overridden(catalogue_, run_, id));
  if (hardness) {
    if (auto* soft = std::get_if<materials::NeoHooke>(&law))
      soft->mu = materials::shear_modulus(materials::gent_modulus(*hardness).E, soft->kappa);
  }
  return {law, formulation_of(law)};
}

ChosenMaterial CaseMaterials::packing() const {
  ChosenMaterial chosen = material(run_.material.packing, run_.material.packing_hardness);
  if (run_.material.packing_rested <= 0) return chosen;
  const std::optional<double> loss = property(run_.material.packing, "relaxation_per_decade");
  if (!loss)
    throw materials::CatalogueError("material '" + run_.material.packing +
                                    "' has no relaxation_per_decade, which packing.rested needs");
  const double share = materials::relaxed_share(*loss, run_.material.packing_rested);
  chosen.law = materials::relaxed(chosen.law, share);
  return {chosen.law, formulation_of(chosen.law)};
}

double CaseMaterials::friction(std::string_view a, std::string_view b, double otherwise) const {
  const materials::Friction* pair = materials::find_friction(catalogue_, a, b);
  return pair == nullptr ? otherwise : pair->mu.value;
}

CaseMaterials::SmallStrain CaseMaterials::small_strain(std::string_view id, std::optional<double> hardness) const {
  const materials::Material law = material(id, hardness).law;
  return std::visit(
      [](const auto& l) -> SmallStrain {
        if constexpr (requires {
                        mu0(l);
                        kappa0(l);
                      }) {
          const double mu = mu0(l), kappa = kappa0(l);
          return {9 * kappa * mu / (3 * kappa + mu), (3 * kappa - 2 * mu) / (6 * kappa + 2 * mu)};
        } else {
          return {l.E_L, l.nu_LT};
        }
      },
      law);
}

double CaseMaterials::parameter(std::string_view id, std::string_view name) const {
  const materials::Entry entry = overridden(catalogue_, run_, id);
  const auto it = entry.parameters.find(name);
  if (it == entry.parameters.end())
    throw materials::CatalogueError("material '" + entry.id + "' has no parameter '" + std::string(name) + "'");
  return it->second.value;
}

std::optional<double> CaseMaterials::property(std::string_view id, std::string_view name) const {
  const materials::Entry entry = overridden(catalogue_, run_, id);
  const auto it = entry.properties.find(name);
  return it == entry.properties.end() ? std::nullopt : std::optional(it->second.value);
}

}  // namespace hoofload::scenarios
