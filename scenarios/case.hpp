// The typed case: everything that a run needs to know, in mm, N, MPa, s, rad, kg. The defaults of foot and shoeing stand
// in mesh/foot.hpp and mesh/shoeing.hpp, the others here; case_keys.cpp gives each its key, unit, range and meaning.
#pragma once

#include "mesh/foot.hpp"
#include "mesh/shoeing.hpp"
#include "scenarios/case_errors.hpp"
#include "scenarios/material_words.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace hoofload::scenarios {

enum class Limb { right_fore, left_fore };
enum class Gait { walk, trot };
enum class Phase { swing, standing, midstance, breakover, stance, press };
enum class GroundType { rigid, elastic };
enum class Bone { rigid, elastic };
enum class ModelKind { axisymmetric, sagittal };

struct Horse {
  double mass = 500;  ///< [kg]
  Limb limb = Limb::right_fore;
};

/// Catalogue ids of what the farrier chooses; empty where a choice is still owed.
struct MaterialChoice {
  std::string shoe = "mild steel";
  std::string layer;  ///< lower layer of the shoe
  std::string pad;
  std::string packing;
  std::string ground;
  std::optional<double> pad_hardness;      ///< [Shore A]; given: the modulus follows from it instead of the catalogue
  std::optional<double> packing_hardness;  ///< [Shore A]
  double packing_rested = 0;               ///< time since nailing over which the packing has relaxed [s]
};

/// One value of the catalogue replaced for this case.
struct MaterialOverride {
  std::string material;   ///< catalogue id
  std::string parameter;  ///< e.g. "E"
  double value = 0;       ///< in the inside unit
  std::string unit;       ///< the catalogue's unit, for the echo
  bool operator==(const MaterialOverride&) const = default;
};

struct Ground {
  GroundType type = GroundType::rigid;
  double depth = 100;              ///< of an elastic bed over a rigid base [mm]
  std::optional<double> friction;  ///< given: replaces the catalogue's pair of shoe and ground
};

enum class Posture { held, passive };

/// A stance of the user's own (load.curve): by share of stance, as many values in each list; empty: the gait's.
struct LoadTable {
  std::vector<double> share;               ///< 0 to 1, strictly rising
  std::vector<double> normal, tangential;  ///< [N], or [N/kg] if per_mass
  std::vector<double> pastern;             ///< middle phalanx against the ground [rad]
  bool per_mass = false;
};

struct Load {
  Gait gait = Gait::walk;
  std::vector<Phase> phases = {Phase::swing, Phase::standing, Phase::midstance, Phase::breakover};
  double standing_force = 2.75;  ///< vertical ground force when standing [N/kg]
  double standing_cop = 15;      ///< baseline's centre of pressure ahead of the joint centre when standing [mm]
  double midstance_at = 0.5;     ///< share of stance
  int steps = 11;                ///< of the phase "stance"
  std::string curve;             ///< text of the table that replaces the gait's curves; empty: none
  LoadTable table;               ///< what stands in it
  Posture posture = Posture::held;
  double tendon_stiffness = 247;  ///< [N/mm]
  std::optional<double> force;    ///< vertical force of the phase "press" [N]
  double tendon_force = 0;        ///< tendon force of the phase "press"; 0: slack [N]
};

/// What draws may vary: errors of the measurements given, the spread of those left out, tissues, shoe with its materials, loads.
enum class UncertainGroup { measurements, unmeasured_foot, tissues, shoeing, loads };

struct Study {
  double density = 1;  ///< mesh divisions relative to the default
  bool bars = true;    ///< discretisation bars from a coarse twin
  int samples = 0;     ///< random draws for the intervals; 0: none
  std::int64_t seed = 1;
  std::vector<UncertainGroup> vary = {UncertainGroup::measurements, UncertainGroup::unmeasured_foot,
                                      UncertainGroup::tissues, UncertainGroup::shoeing, UncertainGroup::loads};
  double sample_density = 0.5;  ///< mesh divisions of the draws; no coarse twin is solved for them
  std::vector<ModelKind> models = {ModelKind::axisymmetric, ModelKind::sagittal};
  Bone bone = Bone::rigid;  ///< of the axisymmetric model
  double first_step = 1;    ///< load step tried first, of the way between two loadings; no key: for tests of step size
  double friction_slack = 1e-3;  ///< part by which a slip traction may miss its bound, Eq. (47); no key: for tests
};

struct Case {
  std::string title;
  std::string name = "baseline";
  std::int64_t schema = 1;
  Horse horse;
  mesh::Foot foot;
  mesh::Shoeing shoeing;
  MaterialChoice material;
  std::vector<MaterialOverride> overrides;  ///< sorted by material, then parameter
  Ground ground;
  Load load;
  Study study;
  std::vector<std::string> given;      ///< keys that the file sets for this run, sorted
  std::vector<std::string> changed;    ///< of these, the ones that the option itself sets
  std::vector<std::string> defaulted;  ///< keys in use that were left to their default, sorted
  std::vector<std::string> followed;  ///< keys in use that were left out and follow from others (foot_pose.hpp), sorted
};

/// The runs of a case file, baseline first; empty exactly when there are errors.
struct CaseReading {
  std::vector<Case> runs;
  CaseErrors errors;
  CaseErrors warnings;
};

/// Reads, checks and completes a case. Reports every problem in one pass; never throws on any input.
[[nodiscard]] CaseReading read_case(std::string_view text, const std::string& file, const MaterialWords& materials);

struct CaseText;

/// The same from text that has been parsed, and perhaps had values put into it (case_overlay.hpp).
[[nodiscard]] CaseReading read_case(const CaseText& tree, const std::string& file, const MaterialWords& materials);

}  // namespace hoofload::scenarios
