// Marks drawn over a section: force arrows, a cable with its tension, a pressure ribbon, the ground, scale bars, and
// the keys that explain them.
#pragma once

#include <string>
#include <vector>

#include "viz/frame.hpp"
#include "viz/labels.hpp"
#include "viz/scale.hpp"

namespace hoofload::viz {

/// A force [N] acting at a point [mm]; drawn from that point along the force.
struct ForceArrow {
  std::string name;
  Vec2 at, force;
};

/// A cable under tension [N] along a path [mm] from its insertion; the arrow head is at the far end.
struct CablePath {
  std::string name;
  std::vector<Vec2> path;
  double tension = 0;
};

/// Contact pressure [kPa] at points [mm] along a surface walked with its body on the left; nonpositive: no contact.
struct PressureRibbon {
  std::vector<Vec2> at;
  std::vector<double> pressure;
};

/// A straight ground through a point [mm] along a direction; the foot is on its left.
struct GroundLine {
  Vec2 point{0, 0}, direction{1, 0};
};

/// An SVG piece, the labels that belong to it and the boxes it takes, for the placement of labels.
struct Mark {
  std::string drawing;
  std::vector<Label> labels;
  std::vector<Box> taken;
};

[[nodiscard]] Mark force_arrow(const ForceArrow& arrow, double mm_per_newton, const View& view);
[[nodiscard]] Mark cable(const CablePath& path, const View& view);
/// Pressure p stands off the surface by mm_per_kpa p. Throws std::invalid_argument if the lists differ in length.
[[nodiscard]] Mark ribbon(const PressureRibbon& profile, double mm_per_kpa, const View& view);
[[nodiscard]] std::string ground(const GroundLine& line, const View& view);
/// A bar of a round length in the lower left corner of the view, with "deformation × s" beside it.
[[nodiscard]] Mark scale_bar(double deformation_scale, const View& view);

/// An arrow head with its tip at a point [px], pointing along a direction.
[[nodiscard]] std::string arrow_head(const Vec2& tip, const Vec2& direction, double size, const std::string& colour);

inline constexpr const char* force_colour = "#004b87";
inline constexpr const char* cable_colour = "#0b5d3b";
inline constexpr const char* ribbon_colour = "#1b6f9c";

}  // namespace hoofload::viz
