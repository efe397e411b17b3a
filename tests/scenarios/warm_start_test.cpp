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
  PhaseSolution air = anchor.phase;
  air.phase = Phase::swing;
  EXPECT_FALSE(solve_warm(*anchor.built, air, *coarse(run), run, slack).has_value());
}

}  // namespace
}  // namespace hoofload::scenarios
