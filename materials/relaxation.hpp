// Creep of a filling as the modulus that is left of a law some time after it was deformed, Eqs. (95), (96).
#pragma once

#include <cmath>
#include <variant>

#include "materials/material.hpp"

namespace hoofload::materials {

/// Share of the first second's modulus that is left after `time` [s] when every decade takes the same fraction of what is
/// there. To first order in the fraction this is the log law 1 - r log10(1 + t), which would leave nothing after 1/r
/// decades. 1 at time 0. Source: log relaxation of elastomers, class values of the catalogue.
[[nodiscard]] inline double relaxed_share(double per_decade, double time) {
  return std::pow(1 - per_decade, std::log10(1 + time));
}

/// The law after a step strain has been held until that share is left. A nearly incompressible law keeps its bulk modulus
/// (only shear relaxes); a compressible one loses all moduli alike, so that Poisson's ratio stays.
[[nodiscard]] inline Material relaxed(Material material, double share) {
  std::visit(
      [share](auto& law) {
        if constexpr (requires { law.kappa, law.mu; }) {
          law.mu *= share;
        } else if constexpr (requires { law.C10; }) {
          law.C10 *= share;
          law.C20 *= share;
        } else if constexpr (requires { law.lambda, law.mu; }) {
          law.mu *= share;
          law.lambda *= share;
        } else if constexpr (requires { law.E_L; }) {
          law.E_L *= share;
          law.E_T *= share;
          law.G_LT *= share;
        } else {
          law.E *= share;
        }
      },
      material);
  return material;
}

}  // namespace hoofload::materials
