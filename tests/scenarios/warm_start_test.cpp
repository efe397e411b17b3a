// A changed run from the anchor's solution: the same equilibrium as from the unloaded foot.
#include "scenarios/warm_start.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "scenarios/build_model.hpp"
#include "scenarios/quantities.hpp"

namespace hoofload::scenarios {
namespace {

struct Solved {
  std::shared_ptr<BuiltModel> built;
  PhaseSolution phase;
};

std::shared_ptr<BuiltModel> coarse(const Case& run) {
  return std::make_shared<BuiltModel>(build_axisymmetric(run, materials::load_catalogue(), 0.3));
}

Case standing_run() {
  Case run;
  run.load.phases = {Phase::standing};
  return run;
}

Solved cold(const Case& run, TendonSlack& slack) {
  const auto built = coarse(run);
  return {built, solve_phases(built, run, slack, true).back()};
}

// No source: an equilibrium does not know where Newton started, up to the history of friction, which no point of this foot
// has in common use of more than 1e-3 of a reading; both solves end at 1e-9 of the load.
TEST(WarmStart, deeper_sole_from_the_anchor_reads_as_from_the_unloaded_foot) {
  TendonSlack slack;
  const Case run = standing_run();
  const Solved anchor = cold(run, slack);
  ASSERT_TRUE(anchor.phase.solved) << anchor.phase.why;
  Case deeper = run;
  deeper.foot.sole_depth_tip *= 1.05;
  const Solved reference = cold(deeper, slack);
  ASSERT_TRUE(reference.phase.solved) << reference.phase.why;
  const auto built = coarse(deeper);
  const auto warm = solve_warm(*anchor.built, anchor.phase, *built, deeper, slack);
  ASSERT_TRUE(warm.has_value());
  EXPECT_LT(warm->path.factorisations, reference.phase.path.factorisations);
  const Quantities a = measure(*reference.built, deeper, reference.phase), b = measure(*built, deeper, *warm);
  const Quantities before = measure(*anchor.built, run, anchor.phase);
  ASSERT_FALSE(a.empty());
  double moved = 0;
  for (const auto& [key, value] : a) {
    ASSERT_TRUE(b.count(key) != 0) << key;
    EXPECT_NEAR(b.at(key), value, 1e-3 * std::abs(value) + 1e-6) << key;
    moved = std::max(moved, std::abs(before.at(key) - value) / (std::abs(value) + 1e-6));
  }
  EXPECT_GT(moved, 5e-3);  // the change is one that readings see
}

TEST(WarmStart, other_topology_and_the_air_have_none) {
  TendonSlack slack;
  const Case run = standing_run();
  const Solved anchor = cold(run, slack);
  Case packed = run;
  packed.shoeing.packing.region = mesh::PackingRegion::full_sole;
  packed.material.packing = "silicone A30";
  EXPECT_FALSE(solve_warm(*anchor.built, anchor.phase, *coarse(packed), packed, slack).has_value());
  Case filled = packed;
  filled.shoeing.packing.order = mesh::PackingOrder::after_nailing;
  filled.load.phases = {Phase::swing};
  const Solved air = cold(filled, slack);
  ASSERT_TRUE(air.phase.solved) << air.phase.why;
  EXPECT_FALSE(solve_warm(*air.built, air.phase, *coarse(filled), filled, slack).has_value());
}

// As above, for the side view with its shoe set back: other bearing stations, another lever, another event. The ground's friction
// has another history, worth up to 0.7 % here; 1 % is what the page counts as no change.
TEST(WarmStart, a_shoe_set_back_reads_in_the_air_and_at_heel_off_as_from_the_unloaded_foot) {
  const materials::Catalogue catalogue = materials::load_catalogue();
  Case run, moved;
  moved.shoeing.shoe.setback = 1.5;
  for (const Phase phase : {Phase::swing, Phase::breakover}) {
    run.load.phases = moved.load.phases = {phase};
    TendonSlack slack;
    const auto at = [&](const Case& c) { return std::make_shared<BuiltModel>(build_sagittal(c, catalogue, 0.4)); };
    const auto from = at(run), to = at(moved), again = at(moved);
    const PhaseSolution anchor = solve_phases(from, run, slack, true).back();
    const PhaseSolution reference = solve_phases(to, moved, slack, false).back();
    ASSERT_TRUE(anchor.solved && reference.solved) << anchor.why << reference.why;
    const auto warm = solve_warm(*from, anchor, *again, moved, slack);
    ASSERT_TRUE(warm.has_value());
    EXPECT_LT(warm->path.factorisations, reference.path.factorisations);
    const Quantities a = measure(*to, moved, reference), b = measure(*again, moved, *warm);
    for (const auto& [key, value] : a) {
      ASSERT_TRUE(b.count(key) != 0) << key;
      EXPECT_NEAR(b.at(key), value, 1e-2 * std::abs(value) + 1e-4) << key << ", " << static_cast<int>(phase);
    }
  }
}

}  // namespace
}  // namespace hoofload::scenarios
