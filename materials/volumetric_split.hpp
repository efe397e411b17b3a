// Laws that are an isochoric part plus 1/2 kappa0 theta^2, which elements with an independent pressure need.
// Include the law's header first: the concept looks at what is declared for it.
#pragma once

#include "materials/response.hpp"

namespace hoofload::materials {

/// respond == respond_isochoric + 1/2 kappa0(law) theta^2, with theta in the psi slot of volumetric_strain.
template <class Law>
concept HasVolumetricSplit = requires(const Law& law, const Mat3& F) {
  respond_isochoric<PlaneComponents>(law, F);
  volumetric_strain<PlaneComponents>(law, F);
  energy_isochoric(law, F);
  theta(law, F);
  kappa0(law);
};

}  // namespace hoofload::materials
