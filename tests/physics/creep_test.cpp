// Creep of packing: the share of modulus that is left, a held block, and the fitted foot in the air after a rest. Also how much
// the filling's boundary matters against its hardness.
#include "materials/relaxation.hpp"
#include "tests/support/edge_loads.hpp"
#include "tests/support/equilibrium.hpp"
#include "tests/support/record.hpp"
#include "tests/support/shod_foot.hpp"
#include "tests/support/single_block.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

/// Force that holds a block of a law, bonded above and below, sheared by 2 mm.
double held_shear(const materials::Material& law) {
  BlockModel b = one_block({6, 3, rectangle(0, 20, 0, 10), 1}, Symmetry::plane_strain, law, Formulation::mixed);
  fix(b.model, b.bottom(), 0);
  fix(b.model, b.bottom(), 1);
  fix(b.model, b.top(), 1);
  for (int node : b.top()) b.model.supports.push_back({plane_dof(node, 0), 2.0});
  const Solved solved = equilibrium(b.model, no_ground(), 2);
  EXPECT_TRUE(solved.converged());
  return reaction(solved, b.top(), 0);
}

// By definition of the law; at small loss it is the log law.
TEST(Creep, every_decade_takes_the_same_share) {
  using materials::relaxed_share;
  EXPECT_EQ(relaxed_share(0.05, 0), 1);
  EXPECT_NEAR(relaxed_share(0.05, 9), 0.95, 1e-12);
  EXPECT_NEAR(relaxed_share(0.05, 99), 0.95 * 0.95, 1e-12);
  EXPECT_NEAR(relaxed_share(0.02, 599), 1 - 0.02 * std::log10(600.0), 2e-3);  // log relaxation, class values
  EXPECT_GT(relaxed_share(0.4, 86400), 0);
}

// A held step strain: stress falls by the share (linear viscoelasticity; exact for shear of neo-Hookean rubber at constant
// volume, here to the bulk modulus's share of it).
TEST(Creep, a_bonded_block_held_in_shear_relaxes_by_that_share) {
  const materials::NeoHooke rubber{0.4, 1500};
  const double share = materials::relaxed_share(0.05, 600);
  const double left = held_shear(materials::relaxed(rubber, share)) / held_shear(rubber);
  record({"a block held in shear relaxes as its modulus", "linear viscoelasticity", "6 x 3"}, "600 s", share, left);
  EXPECT_NEAR(left, share, 1e-3);
}

Change rested(double seconds) {
  return [=](Case& c) { c.material.packing_rested = seconds; };
}
Change bond(mesh::PackingBond kind) {
  return [=](Case& c) { c.shoeing.packing.bond = kind; };
}

const Feet& feet(ModelKind model) {
  const auto solve = [](ModelKind kind, double density) {
    const Case open = open_steel(kind, density, {Phase::swing, Phase::standing});
    using mesh::PackingBond;
    return Feet({open, changed(open, "fresh", {plate, packed_before(1)}),
                 changed(open, "0 s", {plate, packed_before(1), rested(0)}),
                 changed(open, "10 min", {plate, packed_before(1), rested(600)}),
                 changed(open, "oakum", {plate, packed_before(1, "oakum and pine tar")}),
                 changed(open, "oakum, 10 min", {plate, packed_before(1, "oakum and pine tar"), rested(600)}),
                 changed(open, "bonded", {plate, packed_after()}),
                 changed(open, "frictional", {plate, packed_after(), bond(PackingBond::frictional)}),
                 changed(open, "free", {plate, packed_after(), bond(PackingBond::free)}),
                 changed(open, "harder", {plate, packed_after("silicone A40")})});
  };
  static const Feet ring = solve(ModelKind::axisymmetric, 0.5);
  static const Feet side = solve(ModelKind::sagittal, 0.35);
  return model == ModelKind::axisymmetric ? ring : side;
}

class RestedFoot : public ::testing::TestWithParam<ModelKind> {};

TEST_P(RestedFoot, no_rest_is_the_same_to_the_bit) {
  for (const Phase phase : {Phase::swing, Phase::standing})
    for (const auto& [key, reading] : feet(GetParam()).phase("fresh", phase).values)
      EXPECT_EQ(reading.value, feet(GetParam()).value("0 s", phase, key)) << key;
}

// The filling sits in series with what it presses on, so its pressure falls by no more than its own modulus does, and a
// filling whose volume is held keeps what its volume holds (statics).
TEST_P(RestedFoot, pressure_in_the_air_falls_with_rest_by_no_more_than_the_modulus) {
  for (const auto& [fresh, old, per_decade] : {std::tuple{"fresh", "10 min", 0.05}, {"oakum", "oakum, 10 min", 0.3}}) {
    const double before = feet(GetParam()).value(fresh, Phase::swing, "swing_sole_pressure");
    const double after = feet(GetParam()).value(old, Phase::swing, "swing_sole_pressure");
    const double share = materials::relaxed_share(per_decade, 600);
    std::printf("Rest, %s, %s: %.3f to %.3f kPa, %.4f of it; modulus %.4f\n",
                std::string(scenarios::name_of(GetParam())).c_str(), fresh, before, after, after / before, share);
    record_finding(
        {"the pressure of a packed foot in the air falls with rest by no more than the modulus", "statics", "coarse"},
        std::string(scenarios::name_of(GetParam())) + " " + fresh, text("at least %.2f left", share),
        text("%.2f", after / before));
    EXPECT_LT(after, before);
    EXPECT_GT(after / before, share - 0.02);
  }
}

TEST_P(RestedFoot, what_bounds_the_filling_matters_more_than_ten_points_of_hardness) {
  const auto value = [&](const char* name, const char* key) {
    return feet(GetParam()).value(name, Phase::standing, key);
  };
  for (const char* name : {"bonded", "frictional", "free", "harder"})
    std::printf("Boundary, %s, %s: sole mean %.3f kPa, lamellae %.3f %%\n",
                std::string(scenarios::name_of(GetParam())).c_str(), name, value(name, "sole_pressure_mean"),
                value(name, "bone_share_lamellae"));
  // Ten points of Shore A against the bond given up: the boundary moves both quantities more (materials of this class: a bonded
  // layer of shape factor S is 1 + 2 S^2 times as stiff as a free one, Gent & Lindley 1959).
  for (const char* key : {"sole_pressure_mean", "bone_share_lamellae"}) {
    const double harder = std::abs(value("harder", key) - value("bonded", key));
    record_finding({"what bounds a filling matters more than ten points of Shore A",
                    "Gent & Lindley 1959, materials of this class", "coarse, standing"},
                   std::string(scenarios::name_of(GetParam())) + " " + key, text("more than twice %.3g", harder),
                   text("%.3g", std::abs(value("free", key) - value("bonded", key))));
    EXPECT_GT(std::abs(value("free", key) - value("bonded", key)), 2 * harder) << key;
    // Rubber on horn sticks under weight: with its friction settled it is held nearly as if it were bonded.
    EXPECT_LT(std::abs(value("frictional", key) - value("bonded", key)),
              std::abs(value("free", key) - value("bonded", key)))
        << key;
  }
}

INSTANTIATE_TEST_SUITE_P(BothModels, RestedFoot, ::testing::Values(ModelKind::axisymmetric, ModelKind::sagittal),
                         [](const auto& model) { return std::string(scenarios::name_of(model.param)); });

}  // namespace
