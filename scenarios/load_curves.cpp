#include "scenarios/load_curves.hpp"

#include <array>

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

LoadCurve built_in_curve(Gait gait) {
  const auto& table = gait == Gait::walk ? kWalk : kTrot;
  std::vector<double> share, normal, tangential, cop, extension;
  for (std::size_t k = 0; k < table.size(); ++k) {
    share.push_back(static_cast<double>(k) / 10);
    normal.push_back(table[k].normal);
    tangential.push_back(table[k].tangential);
    cop.push_back(table[k].cop);
    extension.push_back(table[k].extension_deg * mesh::degree);
  }
  return {smooth_curve(share, normal), smooth_curve(share, tangential), smooth_curve(share, cop),
          smooth_curve(share, extension)};
}

std::vector<double> times(std::vector<double> values, double factor, double shift) {
  for (double& v : values) v = v * factor + shift;
  return values;
}

}  // namespace

LoadCurve load_curve(const Case& run) {
  LoadCurve curve = built_in_curve(run.load.gait);
  const LoadTable& t = run.load.table;
  if (t.share.empty()) return curve;
  const double per_kg = t.per_mass ? 1 : 1 / run.horse.mass;
  curve.normal = smooth_curve(t.share, times(t.normal, per_kg, 0));
  curve.tangential = smooth_curve(t.share, times(t.tangential, per_kg, 0));
  curve.extension = smooth_curve(t.share, times(t.pastern, 1, -run.foot.pastern_angle));
  return curve;
}

LoadPoint point_of(const LoadCurve& curve, double share) {
  return {value_at(curve.normal, share), value_at(curve.tangential, share), value_at(curve.cop, share),
          value_at(curve.extension, share)};
}

LoadPoint stance_point(const Case& run, double share) { return point_of(load_curve(run), share); }

LoadPoint stance_point(Gait gait, double share) { return point_of(built_in_curve(gait), share); }

double heel_off_fraction(Gait gait) { return gait == Gait::walk ? 0.85 : 0.86; }

}  // namespace hoofload::scenarios
