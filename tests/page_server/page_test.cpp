// The page's main job over its own door: set the shoe back, pack, switch phase; the newest request of a page wins.
#include <gtest/gtest.h>

#include <future>

#include "scenarios/page_lesson.hpp"
#include "tests/page_server/served.hpp"

namespace hoofload::scenarios {
namespace {

using nlohmann::json;

json foot() {
  return {{"foot.toe_angle", "48 deg"},
          {"foot.palmar_angle", "2 deg"},
          {"foot.sole_depth_tip", "11 mm"},
          {"foot.sole_cup", "8 mm"}};
}

json plate(bool before) {
  json s{{"shoe.type", "full plate"},          {"shoe.material", "polyurethane A90"},
         {"shoe.plate_thickness", "6 mm"},     {"packing.region", "full sole"},
         {"packing.material", "silicone A30"}, {"packing.order", before ? "before nailing" : "after nailing"}};
  if (before) s["packing.proud"] = "1 mm";
  return s;
}

json asked(const std::string& phase, const std::vector<json>& runs, const std::string& client = "t", int number = 0) {
  json list = json::array();
  for (const json& settings : runs)
    list.push_back({{"name", "run " + std::to_string(list.size())}, {"settings", settings}});
  return {{"client", client}, {"number", number}, {"phase", phase}, {"common", foot()}, {"runs", list}};
}

json solved(const json& request) {
  const Answer answer = post("api/solve", request.dump());
  EXPECT_EQ(answer.status, 200) << answer.body.substr(0, 300);
  return answer.status == 200 ? json::parse(answer.body) : json::object();
}

double value(const json& answer, int run, const char* model, const char* key) {
  return answer.at("runs").at(static_cast<std::size_t>(run)).at("models").at(model).at("values").at(key).get<double>();
}

// Statics: rolled over, a rigid shoe stands on its front edge, so the arm about the joint shortens by the setback;
// the capsule's
// own give is what the 10 % are for.
TEST(Page, setting_the_shoe_back_shortens_the_rolled_arm_by_that_much) {
  const json answer = solved(asked("breakover", {json::object(), {{"shoe.setback", "6.35 mm"}}}));
  const double change = value(answer, 1, "sagittal", "rollover_arm") - value(answer, 0, "sagittal", "rollover_arm");
  EXPECT_NEAR(change, -6.35, 0.635);
}

// What is squeezed by the nails presses with the foot in the air; what is filled in afterwards does not (design of
// the order of work).
TEST(Page, packing_before_nailing_presses_in_the_air_and_after_does_not) {
  const json answer = solved(asked("swing", {json::object(), plate(true), plate(false)}));
  EXPECT_NEAR(value(answer, 0, "axisymmetric", "swing_sole_pressure"), 0, 1e-9);
  EXPECT_GT(value(answer, 1, "axisymmetric", "swing_sole_pressure"), 5);
  EXPECT_NEAR(value(answer, 2, "axisymmetric", "swing_sole_pressure"), 0, 1e-3);
}

TEST(Page, pictures_share_scale_and_window_and_close_their_ledgers) {
  const json answer = solved(asked("standing", {json::object(), plate(false)}));
  for (const char* model : {"sagittal", "axisymmetric"}) {
    const json& runs = answer.at("scenes").at(model).at("runs");
    ASSERT_EQ(runs.size(), 2U);
    EXPECT_EQ(runs.at("0").at("window"), runs.at("1").at("window"));
    EXPECT_EQ(runs.at("0").at("ribbon").at("mm_per_kpa"), runs.at("1").at("ribbon").at("mm_per_kpa"));
    for (int run = 0; run < 2; ++run) {
      double sum = value(answer, run, model, "bone_share_lamellae") + value(answer, run, model, "bone_share_sole");
      if (std::string(model) == "sagittal") sum += value(answer, run, model, "bone_share_frog");
      EXPECT_NEAR(sum, 100, 0.5);  // the ledger's own tolerance
    }
  }
  // A section drawn by its parts covers what its mesh covers: the sole is there and has pressures where the profile
  // has.
  const json& profile = answer.at("runs")[1].at("models").at("axisymmetric").at("profile");
  double most = 0;
  for (const auto& p : profile.at("kPa")) most = std::max(most, p.get<double>());
  EXPECT_GT(most, 20);
  EXPECT_NE(answer.at("caution").get<std::string>().find("attending veterinarian"), std::string::npos);
}

TEST(Page, a_reading_is_the_same_whatever_was_asked_before) {
  const json first = solved(asked("standing", {json::object(), {{"foot.sole_depth_tip", "12 mm"}}}));
  (void)solved(asked("standing", {json::object(), {{"foot.sole_depth_tip", "15 mm"}}}));
  const json again = solved(asked("standing", {json::object(), {{"foot.sole_depth_tip", "12 mm"}}}));
  EXPECT_EQ(again.at("solved"), 0);
  EXPECT_EQ(first.at("runs"), again.at("runs"));
}

// An equilibrium does not know where Newton started, but for friction's history (no source); at rest nothing of a move is left.
TEST(Page, what_follows_a_slider_is_what_is_solved_where_it_rests) {
  const auto set_back = [](const char* by, bool moving) {
    json request = asked("standing", {json::object(), {{"shoe.setback", by}}}, "mover");
    request["moving"] = moving;
    return solved(request);
  };
  (void)set_back("1.6 mm", false);
  const json first = set_back("2 mm", true), second = set_back("2.4 mm", true), rest = set_back("2.4 mm", false);
  EXPECT_EQ(first.at("moving"), true);
  EXPECT_FALSE(second.at("scenes").at("sagittal").at("runs").at("1").contains("probe"));
  EXPECT_EQ(rest.at("moving"), false);
  EXPECT_TRUE(rest.at("scenes").at("sagittal").at("runs").at("1").contains("probe"));
  for (const char* key : {"ddft_moment", "cop", "ground_pressure_heel", "nail_force_max", "bone_sink"})
    EXPECT_NEAR(value(second, 1, "sagittal", key), value(rest, 1, "sagittal", key),
                2e-3 * std::abs(value(rest, 1, "sagittal", key)))
        << key;
}

TEST(Page, of_a_hundred_fast_moves_the_last_is_shown) {
  std::vector<std::future<Answer>> flying;
  for (int k = 1; k <= 100; ++k)
    flying.push_back(std::async(std::launch::async, [k] {
      return post(
          "api/solve",
          asked("swing", {json::object(), {{"shoe.setback", std::to_string(k * 0.1) + " mm"}}}, "fast", k).dump());
    }));
  int solved_ones = 0, dropped = 0;
  for (int k = 1; k <= 100; ++k) {
    const Answer answer = flying[static_cast<std::size_t>(k - 1)].get();
    EXPECT_TRUE(answer.status == 200 || answer.status == 409) << answer.status;
    (answer.status == 200 ? solved_ones : dropped)++;
    if (k < 100) continue;
    ASSERT_EQ(answer.status, 200);
    EXPECT_EQ(json::parse(answer.body).at("number"), 100);
  }
  EXPECT_GT(dropped, 50);
  EXPECT_EQ(post("api/solve", asked("swing", {json::object()}, "fast", 99).dump()).status, 409);
}

TEST(Page, two_pages_at_once_each_get_their_own) {
  auto one = std::async(std::launch::async, [] {
    return solved(asked("swing", {json::object(), plate(true)}, "one", 1));
  });
  auto two = std::async(std::launch::async, [] {
    return solved(asked("swing", {json::object(), plate(false)}, "two", 1));
  });
  const json a = one.get(), b = two.get();
  EXPECT_GT(value(a, 1, "axisymmetric", "swing_sole_pressure"), 5);
  EXPECT_NEAR(value(b, 1, "axisymmetric", "swing_sole_pressure"), 0, 1e-3);
}

TEST(Page, the_exported_case_is_a_case_file_for_the_record) {
  json request = asked("standing", {json::object(), plate(true)});
  request["wanted"] = "case";
  const Answer answer = post("api/export", request.dump());
  ASSERT_EQ(answer.status, 200);
  const CaseReading reading = read_case(answer.body, "kept.toml", material_words(materials::load_catalogue()));
  ASSERT_EQ(reading.runs.size(), 2U) << answer.body;
  EXPECT_TRUE(reading.runs[0].study.bars);
  EXPECT_EQ(reading.runs[0].load.phases.size(), 4U);
}

TEST(Page, an_exported_picture_is_an_svg_of_that_option) {
  json request = asked("swing", {json::object(), plate(true)});
  request["wanted"] = "picture";
  request["model"] = "axisymmetric";
  request["run"] = 1;
  const Answer answer = post("api/export", request.dump());
  ASSERT_EQ(answer.status, 200) << answer.body.substr(0, 200);
  EXPECT_NE(answer.body.find("<svg"), std::string::npos);
  EXPECT_NE(answer.body.find("run 1"), std::string::npos);
}

TEST(Page, every_question_of_a_lesson_is_two_runs_that_can_be_read) {
  const MaterialWords words = material_words(materials::load_catalogue());
  const auto questions = lesson_questions();
  for (std::size_t k = 0; k < questions.size(); ++k) {
    const CaseReading reading = lesson_question_runs(k, words);
    EXPECT_TRUE(reading.errors.empty()) << questions[k].ask << error_text(reading.errors.front());
    EXPECT_EQ(reading.runs.size(), 2U) << questions[k].ask;
    EXPECT_NE(find_quantity(questions[k].key), nullptr) << questions[k].key;
  }
  EXPECT_TRUE(lesson_question_runs(questions.size(), words).runs.empty());
}

// What is squeezed by the nails presses in the air, what fills the void afterwards does not: it falls to nothing.
TEST(Page, a_lesson_is_answered_by_the_solver) {
  const json told = json::parse(post("api/lesson", R"({"client":"l","question":0})").body);
  EXPECT_EQ(told.at("answer"), "falls");
  EXPECT_EQ(told.at("right"), "0");
}

TEST(Page, the_start_names_keys_materials_and_questions_but_no_answers) {
  const json start = json::parse(get("api/start").body);
  EXPECT_EQ(start.at("keys").at("shoe.setback").at("unit"), "mm");
  EXPECT_FALSE(start.at("materials").at("packing").empty());
  ASSERT_GE(start.at("lessons").size(), 4U);
  EXPECT_FALSE(start.at("lessons")[0].contains("answer"));
}

}  // namespace
}  // namespace hoofload::scenarios
