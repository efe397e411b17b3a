#include "scenarios/stance_events.hpp"

#include <algorithm>

#include "scenarios/stance_smooth.hpp"

namespace hoofload::scenarios {

namespace {

constexpr double kHeelShare = 0.01;  ///< of the load, Eq. (66)
constexpr double kTouchesAbove = 1;  ///< kPa, as for the contact area
constexpr double kWraps = 1e-6;      ///< rad

void add(StanceSeries& series, std::string_view name, const std::optional<double>& share) {
  if (share) series.events.push_back({std::string(name), *share});
}

}  // namespace

void add_events(StanceSeries& series) {
  if (series.steps.size() < 2) return;
  const std::vector<double> shares = shares_of(series);
  const auto curve = [&](auto&& value) {
    std::vector<double> y;
    for (const StanceStep& step : series.steps) y.push_back(value(step));
    return smooth_curve(shares, std::move(y));
  };
  if (series.steps.front().wrap > 0) {
    const SmoothCurve stretch = curve([](const StanceStep& s) { return s.stretch; });
    add(series, kTaut, first_crossing(stretch, 0, Crossing::rising));
    add(series, kSlack, last_crossing(stretch, 0, Crossing::falling));
    const SmoothCurve heel = curve([](const StanceStep& s) { return s.heel_share; });
    add(series, kHeelOff, last_crossing(heel, kHeelShare, Crossing::falling));
    add(series, kWrapEnd, first_crossing(curve([](const StanceStep& s) { return s.wrap; }), kWraps, Crossing::falling));
  }
  const SmoothCurve sole = curve([](const StanceStep& s) {
    const auto it = s.values.find("sole_pressure_peak");
    return it == s.values.end() ? 0 : it->second;
  });
  add(series, kSoleCloses, first_crossing(sole, kTouchesAbove, Crossing::rising));
  add(series, kSoleOpens, last_crossing(sole, kTouchesAbove, Crossing::falling));
  std::stable_sort(series.events.begin(), series.events.end(),
                   [](const StanceEvent& a, const StanceEvent& b) { return a.share < b.share; });
}

bool has_event(const StanceSeries& series, std::string_view name) {
  return std::any_of(series.events.begin(), series.events.end(), [&](const StanceEvent& e) { return e.name == name; });
}

}  // namespace hoofload::scenarios
