// Two sheets that are handed on alone: what to make (farrier), what was looked at (owner).
#include <algorithm>
#include <cmath>
#include <utility>

#include "scenarios/case_checks.hpp"
#include "scenarios/report.hpp"
#include "viz/text.hpp"

namespace hoofload::scenarios {

namespace {

constexpr std::size_t kMostChanges = 3;  ///< of one option, on the owner's sheet

bool in_use(const Case& run, std::string_view key) { return why_unused(run, key).reason.empty(); }

std::string words_if(const Case& run, std::string_view key, const std::string& before) {
  return in_use(run, key) ? before + value_words(run, key) : "";
}

/// Lengths in mm with their inch fraction, as the key's own words give them.
std::string toe_words(const Case& run) {
  if (!in_use(run, "shoe.toe")) return "none";
  return value_words(run, "shoe.toe") + ", breaks over " + value_words(run, "shoe.breakover") +
         " behind the front edge" + words_if(run, "shoe.roll_radius", ", radius ") +
         words_if(run, "shoe.rocker_start", ", rocker from ") + words_if(run, "shoe.rocker_angle", " at ");
}

/// Sixteenths beside every setback, a round one or not: "3.18 mm, 2/16 in".
std::string setback_words(const Case& run) {
  if (!in_use(run, "shoe.setback")) return "none";
  const double sixteenths = run.shoeing.shoe.setback / (25.4 / 16);
  return viz::plain_text(std::round(100 * run.shoeing.shoe.setback) / 100) + " mm, " +
         viz::plain_text(std::round(10 * sixteenths) / 10) + "/16 in";
}

std::string nail_words(const Case& run) {
  if (!in_use(run, "nails.count")) return in_use(run, "shoe.attachment") ? value_words(run, "shoe.attachment") : "none";
  return value_words(run, "nails.count") + ", first " + value_words(run, "nails.first") + " and last " +
         value_words(run, "nails.last") + " behind the toe of the shoe";
}

std::string shoe_words(const Case& run) {
  return value_words(run, "shoe.type") + words_if(run, "shoe.material", ", ") +
         words_if(run, "shoe.thickness", ", thick ") + words_if(run, "shoe.web", ", web ") +
         words_if(run, "shoe.plate_thickness", ", plate ");
}

std::string packing_words(const Case& run) {
  std::string text;
  if (in_use(run, "pad.material"))
    text = "pad " + value_words(run, "pad.type") + ", " + value_words(run, "pad.material") + ", " +
           value_words(run, "pad.thickness") + "; ";
  if (!in_use(run, "packing.material")) return text + "no packing";
  return text + value_words(run, "packing.region") + ", " + value_words(run, "packing.material") + ", " +
         value_words(run, "packing.order") + words_if(run, "packing.proud", ", proud ");
}

/// What an owner would call the part that a quantity speaks of; the first beginning that fits.
std::string plain_part(const QuantityKey& quantity) {
  static constexpr std::pair<std::string_view, std::string_view> parts[] = {
      {"sole_", "the sole"},
      {"swing_sole_", "the sole"},
      {"corium_", "the living tissue under the coffin bone"},
      {"lamella_", "the bond of wall and bone"},
      {"bone_share_lamellae", "the bond of wall and bone"},
      {"bone_force_lamellae", "the bond of wall and bone"},
      {"bone_share_sole", "the sole"},
      {"bone_force_sole", "the sole"},
      {"bone_share_frog", "the frog and its cushion"},
      {"bone_force_frog", "the frog and its cushion"},
      {"ground_pressure_toe", "the toe on the ground"},
      {"ground_pressure_middle", "the middle of the shoe on the ground"},
      {"ground_pressure_heel", "the heels on the ground"},
      {"ddft_", "the deep flexor tendon"},
      {"navicular_", "the navicular bone"},
      {"breakover_moment", "the deep flexor tendon"},
      {"rollover_moment", "the deep flexor tendon"},
      {"breakover_arm_", "the lever to the side"},
      {"breakover_arm", "the lever that the foot rolls over"},
      {"rollover_arm", "the lever that the foot rolls over"},
      {"nail_", "the nails"},
      {"wall_strain_", "the hoof wall"},
      {"bone_sink", "how far the coffin bone sinks"},
      {"bone_rotation", "how far the coffin bone turns"},
      {"heel_spread", "the spreading of the heels"},
      {"pip_", "the pastern joint"},
      {"mcp_", "the fetlock joint"},
      {"coffin_", "the coffin joint"},
  };
  for (const auto& [beginning, words] : parts)
    if (quantity.key.starts_with(beginning)) return std::string(words);
  return std::string(quantity.words);
}

std::string_view plain_phase(Phase phase) {
  switch (phase) {
    case Phase::swing:
      return "in the air";
    case Phase::midstance:
      return "in the middle of the step";
    case Phase::breakover:
      return "as the heel leaves the ground";
    default:
      return name_of(phase);
  }
}

/// What got worse or better of one option, the largest relative changes first, each part of the foot once.
std::vector<std::string> plain_changes(const std::string& option, Verdict verdict, const Comparison& comparison) {
  std::vector<const Difference*> list;
  for (const Difference& d : comparison.differences)
    if (d.option == option && d.verdict == verdict) list.push_back(&d);
  const auto size = [](const Difference* d) { return d->percent ? std::abs(*d->percent) : 1e9; };
  std::stable_sort(list.begin(), list.end(), [&](const auto* a, const auto* b) { return size(a) > size(b); });
  std::vector<std::string> parts, words;
  for (const Difference* d : list) {
    const std::string part = plain_part(*d->quantity);
    if (std::find(parts.begin(), parts.end(), part) != parts.end()) continue;
    parts.push_back(part);
    words.push_back(part + " (" + std::string(plain_phase(d->phase)) + ")");
    if (words.size() == kMostChanges) break;
  }
  return words;
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& w : words) text += (text.empty() ? "" : "; ") + w;
  return text.empty() ? "nothing that the model can tell apart" : text;
}

}  // namespace

viz::ReportSection job_sheet(const std::vector<RunResult>& results) {
  viz::ReportSection sheet{"Job sheet: the shoes that were compared", {}, true};
  const Case& foot = results.front().run;
  sheet.blocks.push_back(viz::ReportText{value_words(foot, "horse.limb") + ", " + value_words(foot, "horse.mass") +
                                         "; toe angle " + value_words(foot, "foot.toe_angle") +
                                         ", sole depth at the tip " + value_words(foot, "foot.sole_depth_tip") +
                                         ". None of these is an instruction: the work is the farrier's own."});
  viz::ReportTable table{"One line an option",
                         {"option", "shoe", "set back", "toe", "elevation", "nails or hold", "pad, packing and order"},
                         {}};
  for (const RunResult& run : results)
    table.rows.push_back({run.run.name, shoe_words(run.run), setback_words(run.run), toe_words(run.run),
                          in_use(run.run, "shoe.elevation") ? value_words(run.run, "shoe.elevation") : "none",
                          nail_words(run.run), packing_words(run.run)});
  sheet.blocks.push_back(std::move(table));
  sheet.blocks.push_back(
      viz::ReportText{"Seen by veterinarian: ____________________   Farrier: ____________________   Date: __________"});
  return sheet;
}

viz::ReportSection owner_sheet(const std::vector<RunResult>& results, const Comparison& comparison) {
  viz::ReportSection sheet{"For the owner: what was looked at, in plain words", {}, true};
  sheet.blocks.push_back(viz::ReportText{
      "A computer model of a foot was loaded in " + std::to_string(results.size()) +
      " ways of shoeing. It shows where load goes, not how a horse feels. Taking load off one part "
      "puts it on another. Your veterinarian and farrier decide, and how your horse goes decides with them."});
  viz::ReportTable table{"Against \"" + results.front().run.name + "\", the largest changes in the model",
                         {"way of shoeing", "more load on", "less load on"},
                         {}};
  for (std::size_t k = 1; k < results.size(); ++k)
    table.rows.push_back({results[k].run.name, joined(plain_changes(results[k].run.name, Verdict::worse, comparison)),
                          joined(plain_changes(results[k].run.name, Verdict::better, comparison))});
  sheet.blocks.push_back(std::move(table));
  sheet.blocks.push_back(
      viz::ReportText{"A model cannot see the horse. How it stands and goes, and what its feet feel like, is for the "
                      "veterinarian to judge."});
  sheet.blocks.push_back(viz::ReportText{"Talked over with: ____________________   Date: __________"});
  return sheet;
}

}  // namespace hoofload::scenarios
