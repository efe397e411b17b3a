// The border in dimensioned types: a case's numbers as Boost.Units quantities, so that code outside the kernels cannot
// mix them up. Include it where numbers leave or enter the application, not in kernels.
#pragma once

#include "scenarios/case.hpp"

#include <boost/units/quantity.hpp>
#include <boost/units/systems/si/force.hpp>
#include <boost/units/systems/si/length.hpp>
#include <boost/units/systems/si/mass.hpp>
#include <boost/units/systems/si/plane_angle.hpp>
#include <boost/units/systems/si/pressure.hpp>
#include <optional>

namespace hoofload::scenarios::si {

namespace bu = boost::units;
using Length = bu::quantity<bu::si::length>;
using Angle = bu::quantity<bu::si::plane_angle>;
using Mass = bu::quantity<bu::si::mass>;
using Force = bu::quantity<bu::si::force>;
using Pressure = bu::quantity<bu::si::pressure>;

[[nodiscard]] inline Length from_mm(double mm) { return mm * 1e-3 * bu::si::meter; }
[[nodiscard]] inline double in_mm(Length length) { return length / bu::si::meter * 1e3; }
[[nodiscard]] inline Angle from_rad(double rad) { return rad * bu::si::radian; }
[[nodiscard]] inline double in_rad(Angle angle) { return angle / bu::si::radian; }
[[nodiscard]] inline Mass from_kg(double kg) { return kg * bu::si::kilogram; }
[[nodiscard]] inline double in_kg(Mass mass) { return mass / bu::si::kilogram; }
[[nodiscard]] inline Force from_N(double N) { return N * bu::si::newton; }
[[nodiscard]] inline double in_N(Force force) { return force / bu::si::newton; }
[[nodiscard]] inline Pressure from_MPa(double MPa) { return MPa * 1e6 * bu::si::pascal; }
[[nodiscard]] inline double in_MPa(Pressure pressure) { return pressure / bu::si::pascal * 1e-6; }

[[nodiscard]] inline Mass body_mass(const Case& c) { return from_kg(c.horse.mass); }
[[nodiscard]] inline Length setback(const Case& c) { return from_mm(c.shoeing.shoe.setback); }
[[nodiscard]] inline Angle elevation(const Case& c) { return from_rad(c.shoeing.shoe.elevation); }
[[nodiscard]] inline std::optional<Force> press_force(const Case& c) {
  if (!c.load.force) return std::nullopt;
  return from_N(*c.load.force);
}
/// Vertical ground force of the limb when standing.
[[nodiscard]] inline Force standing_force(const Case& c) { return from_N(c.load.standing_force * c.horse.mass); }

}  // namespace hoofload::scenarios::si
