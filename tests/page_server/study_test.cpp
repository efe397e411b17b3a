// Intervals on the page: the draws are those of a comparison, they can be stopped, and sliders go on meanwhile.
#include <gtest/gtest.h>

#include <chrono>
#include <future>

#include "tests/page_server/served.hpp"

namespace hoofload::scenarios {
namespace {

using nlohmann::json;

json asked(int draws, const std::string& client) {
  return {{"client", client},
          {"draws", draws},
          {"phase", "swing"},
          {"runs",
           {{{"name", "A"}, {"settings", json::object()}},
            {{"name", "B"},
             {"settings",
              {{"shoe.type", "full plate"},
               {"shoe.material", "polyurethane A90"},
               {"packing.region", "full sole"},
               {"packing.material", "silicone A30"},
               {"packing.order", "before nailing"},
               {"packing.proud", "1 mm"}}}}}}};
}

const json* drawn(const json& answer, const std::string& key, const std::string& model) {
  for (const json& d : answer.at("differences"))
    if (d.at("key") == key && d.at("model") == model) return &d;
  return nullptr;
}

// Packing that stands proud is squeezed whatever foot it is: the sole is pressed in the air in every draw, which is worse in
// every draw. Nothing presses under the open shoe.
TEST(PageDraws, what_happens_in_every_draw_has_an_interval_on_one_side_of_zero) {
  const Answer told = post("api/study", asked(20, "study").dump());
  ASSERT_EQ(told.status, 200) << told.body.substr(0, 300);
  const json answer = json::parse(told.body);
  const json* d = drawn(answer, "swing_sole_pressure", "axisymmetric");
  ASSERT_NE(d, nullptr) << answer.dump(1).substr(0, 500);
  EXPECT_GT(d->at("low"), 0);
  EXPECT_GE(d->at("median"), d->at("low"));
  EXPECT_GE(d->at("high"), d->at("median"));
  EXPECT_EQ(d->at("draws"), 20);
  EXPECT_EQ(d->at("p_better"), 0);
  EXPECT_TRUE(d->at("distinguishable"));
  EXPECT_GT(d->at("mesh_bar"), 0);  // apart from the interval, not part of it
  EXPECT_NE(answer.at("caution").get<std::string>().find("attending veterinarian"), std::string::npos);
}

TEST(PageDraws, draws_that_nobody_wants_any_more_end_early_and_say_so) {
  auto long_one = std::async(std::launch::async, [] { return post("api/study", asked(1000, "stopped").dump()); });
  std::string done;
  while (done.find("\"of\":10") == std::string::npos) {
    done = get("api/progress?of=stopped%20study").body;
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  }
  // The sliders' own worker is free.
  json slider = asked(0, "stopped");
  slider["number"] = 1;
  EXPECT_EQ(post("api/solve", slider.dump()).status, 200);
  EXPECT_EQ(post("api/cancel", R"({"client":"stopped"})").status, 200);
  EXPECT_EQ(long_one.get().status, 409);
  EXPECT_EQ(get("").status, 200);
}

}  // namespace
}  // namespace hoofload::scenarios
