// Catalogue ids of a case turned into laws, with the case's own overrides and hardnesses applied.
#pragma once

#include <optional>
#include <string_view>

#include "materials/catalogue.hpp"
#include "scenarios/case.hpp"
#include "solver/solid.hpp"

namespace hoofload::scenarios {

/// A law and the way an element of it is best built.
struct ChosenMaterial {
  materials::Material law;
  solver::Formulation formulation;
};

class CaseMaterials {
 public:
  CaseMaterials(const materials::Catalogue& catalogue, const Case& run) : catalogue_(catalogue), run_(run) {}

  /// Law of a catalogue id. `hardness` [Shore A] replaces its modulus by Gent's relation at the entry's own kappa.
  /// Throws materials::CatalogueError for an unknown id.
  [[nodiscard]] ChosenMaterial material(std::string_view id, std::optional<double> hardness = {}) const;

  /// The packing's law after its rest, Eq. (96). Throws materials::CatalogueError when it has rested and the catalogue
  /// does not say how it relaxes.
  [[nodiscard]] ChosenMaterial packing() const;

  /// Coefficient between two entries or surface classes.
  [[nodiscard]] double friction(std::string_view a, std::string_view b, double otherwise) const;

  /// Young's modulus and Poisson's ratio at small strain of an isotropic law (plates and strips).
  struct SmallStrain {
    double E, nu;
  };
  [[nodiscard]] SmallStrain small_strain(std::string_view id, std::optional<double> hardness = {}) const;

  /// One parameter of an entry, in the house unit.
  [[nodiscard]] double parameter(std::string_view id, std::string_view name) const;

  /// One of its facts that no law reads, in the house unit; none if the entry has no such fact.
  [[nodiscard]] std::optional<double> property(std::string_view id, std::string_view name) const;

 private:
  const materials::Catalogue& catalogue_;
  const Case& run_;
};

}  // namespace hoofload::scenarios
