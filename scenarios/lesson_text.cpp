// A lesson as it is printed.
#include "scenarios/lesson_story.hpp"

#include <algorithm>

#include "scenarios/result_table.hpp"
#include "viz/cautions.hpp"
#include "viz/text.hpp"

namespace hoofload::scenarios {
namespace {

constexpr int kWidth = 100;
constexpr int kCell = 14;
constexpr auto kAxisymmetric = ModelKind::axisymmetric;
constexpr auto kSagittal = ModelKind::sagittal;

/// Rows of the side-by-side part: loads that the options move about, ledger included.
const std::vector<std::string> kSides = {"swing_sole_pressure",
                                         "sole_pressure_peak",
                                         "corium_pressure_peak",
                                         "bone_share_lamellae",
                                         "bone_share_sole",
                                         "bone_share_frog",
                                         "ground_share_shoe",
                                         "ground_share_packing",
                                         "lamella_stress_dorsal",
                                         "bone_sink",
                                         "nail_force_max",
                                         "ddft_moment",
                                         "ddft_force",
                                         "navicular_force",
                                         "breakover_arm",
                                         "breakover_moment",
                                         "rollover_arm",
                                         "rollover_moment",
                                         "ground_pressure_heel",
                                         "palmar_angle_loaded"};

std::string heading(const std::string& text) { return "\n" + text + "\n"; }

std::string paragraph(const std::string& text) {
  std::string out;
  for (const std::string& part : viz::wrapped(text, kWidth)) out += part + "\n";
  return out;
}

/// "plate" of "plate: flush, after", and what stands behind it; a name without ": " has no group.
struct GroupedName {
  std::string group, rest;
};

GroupedName grouped(const std::string& name) {
  const std::size_t colon = name.find(": ");
  if (colon == std::string::npos) return {"", name};
  return {name.substr(0, colon), name.substr(colon + 2)};
}

int name_width(const std::vector<RunResult>& results) {
  int width = 8;
  for (const RunResult& r : results) width = std::max(width, viz::columns(grouped(r.run.name).rest) + 2);
  return width;
}

/// Columns by number, since a quantity, its phase, model and unit do not fit over a number.
std::string column_list(const std::vector<Column>& columns) {
  std::string out;
  for (std::size_t k = 0; k < columns.size(); ++k) {
    const Column& c = columns[k];
    out += "  (" + std::to_string(k + 1) + ") " + words_and_unit_of(c.key) + " · " + std::string(name_of(c.phase)) +
           " · " + std::string(name_of(c.model)) + "\n";
  }
  return out;
}

std::string table(const std::vector<RunResult>& results, const std::vector<Column>& columns) {
  const int width = name_width(results);
  std::string out = viz::left_aligned("run", width);
  for (std::size_t k = 0; k < columns.size(); ++k) out += viz::right_aligned("(" + std::to_string(k + 1) + ")", kCell);
  out += "\n";
  std::string group;
  for (const RunResult& r : results) {
    const GroupedName name = grouped(r.run.name);
    if (name.group != group) out += "-- " + name.group + "\n";
    group = name.group;
    out += viz::left_aligned("  " + name.rest, width);
    for (const Column& c : columns)
      out += viz::right_aligned(reading_text(find_reading(results, r.run.name, c)), kCell);
    out += "\n";
  }
  return out;
}

std::string side_row(const LessonPlan& plan, const std::vector<RunResult>& results, const Column& c) {
  const Reading* left = find_reading(results, plan.left, c);
  const Reading* right = find_reading(results, plan.right, c);
  if (left == nullptr && right == nullptr) return "";
  return "  " + viz::left_aligned(words_and_unit_of(c.key), 31) + viz::right_aligned(reading_text(left), 17) +
         viz::right_aligned(reading_text(right), 17) + "\n";
}

bool belongs(const std::string& key, Phase phase) {
  if (phase == Phase::swing) return key == "swing_sole_pressure" || key == "nail_force_max";
  return key != "swing_sole_pressure";
}

std::string side_by_side(const LessonPlan& plan, const std::vector<RunResult>& results) {
  std::string out = heading("Side by side") + "  [a] " + plan.left + "\n  [b] " + plan.right + "\n" +
                    std::string(33, ' ') + viz::right_aligned("[a]", 17) + viz::right_aligned("[b]", 17) + "\n";
  for (const Phase phase : results.front().run.load.phases)
    for (const ModelKind model : results.front().run.study.models) {
      std::string rows;
      for (const std::string& key : kSides)
        if (belongs(key, phase)) rows += side_row(plan, results, {key, phase, model});
      if (!rows.empty()) out += "-- " + std::string(name_of(phase)) + " · " + std::string(name_of(model)) + "\n" + rows;
    }
  return out;
}

std::string unsolved_text(const std::vector<RunResult>& results) {
  std::string out;
  for (const std::string& text : unsolved(results)) out += paragraph(text);
  return out.empty() ? out : heading("Not solved") + out;
}

}  // namespace

std::vector<Column> lesson_columns(Lesson lesson) {
  switch (lesson) {
    case Lesson::setback:
      return {{"breakover_arm", Phase::breakover, kSagittal},
              {"rollover_arm", Phase::breakover, kSagittal},
              {"rollover_moment", Phase::breakover, kSagittal},
              {"ddft_moment", Phase::midstance, kSagittal}};
    case Lesson::elevation:
      return {{"ddft_force", Phase::midstance, kSagittal},
              {"navicular_force", Phase::midstance, kSagittal},
              {"corium_pressure_peak", Phase::midstance, kSagittal},
              {"lamella_stress_dorsal", Phase::midstance, kSagittal},
              {"bone_sink", Phase::midstance, kSagittal},
              {"ground_pressure_heel", Phase::midstance, kSagittal}};
    case Lesson::trial:
      return {
          {"swing_sole_pressure", Phase::swing, kAxisymmetric},   {"swing_sole_pressure", Phase::swing, kSagittal},
          {"sole_pressure_peak", Phase::standing, kAxisymmetric}, {"sole_pressure_peak", Phase::standing, kSagittal},
          {"bone_sink", Phase::standing, kAxisymmetric},          {"bone_sink", Phase::standing, kSagittal}};
    case Lesson::packing:
      break;
  }
  return {{"swing_sole_pressure", Phase::swing, kAxisymmetric},    {"swing_sole_pressure", Phase::swing, kSagittal},
          {"sole_pressure_peak", Phase::standing, kAxisymmetric},  {"sole_pressure_peak", Phase::standing, kSagittal},
          {"bone_share_lamellae", Phase::standing, kAxisymmetric}, {"bone_share_lamellae", Phase::standing, kSagittal}};
}

std::string lesson_text(const LessonPlan& plan, const std::vector<RunResult>& results, const Comparison& comparison) {
  const auto columns = lesson_columns(plan.lesson);
  std::string out = plan.title + "\n\n" + column_list(columns) + "\n" + table(results, columns) +
                    side_by_side(plan, results) + unsolved_text(results) + heading("Notes");
  out += paragraph("± is the mesh bar of the value; differences within the bars are not distinguishable.");
  for (const std::string& note : plan.notes) out += paragraph(note);
  return out + heading("What the numbers say") + paragraph(closing_sentence(plan, results, comparison)) + "\n" +
         paragraph(std::string(viz::caution_text));
}

}  // namespace hoofload::scenarios
