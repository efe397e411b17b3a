// The couplings of the sagittal model between its plane core and its space capsule: white line, bearing, nails, and the
// two places where a plane sheet meets the shoe's toe. All as springs between weighted displacements (docs/theory.md 8, 9).
#pragma once

#include <map>

#include "mesh/capsule_shell.hpp"
#include "mesh/sagittal_section.hpp"
#include "scenarios/build_common.hpp"

namespace hoofload::scenarios {

struct SagittalParts {
  const Case& run;
  const CaseMaterials& materials;
  const mesh::SagittalSection& section;
  const mesh::CapsuleShell& shell;
  double white_line_constant;  ///< c_b of Eq. (34)
};

/// Length along x that belongs to each node of a chain [mm] (Simpson: 1/6, 2/3, 1/6 of an edge).
[[nodiscard]] std::map<int, double> lengths_along_x(const solver::Model& model, const mesh::EdgeSet& chain);

/// Sole's middle line to the wall's inner face, Eqs. (34)-(35): vertical by the plate strip across the foot, along x by
/// its shear, and across (z, capsule only) by its stretch. Per length, both sides together.
[[nodiscard]] solver::SpringGroup white_line(const solver::Model& model, const SagittalParts& parts);

/// Wall's bearing face on the shoe (or pad), Eq. (36): one-sided normal springs and stick-slip springs at the face's
/// quadrature points that stand on iron; two-sided when glued.
[[nodiscard]] solver::SpringGroup bearing(const solver::Model& model, const SagittalParts& parts);

/// Nails (or a tape's band): y, x and z springs per station of both branches, Eqs. (37)-(38).
[[nodiscard]] solver::SpringGroup nails(const solver::Model& model, const SagittalParts& parts);

/// Plate to the branches it is one piece with: a strip clamped at both ends, across the shoe's opening W: vertical
/// 720 E' t^3 / 12 W^3 (mean deflection under a uniform load), along x 12 G t / W. Per length, both sides together.
[[nodiscard]] solver::SpringGroup plate_in_shoe(const solver::Model& model, const SagittalParts& parts);

/// Span of a full pad between the branches that clamp its rim: the same strip, of the pad.
[[nodiscard]] solver::SpringGroup pad_in_shoe(const solver::Model& model, const SagittalParts& parts);

/// Sole over the web at the toe, one-sided; `nodes` receives the sole node of each spring.
[[nodiscard]] solver::SpringGroup sole_on_web(const solver::Model& model, const SagittalParts& parts,
                                              std::vector<int>& nodes);

/// The packing's front end against the shoe's toe.
[[nodiscard]] solver::SpringGroup packing_front(const solver::Model& model, const SagittalParts& parts);

/// A free filling with nothing beside it could slide along the foot without end: a soft hold along x (docs/theory.md, 18).
[[nodiscard]] solver::SpringGroup packing_hold(const solver::Model& model, const SagittalParts& parts);

}  // namespace hoofload::scenarios
