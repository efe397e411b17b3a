// Scalar laws of interactions: energy phi(q), force phi'(q), stiffness phi''(q). A measure of motion q [mm] times a law
// is an interaction (theory.md, interactions). Forces in N, stiffness in N/mm.
#pragma once

#include <algorithm>
#include <cmath>

namespace hoofload::solver {

struct LawValue {
  double energy = 0, force = 0, stiffness = 0;
};

/// phi = 1/2 k q^2 + f0 q: a two-sided spring, with preload f0 (a tensile preload resists opening q > 0).
struct TwoSided {
  double k = 0, preload = 0;
};

/// phi = 1/2 k <-q>^2: resists closing below q = 0 only (a gap).
struct OneSided {
  double k = 0;
};

/// phi = 1/2 k q^2 for |q| < bound/k, else bound (|q| - bound/2k): an elastic stick that slips at a given bound (Tresca).
struct StickSlip {
  double k = 0, bound = 0;
};

[[nodiscard]] inline LawValue value(const TwoSided& law, double q) {
  return {0.5 * law.k * q * q + law.preload * q, law.k * q + law.preload, law.k};
}

[[nodiscard]] inline LawValue value(const OneSided& law, double q) {
  if (q > 0) return {};  // touching counts as closed: a first step that presses then meets the stiffness that it will
  return {0.5 * law.k * q * q, law.k * q, law.k};
}

[[nodiscard]] inline LawValue value(const StickSlip& law, double q) {
  if (law.bound <= 0) return {};
  const double stick = law.bound / law.k;
  if (std::abs(q) <= stick) return {0.5 * law.k * q * q, law.k * q, law.k};
  // A trace of stiffness keeps a fully slipping body determinate; it carries less than 1e-6 of the bound.
  return {law.bound * (std::abs(q) - 0.5 * stick), std::copysign(law.bound, q), 1e-9 * law.k};
}

}  // namespace hoofload::solver
