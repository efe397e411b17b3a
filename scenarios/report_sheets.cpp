// Two sheets that are handed on alone: what to make (farrier), what was looked at (owner).
#include <algorithm>

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
  return viz::plain_text(run.shoeing.shoe.setback) + " mm, " + viz::plain_text(std::round(10 * sixteenths) / 10) +
         "/16 in";
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

/// What got worse or better of one option, the largest relative changes first, each quantity once.
std::vector<std::string> plain_changes(const std::string& option, Verdict verdict, const Comparison& comparison) {
  std::vector<const Difference*> list;
  for (const Difference& d : comparison.differences) {
    if (d.option != option || d.verdict != verdict) continue;
    const bool known =
        std::any_of(list.begin(), list.end(), [&](const Difference* x) { return x->quantity == d.quantity; });
    if (!known) list.push_back(&d);
  }
  const auto size = [](const Difference* d) { return d->percent ? std::abs(*d->percent) : 1e9; };
  std::stable_sort(list.begin(), list.end(), [&](const auto* a, const auto* b) { return size(a) > size(b); });
  std::vector<std::string> words;
  for (std::size_t k = 0; k < std::min(list.size(), kMostChanges); ++k)
    words.push_back(std::string(list[k]->quantity->words) + " (" + std::string(name_of(list[k]->phase)) + ")");
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
  sheet.blocks.push_back(
      viz::ReportText{"A computer model of a foot was loaded in " + std::to_string(results.size()) +
                      " ways of shoeing. It shows where load goes, not how a horse feels. Taking load off one part "
                      "puts it on another. Your "
                      "veterinarian and farrier decide, and how your horse goes decides with them."});
  viz::ReportTable table{"Against \"" + results.front().run.name + "\", the largest changes in the model",
                         {"way of shoeing", "more load on", "less load on"},
                         {}};
  for (std::size_t k = 1; k < results.size(); ++k)
    table.rows.push_back({results[k].run.name, joined(plain_changes(results[k].run.name, Verdict::worse, comparison)),
                          joined(plain_changes(results[k].run.name, Verdict::better, comparison))});
  sheet.blocks.push_back(std::move(table));
  sheet.blocks.push_back(
      viz::ReportText{"If the horse is worse, the foot is hot or its pulse is strong, call the veterinarian: a model "
                      "cannot see that."});
  sheet.blocks.push_back(viz::ReportText{"Talked over with: ____________________   Date: __________"});
  return sheet;
}

}  // namespace hoofload::scenarios
