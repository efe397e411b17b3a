// Pressure on the sole of all options in one plot.
#pragma once

#include <string>
#include <vector>

#include "viz/curve_figure.hpp"

namespace hoofload::viz {

/// What the profile runs along.
enum class ProfileAlong { behind_toe, radius };

/// x [mm] behind the toe or from the axis; pressure [kPa].
struct Profile {
  std::string option;
  std::vector<double> x, pressure;
};

struct ProfileFigure {
  Heading heading;
  ProfileAlong along = ProfileAlong::behind_toe;
  std::vector<Profile> profiles;  ///< the first is the baseline
  std::vector<Landmark> landmarks;
};

/// The SVG file; the toe is at the right, as in the side view. Errors as for curve_figure.
[[nodiscard]] std::string profile_figure(const ProfileFigure& figure);

}  // namespace hoofload::viz
