// The cases behind the published effects, as case texts: the reference foot of a 500 kg horse, what is not said is default.
#include "scenarios/effects.hpp"

namespace hoofload::scenarios {

namespace {

constexpr std::string_view kTrot = R"(
load.gait = "trot"
load.phases = ["swing", "standing", "midstance", "breakover", "stance"]
study.models = ["sagittal"]
[[option]]
name = "wedge, held"
shoe.elevation = "6 deg"
[[option]]
name = "wedge, passive"
shoe.elevation = "6 deg"
load.posture = "passive"
[[option]]
name = "setback"
shoe.setback = "9.5 mm"
)";

// Six tendon forces spread the centre of pressure from under the joint to 28 mm ahead of it.
constexpr std::string_view kPress = R"(
shoe.type = "bare"
load.phases = ["press"]
load.force = "2500 N"
study.models = ["sagittal"]
[[option]]
name = "500 N"
load.tendon_force = "500 N"
[[option]]
name = "1000 N"
load.tendon_force = "1000 N"
[[option]]
name = "1500 N"
load.tendon_force = "1500 N"
[[option]]
name = "2000 N"
load.tendon_force = "2000 N"
[[option]]
name = "2500 N"
load.tendon_force = "2500 N"
)";

// 66 % of body weight (0.66 g = 6.475 N/kg). The tendon's length is found on rigid ground and kept: as a spring it holds the
// foot on the board, which a given tendon force does not (docs/theory.md, section 20).
constexpr std::string_view kBoard = R"(
shoe.type = "bare"
load.phases = ["standing"]
load.standing_force = "6.475 N/kg"
[[option]]
name = "board"
ground.type = "elastic"
ground.material = "polystyrene board"
ground.depth = "60 mm"
)";

constexpr std::string_view kFlatter = R"(
foot.palmar_angle = "2 deg"
load.gait = "trot"
load.phases = ["stance"]
study.models = ["sagittal"]
)";

constexpr std::string_view kSteeper = R"(
foot.palmar_angle = "6 deg"
load.gait = "trot"
load.phases = ["stance"]
study.models = ["sagittal"]
)";

constexpr std::string_view kShodGround = R"(
load.gait = "trot"
load.phases = ["midstance"]
study.models = ["sagittal"]
[[option]]
name = "sand"
ground.type = "elastic"
ground.material = "loose sand"
[[option]]
name = "turf"
ground.type = "elastic"
ground.material = "turf"
)";

constexpr std::string_view kBareGround = R"(
shoe.type = "bare"
load.gait = "trot"
load.phases = ["midstance"]
study.models = ["sagittal"]
[[option]]
name = "sand"
ground.type = "elastic"
ground.material = "loose sand"
[[option]]
name = "turf"
ground.type = "elastic"
ground.material = "turf"
)";

}  // namespace

const std::vector<EffectCase>& effect_cases() {
  static const std::vector<EffectCase> cases{{"trot", kTrot},
                                             {"press", kPress},
                                             {"board", kBoard},
                                             {"flatter bone", kFlatter},
                                             {"steeper bone", kSteeper},
                                             {"shod on ground", kShodGround},
                                             {"bare on ground", kBareGround}};
  return cases;
}

}  // namespace hoofload::scenarios
