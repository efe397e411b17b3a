// Springs between weighted mean displacements: q = sum_i c_i x_i + offset, with a scalar law.
//
// The measure is linear, so force = phi'(q) c and tangent = phi''(q) c (x) c. It serves fasteners (mean displacement of a
// patch on either body), distributed couplings (one spring a station), ties of non-conforming sheets and penalty gaps.
#pragma once

#include <Eigen/Core>
#include <string>
#include <variant>
#include <vector>

#include "solver/law.hpp"

namespace hoofload::solver {

struct Coefficient {
  int dof;  ///< full dof (model.hpp numbering)
  double c;
};

using SpringLaw = std::variant<TwoSided, OneSided, StickSlip>;

struct Spring {
  std::vector<Coefficient> measure;
  double offset = 0;  ///< q at rest [mm]
  SpringLaw law;
  double ramped_preload = 0;  ///< preload at full fit-up, multiplied by the fit-up ramp [N] (TwoSided)
  int normal_partner = -1;    ///< StickSlip: index of the OneSided spring in the same group whose force bounds it
  double friction = 0;        ///< coefficient for that bound
  Eigen::Vector3d place = Eigen::Vector3d::Zero();  ///< where it acts, for reports [mm]
};

struct SpringGroup {
  std::string name;
  std::vector<Spring> springs;
};

[[nodiscard]] inline double elongation(const Spring& spring, const Eigen::VectorXd& x) {
  double q = spring.offset;
  for (const auto& [dof, c] : spring.measure) q += c * x[dof];
  return q;
}

[[nodiscard]] inline LawValue evaluate(const Spring& spring, double q, double ramp) {
  LawValue v = std::visit([q](const auto& law) { return value(law, q); }, spring.law);
  v.energy += ramp * spring.ramped_preload * q;
  v.force += ramp * spring.ramped_preload;
  return v;
}

}  // namespace hoofload::solver
