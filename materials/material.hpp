// The closed set of laws. Visit it once per element block, never per quadrature point.
#pragma once

#include <variant>

#include "materials/compressible_neo_hooke.hpp"
#include "materials/linear_isotropic.hpp"
#include "materials/linear_transverse.hpp"
#include "materials/neo_hooke.hpp"
#include "materials/saint_venant_kirchhoff.hpp"
#include "materials/transverse_kirchhoff.hpp"
#include "materials/volumetric_split.hpp"
#include "materials/yeoh.hpp"

namespace hoofload::materials {

using Material = std::variant<LinearIsotropic, LinearTransverse, SaintVenantKirchhoff, TransverseKirchhoff,
                              CompressibleNeoHooke, NeoHooke, Yeoh>;

}  // namespace hoofload::materials
