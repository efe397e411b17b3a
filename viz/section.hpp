// A plane mesh drawn in its deformed state: regions in quiet tones, a nodal field as outlined bands over some of them,
// region outlines, and the unloaded outline dashed. The part that all pictures of a section share.
#pragma once

#include <string>
#include <vector>

#include "mesh/plane_mesh.hpp"
#include "viz/frame.hpp"
#include "viz/scale.hpp"

namespace hoofload::viz {

/// `mesh` must outlive the section. u: displacement per node [mm], empty for none. field: per node, in the unit of the
/// colour scale, read only in the nodes of `field_regions`; empty for no field.
struct Section {
  const mesh::PlaneMesh* mesh = nullptr;
  std::vector<Vec2> u;
  double deformation_scale = 1;
  std::vector<double> field;
  std::vector<std::string> field_regions;
  std::vector<std::string> hidden_regions;  ///< not drawn at all
};

/// X + deformation_scale u [mm]. Throws std::invalid_argument without a mesh or if u has the wrong length.
[[nodiscard]] std::vector<Vec2> drawn_positions(const Section& section);

/// Smallest and largest field value in the field's regions; {0, 0} without a field.
struct FieldRange {
  double low, high;
};
[[nodiscard]] FieldRange field_range(const Section& section);

/// Names of the regions that are drawn, in the order of the mesh, each once.
[[nodiscard]] std::vector<std::string> drawn_regions(const Section& section);
/// True if the region shows the field.
[[nodiscard]] bool shows_field(const Section& section, const std::string& region);

/// The drawing, placed at x (deformed places, possibly mirrored or moved by the caller) [mm].
/// Throws std::invalid_argument if the field has holes in its regions.
[[nodiscard]] std::string drawn_section(const Section& section, const std::vector<Vec2>& x, const ColourScale& scale,
                                        const View& view);

/// Dashed outline of the whole body at the places x [mm].
[[nodiscard]] std::string dashed_outline(const Section& section, const std::vector<Vec2>& x, const View& view);

}  // namespace hoofload::viz
