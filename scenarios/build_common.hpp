// What both section builders need: pairs with normals from the mesh, contact look-ups, fastener springs.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "mesh/plane_mesh.hpp"
#include "scenarios/case_materials.hpp"
#include "solver/model.hpp"

namespace hoofload::scenarios {

/// Outward unit normals (body on the left of the chain) of the nodes of an edge set, per node id; 0 where absent.
[[nodiscard]] std::vector<solver::Vec2> outward_normals(const mesh::PlaneMesh& mesh, const mesh::EdgeSet& set);

/// A duplicated line of the mesh as an interaction. Coincident nodes take the slave line's inward normal; nodes with a
/// gap the direction between them. Slaves in `taken` are left out; the used ones are added to it.
struct PairRequest {
  std::string name;
  solver::Bond bond = solver::Bond::contact;
  double friction = 0;
  double interference = 0;
  bool spans_distance = false;  ///< a tie of two lines that do not coincide
};
[[nodiscard]] solver::PairContact make_pair(const mesh::PlaneMesh& mesh, const PairRequest& request,
                                            std::set<int>& slaves, std::set<int>& masters);

/// Displacement component (0: x, 1: y) of a chain at x, as coefficients of its edge's three nodes; empty beyond its ends.
[[nodiscard]] std::vector<solver::Coefficient> chain_at(const solver::Model& model, const mesh::EdgeSet& chain,
                                                        double x, int component);

/// Mean of that displacement over a patch of the chain around x: on a point a section sinks without bound as it is refined.
[[nodiscard]] std::vector<solver::Coefficient> patch_mean(const solver::Model& model, const mesh::EdgeSet& chain,
                                                          double x, double width, int component);

/// Axial and lateral stiffness of one driven nail [N/mm]: its shank in tension over half its length, and a beam held
/// in horn (Hetenyi 1946: guided head on an elastic foundation of modulus E_horn), Eq. (37).
struct NailStiffness {
  double axial, lateral;
};
[[nodiscard]] NailStiffness nail_stiffness(double E_nail, double E_horn);

[[nodiscard]] bool has_packing(const Case& run);
/// Something under the void to press against: full plate, full pad (and not just bars).
[[nodiscard]] bool has_backing(const Case& run);

/// What the results of a rested packing leave out, if anything.
void add_rest_note(const Case& run, std::vector<std::string>& notes);

/// Surface class of the ground for friction: the case's own material or concrete for a rigid ground.
[[nodiscard]] std::string ground_surface(const Case& run);

}  // namespace hoofload::scenarios
