#include "viz/profile_figure.hpp"

namespace hoofload::viz {

std::string profile_figure(const ProfileFigure& figure) {
  const bool along_foot = figure.along == ProfileAlong::behind_toe;
  CurveFigure curves{.heading = figure.heading,
                     .x = {along_foot ? "behind the toe, mm" : "radius, mm"},
                     .y = {"pressure on the sole, kPa"},
                     .x_growing = along_foot ? Growing::leftwards : Growing::rightwards,
                     .curves = {},
                     .landmarks = figure.landmarks};
  for (const auto& profile : figure.profiles) curves.curves.push_back({profile.option, profile.x, profile.pressure});
  return curve_figure(curves);
}

}  // namespace hoofload::viz
