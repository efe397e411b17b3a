// The runs of each lesson. What varies is common practice in the trade, no source; the loads are those of the phases.
#include "scenarios/lesson.hpp"

#include "scenarios/case_keys.hpp"

#include <array>

namespace hoofload::scenarios {
namespace {

const std::string kPacking = "silicone A30";
const std::string kPolymer = "polyurethane A90";

std::string quoted(const std::string& text) { return toml_string(text); }

struct Backing {
  std::string name;
  std::vector<Setting> settings;
};

Backing plate() {
  return {"plate",
          {{"shoe.type", quoted("full plate")},
           {"shoe.material", quoted(kPolymer)},
           {"shoe.plate_thickness", quoted("6 mm")}}};
}

std::vector<Backing> backings() {
  return {
      {"open shoe", {}},
      {"pad", {{"pad.type", quoted("full")}, {"pad.material", quoted(kPolymer)}, {"pad.thickness", quoted("3 mm")}}},
      plate()};
}

std::vector<Setting> joined(std::vector<Setting> a, const std::vector<Setting>& b) {
  a.insert(a.end(), b.begin(), b.end());
  return a;
}

std::vector<Setting> filling(const std::string& region, const std::string& order, const std::string& material) {
  return {{"packing.region", quoted(region)},
          {"packing.material", quoted(material)},
          {"packing.order", quoted(order + " nailing")}};
}

std::vector<Setting> proud(const std::string& height) {
  return joined(filling("full sole", "before", kPacking), {{"packing.proud", quoted(height)}});
}

/// Ten minutes of standing on it: the packing relaxes.
std::vector<Setting> rested() { return {{"packing.rested", quoted("10 min")}}; }

/// All fillings over one backing, the empty void first.
void add_fillings(const Backing& backing, const std::string& hardest, std::vector<LessonRun>& runs) {
  const auto add = [&](const std::string& name, const std::vector<Setting>& packing) {
    runs.push_back({backing.name + ": " + name, joined(backing.settings, packing)});
  };
  const auto both = [&](const std::string& name, const std::string& region, const std::string& material,
                        const std::vector<Setting>& more) {
    for (const std::string order : {"before", "after"})
      add(name + ", " + order, joined(filling(region, order, material), more));
  };
  add("unpacked", {});
  both("palmar two thirds", "palmar two thirds", kPacking, {});
  both("flush", "full sole", kPacking, {});
  for (const std::string height : {"0.5", "1", "2"}) add(height + " mm proud, before", proud(height + " mm"));
  both("hard-set", "full sole", hardest, {});
  both("toe only", "dorsal half", kPacking, {});
  both("rear of frog, 4 mm", "frog rear", kPacking, {{"packing.thickness", quoted("4 mm")}});
  both("rear of frog, deep", "frog rear", kPacking, {});
}

LessonPlan packing_plan(const MaterialWords& materials) {
  LessonPlan plan;
  plan.title = "Lesson: packing before and after nailing";
  plan.common = {{"load.phases", "[\"swing\", \"standing\"]"}};
  for (const Backing& backing : backings()) add_fillings(backing, hardest_packing(materials), plan.runs);
  plan.runs.push_back({"plate: 1 mm proud, before, rested", joined(joined(plate().settings, proud("1 mm")), rested())});
  for (const std::string depth : {"8", "12", "16"}) {
    const auto sole = joined(plate().settings, {{"foot.sole_depth_tip", quoted(depth + " mm")}});
    plan.runs.push_back({"sole " + depth + " mm under a plate: unpacked", sole});
    plan.runs.push_back({"sole " + depth + " mm under a plate: 1 mm proud, before", joined(sole, proud("1 mm"))});
    plan.runs.push_back(
        {"sole " + depth + " mm under a plate: flush, after", joined(sole, filling("full sole", "after", kPacking))});
  }
  plan.left = "plate: 1 mm proud, before";
  plan.right = "plate: flush, after";
  plan.shown = {"open shoe: unpacked",
                "plate: unpacked",
                plan.left,
                plan.right,
                "plate: toe only, before",
                "plate: rear of frog, 4 mm, after"};
  plan.notes = {
      "before, after: packed before or after nailing. Pad: " + kPolymer + ", 3 mm; plate: " + kPolymer +
          ", 6 mm; packing: " + kPacking + "; hard-set: " + hardest_packing(materials) +
          ", the hardest packing of the catalogue.",
      "Left out: proud after nailing (over a backing, what goes in then just fills the void; without one, "
      "the order of work does not squeeze it), and proud fillings of other regions and materials.",
      "Flush, proud and hard-set fill the full sole. Rested: the packing has relaxed for ten minutes; horn and "
      "lamellae do not creep here."};
  return plan;
}

LessonPlan setback_plan() {
  constexpr std::array<const char*, 7> steps = {"0 in", "1/16 in", "1/8 in", "3/16 in", "1/4 in", "5/16 in", "3/8 in"};
  LessonPlan plan;
  plan.lesson = Lesson::setback;
  plan.title = "Lesson: setback";
  plan.common = {{"load.phases", "[\"midstance\", \"breakover\"]"}, {"study.models", "[\"sagittal\"]"}};
  for (const std::string material : {"mild steel", "polyurethane A90"})
    for (const std::string toe : {"flat", "rolled"})
      for (const char* step : steps)
        plan.runs.push_back({(material == kPolymer ? "polymer, " : "steel, ") + toe + ": " + step,
                             {{"shoe.material", quoted(material)},
                              {"shoe.toe", quoted(toe)},
                              {"shoe.breakover", quoted(toe == "rolled" ? "15 mm" : "6 mm")},
                              {"shoe.setback", quoted(step)}}});
  plan.left = "steel, flat: 0 in";
  plan.right = "steel, flat: 3/8 in";
  plan.shown = {plan.left, plan.right, "steel, rolled: 0 in", "steel, rolled: 3/8 in"};
  plan.notes = {"Steel: mild steel; polymer: " + kPolymer +
                    ". Flat: ground contact from 6 mm behind the shoe's front edge (worn); rolled: from 15 mm.",
                "Sagittal model only: the axisymmetric one has no toe."};
  return plan;
}

LessonPlan elevation_plan() {
  LessonPlan plan;
  plan.lesson = Lesson::elevation;
  plan.title = "Lesson: heel elevation at trot";
  plan.density = 1;
  plan.common = {{"load.phases", "[\"midstance\"]"}, {"load.gait", "\"trot\""}, {"study.models", "[\"sagittal\"]"}};
  for (int k = 0; k <= 6; ++k) {
    const std::string angle = std::to_string(k) + " deg";
    plan.runs.push_back({"elevation " + angle, {{"shoe.elevation", quoted(angle)}}});
  }
  plan.left = plan.runs.front().name;
  plan.right = plan.runs.back().name;
  plan.notes = {
      "The muscle keeps the length that it has on the level shoe: an upper bound of what the tendon is relieved "
      "by; a horse that re-balances shows less.",
      "Sagittal model only: the axisymmetric one has no heel."};
  return plan;
}

LessonPlan trial_plan() {
  LessonPlan plan;
  plan.lesson = Lesson::trial;
  plan.title = "Lesson: a shoe taped on for a trial";
  plan.common = joined({{"load.phases", "[\"swing\", \"standing\"]"}}, plate().settings);
  const std::vector<LessonRun> fillings = {{"unpacked", {}},
                                           {"packed flush, before", filling("full sole", "before", kPacking)},
                                           {"packed 1 mm proud, before", proud("1 mm")},
                                           {"packed 1 mm proud, before, rested", joined(proud("1 mm"), rested())},
                                           {"packed flush, after", filling("full sole", "after", kPacking)}};
  for (const std::string held : {"nailed", "taped"})
    for (const LessonRun& filled : fillings)
      plan.runs.push_back({held + ": " + filled.name, joined({{"shoe.attachment", quoted(held)}}, filled.settings)});
  plan.left = "taped: packed 1 mm proud, before";
  plan.right = "nailed: packed 1 mm proud, before";
  plan.notes = {"Full plate of " + kPolymer + ", 6 mm; packing: " + kPacking +
                    "; before, after: put in before or after the shoe is fastened.",
                "Rested: the packing has relaxed for ten minutes; horn and lamellae do not creep here."};
  return plan;
}

}  // namespace

LessonPlan lesson_plan(Lesson lesson, const MaterialWords& materials) {
  switch (lesson) {
    case Lesson::packing:
      return packing_plan(materials);
    case Lesson::setback:
      return setback_plan();
    case Lesson::elevation:
      return elevation_plan();
    case Lesson::trial:
      break;
  }
  return trial_plan();
}

}  // namespace hoofload::scenarios
