// The closing sentence of each lesson. Verbs follow the sign of the solved change, and a change within its bar is said
// to be so.
#include "scenarios/lesson_story.hpp"
#include "scenarios/nothing.hpp"

#include <algorithm>
#include <cmath>

#include "viz/text.hpp"

namespace hoofload::scenarios {
namespace {

/// What a change is called in a sentence.
struct Told {
  std::string words;
  Column column;
};

const Difference* find_difference(const Comparison& comparison, const std::string& option, const Column& c) {
  for (const Difference& d : comparison.differences)
    if (d.option == option && d.phase == c.phase && d.model == c.model && d.quantity->key == c.key) return &d;
  return nullptr;
}

std::string change_text(const Comparison& comparison, const std::string& option, const Told& told) {
  const Difference* d = find_difference(comparison, option, told.column);
  if (d == nullptr) return told.words + " was not solved";
  const std::string unit = " " + std::string(d->quantity->unit);
  if (!d->is_distinguishable)
    return told.words + " changes by no more than the bar (" + viz::signed_text(d->change) + " ± " +
           viz::number_text(d->bar, 2) + unit + ")";
  std::string text = told.words + (d->change > 0 ? " rises by " : " falls by ") +
                     viz::number_text(std::abs(d->change)) + " ± " + viz::number_text(d->bar, 2) + unit;
  if (d->percent) text += " (" + viz::signed_text(*d->percent) + " %)";
  return text;
}

std::string changes_text(const Comparison& comparison, const std::string& option, const std::vector<Told>& all) {
  std::string text;
  for (std::size_t k = 0; k < all.size(); ++k)
    text += (k == 0 ? "" : k + 1 == all.size() ? ", and " : ", ") + change_text(comparison, option, all[k]);
  return text + ".";
}

struct Teller {
  const std::vector<RunResult>& results;
  Phase phase;
  std::string key, unit;

  [[nodiscard]] std::string one(const std::string& run, ModelKind model) const {
    return reading_text(find_reading(results, run, {key, phase, model}));
  }
  /// "20.4 ± 1.2 kPa (axisymmetric) and 24.9 ± 2.0 kPa (sagittal)"
  [[nodiscard]] std::string both(const std::string& run) const {
    return one(run, ModelKind::axisymmetric) + " " + unit + " (axisymmetric) and " + one(run, ModelKind::sagittal) +
           " " + unit + " (sagittal)";
  }
};

std::string packing_sentence(const LessonPlan& plan, const std::vector<RunResult>& results) {
  const Teller air{results, Phase::swing, "swing_sole_pressure", "kPa"};
  const Teller lamellae{results, Phase::standing, "bone_share_lamellae", "%"};
  return "Packed 1 mm proud before nailing over a plate: " + air.both(plan.left) +
         " on the sole with the foot in the air; packed flush after nailing: " + air.both(plan.right) +
         "; standing, the lamellae carry " + lamellae.both(plan.left) + " with the first, " +
         lamellae.both(plan.right) + " with the second, and " + lamellae.both("plate: unpacked") +
         " with the void empty.";
}

/// The left value as part of the right one; its bar adds those of both, the larger part first.
std::string share_text(const Teller& teller, const LessonPlan& plan) {
  std::string text;
  for (const ModelKind model : {ModelKind::axisymmetric, ModelKind::sagittal}) {
    const Reading* part = find_reading(teller.results, plan.left, {teller.key, teller.phase, model});
    const Reading* whole = find_reading(teller.results, plan.right, {teller.key, teller.phase, model});
    text += text.empty() ? "" : " and ";
    if (part == nullptr || whole == nullptr || std::abs(whole->value) <= whole->bar) {
      text += "no readable part of it";
    } else {
      const double share = part->value / whole->value;
      const double bar = (part->bar + std::abs(share) * whole->bar) / std::abs(whole->value);
      text += viz::number_text(100 * share) + " ± " + viz::number_text(100 * bar, 2) + " % of it";
    }
    text += " (" + std::string(name_of(model)) + ")";
  }
  return text;
}

std::string trial_sentence(const LessonPlan& plan, const std::vector<RunResult>& results) {
  const Teller air{results, Phase::swing, "swing_sole_pressure", "kPa"};
  const Teller sole{results, Phase::standing, "sole_pressure_peak", "kPa"};
  return "Packed 1 mm proud, the foot in the air has " + air.both(plan.left) +
         " on its sole under the taped shoe and " + air.both(plan.right) + " under the nailed one, " +
         share_text(air, plan) + "; standing, the peak on the sole is " + sole.both(plan.left) + " taped and " +
         sole.both(plan.right) + " nailed.";
}

std::string setback_sentence(const LessonPlan& plan, const Comparison& comparison) {
  const auto at = [](const char* key, Phase phase) { return Column{key, phase, ModelKind::sagittal}; };
  return "Flat steel shoe set back 3/8 in instead of flush: " +
         changes_text(comparison, plan.right,
                      {{"the arm at heel-off", at("breakover_arm", Phase::breakover)},
                       {"the arm rolled over the toe", at("rollover_arm", Phase::breakover)},
                       {"the moment rolled over the toe", at("rollover_moment", Phase::breakover)},
                       {"the tendon's moment at midstance", at("ddft_moment", Phase::midstance)}});
}

std::string elevation_sentence(const LessonPlan& plan, const Comparison& comparison) {
  const auto at = [](const char* key) { return Column{key, Phase::midstance, ModelKind::sagittal}; };
  return "Heels 6 deg higher at mid-stance of the trot: " +
         changes_text(comparison, plan.right,
                      {{"the tendon's force", at("ddft_force")},
                       {"the force on the navicular bone", at("navicular_force")},
                       {"the peak pressure on the corium", at("corium_pressure_peak")},
                       {"the stress of the dorsal lamellae", at("lamella_stress_dorsal")},
                       {"the bone's sink", at("bone_sink")},
                       {"the ground pressure at the heels", at("ground_pressure_heel")}});
}

}  // namespace

const Reading* find_reading(const std::vector<RunResult>& results, const std::string& run, const Column& column) {
  for (const RunResult& r : results) {
    if (r.run.name != run) continue;
    const PhaseResult* phase = find_phase(r, column.model, column.phase);
    if (phase == nullptr) return nullptr;
    const auto it = phase->values.find(column.key);
    return it == phase->values.end() ? nullptr : &it->second;
  }
  return nullptr;
}

std::string reading_text(const Reading* reading) {
  if (reading == nullptr) return "not solved";
  const double nothing = std::max(kNothingToRead * reading->size, kNothing);
  const std::string value = std::abs(reading->value) <= nothing ? "0" : viz::number_text(reading->value);
  return reading->has_bar && reading->bar > kNothing ? value + " ± " + viz::number_text(reading->bar, 2) : value;
}

std::string closing_sentence(const LessonPlan& plan, const std::vector<RunResult>& results,
                             const Comparison& comparison) {
  switch (plan.lesson) {
    case Lesson::packing:
      return packing_sentence(plan, results);
    case Lesson::setback:
      return setback_sentence(plan, comparison);
    case Lesson::elevation:
      return elevation_sentence(plan, comparison);
    case Lesson::trial:
      break;
  }
  return trial_sentence(plan, results);
}

}  // namespace hoofload::scenarios
