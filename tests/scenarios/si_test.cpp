// Border quantities: the definitions of the SI prefixes are the reference.
#include "scenarios/si.hpp"

#include <gtest/gtest.h>

namespace hoofload::scenarios {
namespace {

TEST(Si, border_quantities_carry_the_inside_values) {
  Case c;
  c.shoeing.shoe.setback = 3.175;
  EXPECT_NEAR(si::setback(c) / (1.0 * boost::units::si::meter), 0.003175, 1e-18);
  EXPECT_NEAR(si::in_mm(si::setback(c)), 3.175, 1e-12);
  EXPECT_NEAR(si::in_kg(si::body_mass(c)), 500, 1e-12);
  EXPECT_NEAR(si::in_MPa(si::from_MPa(0.3)), 0.3, 1e-15);
  EXPECT_NEAR(si::in_N(si::standing_force(c)), 1375, 1e-9);
  EXPECT_FALSE(si::press_force(c));
}

}  // namespace
}  // namespace hoofload::scenarios
