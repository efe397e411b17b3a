// The sagittal model's form error against the foot in three dimensions (docs/three-dimensional.md).
//
// Source of every reference value: tests/reference/foot3d.json, CalculiX 2.20 on the deck of tests/reference/foot3d.cpp, made by
// `bash tests/reference/foot3d.sh`. Tolerances: the goal (sink and rotation 10 %, shares 5 percentage points) where it is met,
// else what was measured, rounded up, with the word "miss" beside it. The white line's constant comes from one of these
// numbers (the sole's share, open shoe, load 1), which is therefore held tightly; all others are predictions.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "scenarios/build_model.hpp"
#include "tests/reference/foot3d_case.hpp"
#include "tests/reference/foot3d_sagittal.hpp"
#include "tests/support/record.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

constexpr double kDensity = 0.5;  ///< of the mesh: moves no value below by more than a fifth of its tolerance

const nlohmann::json& study() {
  static const nlohmann::json all = [] {
    std::ifstream in(std::filesystem::path(HOOFLOAD_DATA_DIR) / "tests/reference/foot3d.json");
    return nlohmann::json::parse(in);
  }();
  return all;
}

struct Expected {
  const char *foot, *shoeing, *load;
  double sink, rotation;  ///< relative
  double sole, packing;   ///< percentage points
};

class ThreeDimensions : public ::testing::TestWithParam<Expected> {};

TEST_P(ThreeDimensions, sagittal_model_predicts_motion_of_the_bone_and_both_ledgers) {
  const Expected& e = GetParam();
  const nlohmann::json space = study().at("feet").at(e.foot).at(e.shoeing).at(e.load).at("space");
  const double ahead = std::string(e.load) == "load 1" ? 0 : kForward;
  const auto ours = sagittal_at(comparison_case(e.foot, e.shoeing), ahead, kDensity, scenarios::kWhiteLineConstant);
  const auto at = [&](const char* key) { return space.at(key).get<double>(); };
  std::printf(
      "%s, %s, %s: sink %.3f / %.3f mm, rotation %.3f / %.3f deg, sole %.1f / %.1f %%, packing %.1f / %.1f %%\n",
      e.foot, e.shoeing, e.load, at("sink"), ours.at("sink"), at("rotation"), ours.at("rotation"),
      at("bone share sole"), ours.at("bone share sole"), at("packing share"), ours.at("packing share"));
  const std::string of = text("%s, %s, %s", e.foot, e.shoeing, e.load), source = "CalculiX 2.20, foot3d.json",
                    mesh = "density .5";
  record({"sagittal model against three dimensions: sink [mm]", source, mesh, 10}, of, at("sink"), ours.at("sink"));
  record({"sagittal model against three dimensions: rotation [deg]", source, mesh, 10}, of, at("rotation"),
         ours.at("rotation"));
  record_difference({"sagittal model against three dimensions: the sole's share [points]", source, mesh, 5}, of,
                    at("bone share sole"), ours.at("bone share sole"));
  if (at("packing share") != 0)
    record_difference({"sagittal model against three dimensions: the packing's share [points]", source, mesh, 5}, of,
                      at("packing share"), ours.at("packing share"));
  EXPECT_NEAR(ours.at("sink") / at("sink"), 1, e.sink);
  EXPECT_NEAR(ours.at("rotation") / at("rotation"), 1, e.rotation);
  EXPECT_NEAR(ours.at("bone share sole"), at("bone share sole"), e.sole);
  EXPECT_NEAR(ours.at("packing share"), at("packing share"), e.packing);
}

INSTANTIATE_TEST_SUITE_P(
    Foot, ThreeDimensions,
    ::testing::Values(Expected{"reference", "open", "load 1", 0.02, 0.02, 0.5, 0.01},
                      Expected{"reference", "open", "load 2", 0.10, 0.14, 5, 0.01},      // miss: rotation 12 %
                      Expected{"reference", "open packed", "load 1", 0.10, 0.10, 5, 7},  // miss: packing 6.4 points
                      Expected{"reference", "open packed", "load 2", 0.10, 0.16, 5, 6},  // misses: 15 %, 5.5 points
                      Expected{"reference", "plate packed", "load 1", 0.10, 0.10, 5, 5},
                      Expected{"reference", "plate packed", "load 2", 0.10, 0.10, 5, 5},
                      Expected{"thin sole", "open", "load 1", 0.10, 0.10, 5, 0.01},
                      Expected{"thin sole", "open packed", "load 1", 0.10, 0.10, 5.5, 5},  // miss: sole 5.2 points
                      Expected{"upright narrow", "plate packed", "load 1", 0.10, 0.10, 5, 5.5}));

/// Where the model is wrong it is wrong by a known factor; these bounds say so and would show a change either way.
TEST(ThreeDimensionsMisses, heels_spread_too_far_and_packed_soles_read_too_little_pressure) {
  const auto& feet = study().at("feet").at("reference");
  const auto ratio = [&](const char* shoeing, const char* key) {
    const auto ours = sagittal_at(comparison_case("reference", shoeing), 0, kDensity, scenarios::kWhiteLineConstant);
    const double theirs = feet.at(shoeing).at("load 1").at("space").at(key).get<double>();
    record({"sagittal model against three dimensions: what is known to be wrong", "CalculiX 2.20, foot3d.json",
            "density .5", 10},
           std::string(shoeing) + ", " + key, theirs, ours.at(key));
    return ours.at(key) / theirs;
  };
  EXPECT_NEAR(ratio("open", "heel spread"), 4.2, 0.3);                     // 0.234 against 0.056 mm
  EXPECT_NEAR(ratio("open packed", "sole pressure middle"), 0.49, 0.05);   // 54 against 110 kPa
  EXPECT_NEAR(ratio("plate packed", "sole pressure middle"), 0.91, 0.05);  // 154 against 169 kPa
}

}  // namespace
