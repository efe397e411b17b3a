#include "scenarios/stance_events.hpp"

#include <algorithm>
#include <cmath>

#include "scenarios/stance_smooth.hpp"

namespace hoofload::scenarios {

namespace {

constexpr double kHeelShare = 0.01;   ///< of the load, Eq. (66)
constexpr double kTouchesAbove = 1;   ///< kPa, as for the contact area
constexpr double kWraps = 1e-6;       ///< rad
constexpr double kShareError = 1e-4;  ///< of stance: how well an event or a timed peak is placed
constexpr double kNear = 0.1;         ///< of stance: how near a peak a step must lie
constexpr double kPlaced = 5e-4;      ///< the same for a peak whose time is told
constexpr double kLevel = 2e-3;       ///< of a peak: what its neighbours may lie below it; the parabola is better yet
constexpr double kWorthALook = 0.93;  ///< of the largest step: a lower local peak is not looked at
constexpr double kNothing = 1e-6;     ///< of any unit: nothing touches
constexpr int kMostPasses = 12, kPeakPasses = 8;

using Reading = std::function<double(const StanceStep&)>;
enum class Which { first, last };

struct Sought {
  std::string_view name;
  Reading reading;  ///< less its threshold
  Crossing sense;
  Which which;
};

void insert(StanceSeries& series, const StanceStep& step) {
  const auto place = std::lower_bound(series.steps.begin(), series.steps.end(), step.share,
                                      [](const StanceStep& s, double share) { return s.share < share; });
  if (place == series.steps.end() || place->share != step.share) series.steps.insert(place, step);
}

bool crosses(double before, double after, Crossing sense) {
  return sense == Crossing::rising ? before < 0 && after >= 0 : before >= 0 && after < 0;
}

struct Point {
  double share, value;
};

std::optional<std::pair<Point, Point>> bracket(const StanceSeries& series, const Sought& sought) {
  std::optional<std::pair<Point, Point>> found;
  for (std::size_t k = 0; k + 1 < series.steps.size(); ++k) {
    const StanceStep &a = series.steps[k], &b = series.steps[k + 1];
    const Point pa{a.share, sought.reading(a)}, pb{b.share, sought.reading(b)};
    if (!crosses(pa.value, pb.value, sought.sense)) continue;
    found = std::pair(pa, pb);
    if (sought.which == Which::first) break;
  }
  return found;
}

/// Closes the bracket on solved steps by false position, the value of an end that stays twice halved (Illinois), until a step
/// lies at the crossing as far as the bracket's slope can tell, or the bracket itself is that narrow.
double crossing(StanceSolver& solver, StanceSeries& series, const Sought& sought, Point a, Point b) {
  double fa = a.value, fb = b.value, share = a.share;
  int moved = 0;  // -1: a moved last, +1: b
  for (int pass = 0; pass < kMostPasses && b.share - a.share > kShareError; ++pass) {
    share = b.share - fb * (b.share - a.share) / (fb - fa);
    const StanceStep* step = solver.at(share);
    if (step == nullptr) break;
    insert(series, *step);
    const double f = sought.reading(*step), slope = (b.value - a.value) / (b.share - a.share);
    if (std::abs(f) <= 0.1 * kShareError * std::abs(slope)) break;
    if (crosses(f, b.value, sought.sense)) {
      a = {share, f}, fa = f;
      if (moved < 0) fb *= 0.5;
      moved = -1;
    } else {
      b = {share, f}, fb = f;
      if (moved > 0) fa *= 0.5;
      moved = 1;
    }
  }
  return share;
}

double sole_pressure(const StanceStep& s) {
  const auto it = s.values.find("sole_pressure_peak");
  return it == s.values.end() ? 0 : it->second;
}

std::vector<Sought> sought_events(const StanceSeries& series) {
  const auto sole = [](const StanceStep& s) { return sole_pressure(s) - kTouchesAbove; };
  std::vector<Sought> list{{kSoleCloses, sole, Crossing::rising, Which::first},
                           {kSoleOpens, sole, Crossing::falling, Which::last}};
  if (series.steps.front().wrap <= 0) return list;
  const auto stretch = [](const StanceStep& s) { return s.stretch; };
  const auto heel = [](const StanceStep& s) { return s.heel_share - kHeelShare; };
  const auto wrap = [](const StanceStep& s) { return s.wrap - kWraps; };
  list.push_back({kTaut, stretch, Crossing::rising, Which::first});
  list.push_back({kSlack, stretch, Crossing::falling, Which::last});
  list.push_back({kHeelOff, heel, Crossing::falling, Which::last});
  list.push_back({kWrapEnd, wrap, Crossing::falling, Which::first});
  return list;
}

double nearest_step(const StanceSeries& series, double share) {
  double least = 1;
  for (const StanceStep& step : series.steps) least = std::min(least, std::abs(step.share - share));
  return least;
}

std::size_t step_near(const std::vector<double>& x, double share) {
  const auto it = std::lower_bound(x.begin(), x.end(), share);
  return std::min(static_cast<std::size_t>(it - x.begin()), x.size() - 1);
}

double drop(const std::vector<double>& y, std::size_t k, std::size_t neighbour) {
  return std::abs(y[k] - y[neighbour]) / std::abs(y[k]);
}

/// Where the next step helps to place the peak whose largest step is k: on the parabola through it and its neighbours, but in
/// the steeper of the two gaps if that repeats a step (a kink has no parabola).
double next_place(const StanceSeries& series, const std::vector<double>& x, const std::vector<double>& y,
                  std::size_t k) {
  const double place = peak_at(x, y, k).x;
  if (nearest_step(series, place) > 0.05 * (x[k + 1] - x[k - 1])) return place;
  return 0.5 * (x[k] + (drop(y, k, k - 1) > drop(y, k, k + 1) ? x[k - 1] : x[k + 1]));
}

/// Adds steps about the local peak near a share until its neighbours are level with it.
void sharpen(StanceSolver& solver, StanceSeries& series, const std::string& key, double share, double near) {
  for (int pass = 0; pass < kPeakPasses; ++pass) {
    const std::vector<double> x = shares_of(series), y = values_of(series, key);
    std::size_t k = step_near(x, share);
    while (k + 1 < x.size() && std::abs(y[k + 1]) > std::abs(y[k])) ++k;
    while (k > 0 && std::abs(y[k - 1]) > std::abs(y[k])) --k;
    if (k == 0 || k + 1 == x.size()) return;
    share = x[k];
    const bool is_level = drop(y, k, k - 1) <= kLevel && drop(y, k, k + 1) <= kLevel;
    if (is_level && nearest_step(series, peak_at(x, y, k).x) <= near) return;
    const StanceStep* step = solver.at(next_place(series, x, y, k));
    if (step == nullptr) return;
    insert(series, *step);
  }
}

/// A curve can have two peaks of nearly the same size: the steps do not tell which is the larger.
std::vector<double> peaks_worth_a_look(const std::vector<double>& x, const std::vector<double>& y) {
  std::vector<double> shares;
  double largest = 0;
  for (double v : y) largest = std::max(largest, std::abs(v));
  if (largest < kNothing) return {};
  for (std::size_t k = 1; k + 1 < y.size(); ++k) {
    const double v = std::abs(y[k]);
    if (v >= std::abs(y[k - 1]) && v >= std::abs(y[k + 1]) && v >= kWorthALook * largest) shares.push_back(x[k]);
  }
  return shares;
}

void sharpen_all(StanceSolver& solver, StanceSeries& series, const std::string& key, double near) {
  for (double share : peaks_worth_a_look(shares_of(series), values_of(series, key)))
    sharpen(solver, series, key, share, near);
}

}  // namespace

void find_end(StanceSolver& solver, StanceSeries& series, double beyond) {
  if (series.steps.empty()) return;
  double last = series.steps.back().share;
  while (beyond - last > kShareError) {
    const double middle = 0.5 * (last + beyond);
    const StanceStep* step = solver.at(middle);
    (step != nullptr ? last : beyond) = middle;
    if (step != nullptr) insert(series, *step);
  }
  series.events.push_back({std::string(kTopples), last});
}

void find_events(StanceSolver& solver, StanceSeries& series) {
  if (series.steps.size() < 2) return;
  for (const Sought& sought : sought_events(series))
    if (const auto found = bracket(series, sought))
      series.events.push_back(
          {std::string(sought.name), crossing(solver, series, sought, found->first, found->second)});
  std::stable_sort(series.events.begin(), series.events.end(),
                   [](const StanceEvent& a, const StanceEvent& b) { return a.share < b.share; });
}

void refine_peaks(StanceSolver& solver, StanceSeries& series) {
  for (const std::string& key : series_keys())
    sharpen_all(solver, series, key, key == "ddft_moment" || key == "navicular_force" ? kPlaced : kNear);
}

bool has_event(const StanceSeries& series, std::string_view name) {
  return std::any_of(series.events.begin(), series.events.end(), [&](const StanceEvent& e) { return e.name == name; });
}

}  // namespace hoofload::scenarios
