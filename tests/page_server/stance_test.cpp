// The stance on the page: one solve, all places, one scale.
#include <gtest/gtest.h>

#include "tests/page_server/served.hpp"

namespace hoofload::scenarios {
namespace {

using nlohmann::json;

// A walk's vertical force: two humps with a dip between (common knowledge of ground reaction curves, from memory); the tendon is
// pulled more late than early. Where no equilibrium is left the stance ends, and says why.
TEST(PageStance, is_solved_place_by_place_and_drawn_with_one_scale) {
  const Answer told = post(
      "api/stance",
      json{{"client", "stance"},
           {"runs",
            {{{"name", "A"}, {"settings", json::object()}}, {{"name", "B"}, {"settings", {{"shoe.setback", "3 mm"}}}}}}}
          .dump());
  ASSERT_EQ(told.status, 200) << told.body.substr(0, 300);
  const json answer = json::parse(told.body);
  const json& frames = answer.at("frames");
  ASSERT_GT(frames.size(), 25U);
  EXPECT_DOUBLE_EQ(frames.front().at("share"), 5);
  const json window = frames.front().at("scenes").at("0").at("window");
  double early = 0, late = 0;
  for (const json& frame : frames) {
    for (const auto& [run, scene] : frame.at("scenes").items()) {
      EXPECT_EQ(scene.at("window"), window);
      EXPECT_EQ(scene.at("ribbon").at("mm_per_kpa"), frames.front().at("scenes").at("0").at("ribbon").at("mm_per_kpa"));
    }
    if (!frame.at("scenes").contains("0")) continue;
    const double force = frame.at("values").at(0).at("ddft_force");
    (frame.at("share").get<double>() < 30 ? early : late) =
        std::max(frame.at("share").get<double>() < 30 ? early : late, force);
  }
  EXPECT_GT(late, early);
  for (const json& run : answer.at("runs")) EXPECT_EQ(run.at("places") == 37, run.at("why") == "") << run.dump();
  EXPECT_GT(answer.at("scale").at("levels").size(), 3U);
}

}  // namespace
}  // namespace hoofload::scenarios
