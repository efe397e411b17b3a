// The foot from the side for one option and phase: core and shoe with their field, the capsule's silhouette, bones,
// ground, contact pressure on the sole, and the forces as arrows with their sizes.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "viz/marks.hpp"
#include "viz/section.hpp"

namespace hoofload::viz {

/// A named polygon or line [mm].
struct Shape {
  std::string name;
  std::vector<Vec2> points;
};

/// All points are in the bone's frame, x forward, y up [mm]; ground, profile, arrows and silhouettes are drawn where
/// they are given, so give them as displaced by the section's own deformation_scale.
struct SideView {
  Heading heading;
  Section section;
  ColourScale scale;             ///< one for all options of a comparison
  std::optional<Window> window;  ///< the same; everything if not given

  std::vector<Vec2> outer_wall;  ///< capsule silhouette, outer face
  std::vector<Vec2> inner_wall;  ///< its inner face in the mid-plane, walked the same way
  std::vector<Vec2> coronet;
  std::vector<Shape> bones;   ///< outlines of distal phalanx, navicular bone, ...
  std::optional<Vec2> joint;  ///< coffin joint's centre of rotation

  std::optional<GroundLine> ground;
  PressureRibbon sole;             ///< pressure on the horn's outer face
  std::vector<ForceArrow> forces;  ///< the first is the ground force, at the centre of pressure
  std::vector<CablePath> cables;   ///< the deep flexor tendon

  double mm_per_newton = 0.012;  ///< one for all options
  double mm_per_kpa = 0.04;      ///< one for all options
};

/// The SVG file. Throws std::invalid_argument on lists that do not fit together or numbers that are not finite.
[[nodiscard]] std::string side_view_figure(const SideView& view);

}  // namespace hoofload::viz
