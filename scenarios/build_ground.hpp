// A deformable ground under either model: its law from the catalogue's modulus and the case's depth, and the area of each
// node's column (theory.md, deformable ground).
#pragma once

#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "mesh/plane_mesh.hpp"
#include "scenarios/case_materials.hpp"
#include "solver/interactions/bed.hpp"
#include "solver/kinematics.hpp"

namespace hoofload::scenarios {

[[nodiscard]] inline bool on_bed(const Case& run) { return run.ground.type == GroundType::elastic; }

/// Radius of the circle with the area of the foot's plan, taken as an ellipse [mm].
[[nodiscard]] double plan_radius(const mesh::Foot& foot);

/// Pressure per depth of a layer of modulus E and thickness h on a rigid base under a footprint of radius a [MPa/mm],
/// Eq. (97): a half-space under a rigid punch and a thin layer under a uniform pressure, added.
[[nodiscard]] double bed_stiffness(double E, double nu, double h, double a);

/// The bed of a case with ground.type = "elastic". Throws materials::CatalogueError for an unknown or a rigid material.
[[nodiscard]] solver::ColumnBed ground_bed(const Case& run, const CaseMaterials& materials);

/// Columns [mm^2] of the nodes of some faces, by their extent along x. Edges of which a node is in `taken` have none: what lies
/// under them is not the ground. `open` is the share of a face's breadth at x that looks at the ground.
[[nodiscard]] std::map<int, double> column_areas(const mesh::PlaneMesh& mesh, const std::vector<std::string>& faces,
                                                 solver::Symmetry symmetry, const std::set<int>& taken,
                                                 const std::function<double(const std::string& face, double x)>& open);

}  // namespace hoofload::scenarios
