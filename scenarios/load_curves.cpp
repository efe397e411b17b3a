#include "scenarios/load_curves.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace hoofload::scenarios {

namespace {

struct Row {
  double normal, tangential, cop, extension_deg;
};

// Steps of 10 % of stance, 0 to 100 %.
constexpr std::array<Row, 11> kWalk{{{0, 0, -18, 0},
                                     {3.6, -.60, -10, -3},
                                     {5.4, -.85, -4, -5},
                                     {5.5, -.65, 0, -4},
                                     {5.1, -.35, 4, -2},
                                     {5.2, -.05, 8, 1},
                                     {5.8, .25, 12, 5},
                                     {6.3, .55, 17, 10},
                                     {5.6, .75, 24, 15},
                                     {2.6, .50, 50, 8},
                                     {0, 0, 79, -12}}};
constexpr std::array<Row, 11> kTrot{{{0, 0, -20, 0},
                                     {3.4, -.70, -8, -3},
                                     {6.6, -1.13, 2, -6},
                                     {9.3, -1.00, 8, -5},
                                     {11.1, -.60, 11, -1},
                                     {11.5, -.10, 13, 3},
                                     {10.6, .35, 15, 8},
                                     {8.4, .72, 16.5, 12},
                                     {5.3, .84, 22, 14},
                                     {2.0, .45, 56, 5},
                                     {0, 0, 79, -15}}};

}  // namespace

LoadPoint stance_point(Gait gait, double fraction) {
  const auto& table = gait == Gait::walk ? kWalk : kTrot;
  const double at = std::clamp(fraction, 0.0, 1.0) * 10;
  const auto i = std::min<std::size_t>(static_cast<std::size_t>(at), 9);
  const double t = at - static_cast<double>(i);
  const Row &a = table[i], &b = table[i + 1];
  return {std::lerp(a.normal, b.normal, t), std::lerp(a.tangential, b.tangential, t), std::lerp(a.cop, b.cop, t),
          std::lerp(a.extension_deg, b.extension_deg, t) * mesh::degree};
}

double heel_off_fraction(Gait gait) { return gait == Gait::walk ? 0.85 : 0.86; }

}  // namespace hoofload::scenarios
