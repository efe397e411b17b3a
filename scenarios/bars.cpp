#include "scenarios/bars.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace hoofload::scenarios {

namespace {

constexpr double kSizeOfValue = 0.01;                          ///< Eq. (77)
constexpr double kPartOfChange = 0.05, kSizeOfChange = 0.002;  ///< Eq. (78)

/// a of Eq. (77), measured by BarCalibrationStudy, docs/error-bars.md.
constexpr double kOfTheWhole = 0.4, kOfAPlace = 0.8;

constexpr double kLeastFactor = 1.5;  ///< Eq. (77), from the same study on the default mesh

constexpr std::array<std::string_view, 16> kOfPlaces{
    "sole_pressure_peak",  "sole_pressure_tip",      "sole_pressure_mean",   "sole_contact_area",
    "swing_sole_pressure", "corium_pressure_peak",   "corium_pressure_tip",  "lamella_stress_dorsal",
    "bone_rotation",       "wall_strain_dorsal",     "wall_strain_quarter",  "heel_spread",
    "ground_pressure_toe", "ground_pressure_middle", "ground_pressure_heel", "nail_force_max"};

/// Of other units (kPa, %, N, ue, cm^2): 1. Per kg: of a horse of 500 kg.
constexpr std::array<std::pair<std::string_view, double>, 6> kLeastSizes{
    {{"mm", 0.01}, {"deg", 0.01}, {"N m", 0.1}, {"mJ", 0.1}, {"N m/kg", 2e-4}, {"N/kg", 2e-3}}};

}  // namespace

bool is_of_the_whole(std::string_view key) {
  return std::find(kOfPlaces.begin(), kOfPlaces.end(), key) == kOfPlaces.end();
}

double bar_factor(double density, bool of_the_whole) {
  return std::max(kLeastFactor, (of_the_whole ? kOfTheWhole : kOfAPlace) / (density * density));
}

double least_size(std::string_view unit) {
  for (const auto& [name, size] : kLeastSizes)
    if (name == unit) return size;
  return 1;
}

double bar_of_value(const TwinReading& r, double factor) {
  return factor * (std::abs(r.value - r.twin) + kSizeOfValue * r.size);
}

double bar_of_change(const TwinReading& baseline, const TwinReading& option, double factor) {
  const double change = option.value - baseline.value, on_twin = option.twin - baseline.twin;
  return factor * (std::abs(change - on_twin) + kPartOfChange * std::abs(change) +
                   kSizeOfChange * std::max(baseline.size, option.size));
}

}  // namespace hoofload::scenarios
