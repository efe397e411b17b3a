// Statics of every solved phase, several ways of shoeing, both models: what the ground pushes is what the horse presses, the
// tendon holds the moment of the ground force, and the two ledgers close. Source: statics.
#include "tests/support/record.hpp"
#include "tests/support/shod_foot.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

void wedge(Case& c) { c.shoeing.shoe.elevation = 6 * mesh::degree; }
void bare(Case& c) { c.shoeing.shoe.type = mesh::ShoeType::bare; }
void glued(Case& c) { c.shoeing.shoe.attachment = mesh::Attachment::glued; }
void taped(Case& c) { c.shoeing.shoe.attachment = mesh::Attachment::taped; }
void heart(Case& c) { c.shoeing.shoe.type = mesh::ShoeType::heart_bar; }

const Feet& feet(ModelKind model) {
  const auto solve = [](ModelKind kind, double density) {
    Case open =
        open_steel(kind, density, {Phase::swing, Phase::standing, Phase::midstance, Phase::breakover, Phase::press});
    open.load.force = 2500;
    open.load.tendon_force = 800;
    return Feet({open, changed(open, "set back", {set_back(6)}), changed(open, "wedge", {wedge}),
                 changed(open, "bare", {bare}), changed(open, "glued", {glued}), changed(open, "taped", {taped}),
                 changed(open, "heart bar", {heart}), changed(open, "plate, packed before", {plate, packed_before(1)}),
                 changed(open, "pad, packed after", {pad, packed_after()})});
  };
  static const Feet ring = solve(ModelKind::axisymmetric, 0.5);
  static const Feet side = solve(ModelKind::sagittal, 0.35);
  return model == ModelKind::axisymmetric ? ring : side;
}

class Statics : public ::testing::TestWithParam<ModelKind> {
 protected:
  /// Runs `check(phase)` on each solved phase but the swing; fails where one was not solved.
  template <class Check>
  void on_every_phase(Check&& check) {
    for (const RunResult& run : feet(GetParam()).all())
      for (const auto& model : run.models) {
        ASSERT_TRUE(model.built) << run.run.name << ": " << model.why;
        for (const PhaseResult& phase : model.phases) {
          SCOPED_TRACE(run.run.name + ", " + std::string(scenarios::name_of(phase.phase)));
          EXPECT_TRUE(phase.solved) << phase.why;
          if (phase.solved && phase.phase != Phase::swing) check(phase);
        }
      }
  }
};

/// Held below the bound, and recorded.
void expect_below(const char* claim, double worst, double bound) {
  EXPECT_LT(worst, bound);
  record_exact({claim, "statics", "coarse, nine shoeings, every phase"}, "both models", worst, bound);
}

TEST_P(Statics, ground_reaction_equals_the_load) {
  on_every_phase(
      [](const PhaseResult& phase) { expect_below("ground reaction equals the load", phase.balance.force, 1e-8); });
}

TEST_P(Statics, tendon_holds_the_moment_of_the_ground_force) {
  on_every_phase([](const PhaseResult& phase) {
    expect_below("the tendon holds the moment of the ground force", phase.balance.moment, 1e-8);
  });
}

TEST_P(Statics, shares_sum_to_the_load_at_the_bone_and_at_the_ground) {
  on_every_phase([](const PhaseResult& phase) {
    expect_below("shares sum to the load at the bone", phase.balance.bone_ledger, 5e-3);
    expect_below("shares sum to the load at the ground", phase.balance.ground_ledger, 5e-3);
  });
}

INSTANTIATE_TEST_SUITE_P(BothModels, Statics, ::testing::Values(ModelKind::axisymmetric, ModelKind::sagittal),
                         [](const auto& model) { return std::string(scenarios::name_of(model.param)); });

}  // namespace
