// Shod feet for the claims about them: the reference foot under a 520 kg horse with a few shoeings, solved once per
// process on a coarse mesh through the road that the command line takes (scenarios/run.hpp).
#pragma once

#include <gtest/gtest.h>

#include <functional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "scenarios/comparison.hpp"
#include "scenarios/foot_pose.hpp"

namespace hoofload::tests {

using scenarios::Case;
using scenarios::ModelKind;
using scenarios::Phase;
using scenarios::PhaseResult;
using scenarios::RunResult;

inline const materials::Catalogue& catalogue() {
  static const materials::Catalogue all = materials::load_catalogue();
  return all;
}

/// An open steel shoe on the reference foot; one model, no bars.
inline Case open_steel(ModelKind model, double density, std::vector<Phase> phases) {
  Case c;
  c.title = "claims";
  c.name = "open steel";
  c.horse.mass = 520;
  c.study.density = density;
  c.study.bars = false;
  c.study.models = {model};
  c.load.phases = std::move(phases);
  return c;
}

using Change = std::function<void(Case&)>;

/// A copy of a run under another name with changes made in turn.
inline Case changed(const Case& base, std::string name, const std::vector<Change>& changes) {
  Case c = base;
  c.name = std::move(name);
  for (const auto& change : changes) change(c);
  return c;
}

inline void plate(Case& c) {
  c.shoeing.shoe.type = mesh::ShoeType::full_plate;
  c.material.shoe = "polyurethane A90";
}

inline void pad(Case& c) {
  c.shoeing.pad.type = mesh::PadType::full;
  c.material.pad = "polyurethane A90";
}

inline Change packed_before(double proud, std::string material = "silicone A30") {
  return [=](Case& c) {
    c.shoeing.packing.region = mesh::PackingRegion::full_sole;
    c.shoeing.packing.order = mesh::PackingOrder::before_nailing;
    c.shoeing.packing.proud = proud;
    c.material.packing = material;
  };
}

inline Change packed_after(std::string material = "silicone A30",
                           mesh::PackingRegion region = mesh::PackingRegion::full_sole) {
  return [=](Case& c) {
    c.shoeing.packing.region = region;
    c.shoeing.packing.order = mesh::PackingOrder::after_nailing;
    c.material.packing = material;
  };
}

inline Change set_back(double s) {
  return [=](Case& c) { c.shoeing.shoe.setback = s; };
}

/// A foot of that sole depth; the rest follows as it does for a case file (scenarios/foot_pose.hpp).
inline Change sole_depth(double depth) {
  return [=](Case& c) {
    c.foot.sole_depth_tip = depth;
    (void)scenarios::complete_foot(c.foot, [](std::string_view key) { return key == "foot.sole_depth_tip"; });
  };
}

inline Change stiffened(std::string material, std::string parameter, double value) {
  return [=](Case& c) { c.overrides.push_back({material, parameter, value, "MPa"}); };
}

/// Runs solved together, the first of them the baseline whose tendon slack the others keep.
class Feet {
 public:
  explicit Feet(const std::vector<Case>& runs) : results_(scenarios::solve_runs(runs, catalogue())) {}

  [[nodiscard]] const std::vector<RunResult>& all() const { return results_; }
  [[nodiscard]] const RunResult& run(std::string_view name) const {
    for (const auto& r : results_)
      if (r.run.name == name) return r;
    throw std::invalid_argument("no run '" + std::string(name) + "'");
  }
  /// Throws with the reason when the phase was not solved, which fails the test that asks for it.
  [[nodiscard]] const PhaseResult& phase(std::string_view name, Phase phase) const {
    const auto& model = run(name).models.front();
    for (const auto& p : model.phases)
      if (p.phase == phase && p.solved)
        return p;
      else if (p.phase == phase)
        throw std::runtime_error(std::string(name) + ": " + p.why);
    throw std::runtime_error(std::string(name) + ": " + model.why);
  }
  [[nodiscard]] double value(std::string_view name, Phase at, std::string_view key) const {
    const auto& values = phase(name, at).values;
    const auto it = values.find(key);
    if (it == values.end()) throw std::invalid_argument("no quantity '" + std::string(key) + "'");
    return it->second.value;
  }

 private:
  std::vector<RunResult> results_;
};

}  // namespace hoofload::tests
