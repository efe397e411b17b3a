#include "scenarios/pictures.hpp"

#include <gtest/gtest.h>

#include <regex>
#include <set>

#include "scenarios/fields.hpp"
#include "scenarios/result_files.hpp"
#include "solver/fields.hpp"
#include "tests/scenarios/solved_fixture.hpp"
#include "tests/viz/xml_check.hpp"
#include "viz/text.hpp"

namespace hoofload::scenarios {
namespace {

const std::vector<Picture>& small_pictures() {
  static const std::vector<Picture> pictures = all_pictures(small_results());
  return pictures;
}

const std::string& picture_called(const std::string& file) {
  for (const Picture& p : small_pictures())
    if (p.file == file) return p.svg;
  throw std::runtime_error("no picture " + file);
}

TEST(Pictures, each_phase_has_every_option_and_one_profile) {
  std::set<std::string> names;
  for (const Picture& p : small_pictures()) {
    EXPECT_TRUE(names.insert(p.file).second) << p.file << " twice";
    EXPECT_EQ(tests::xml_problem(p.svg), "") << p.file;
  }
  EXPECT_EQ(names.size(), 2U * (3 + 1));
}

TEST(Pictures, say_the_pressure_that_the_result_holds) {
  const double peak = small_results()[1].models[0].phases[1].values.at("sole_pressure_peak").value;
  ASSERT_GT(peak, 1);
  const std::string& packed = picture_called("standing_axisymmetric_01-plate-packed-before-nailing.svg");
  EXPECT_NE(packed.find(viz::number_text(peak) + " kPa"), std::string::npos);
  EXPECT_NE(picture_called("standing_axisymmetric_00-baseline.svg").find("pressure on the sole:"), std::string::npos);
}

// Options can be laid side by side only if a colour means the same in all of them: same ticks on the bar.
TEST(Pictures, options_of_a_phase_share_one_colour_scale) {
  const auto ticks = [](const std::string& svg) {
    const auto from = svg.find("stress, kPa");
    return svg.substr(from, svg.find("here ", from) - from);
  };
  const std::string a = ticks(picture_called("standing_axisymmetric_00-baseline.svg"));
  EXPECT_EQ(a, ticks(picture_called("standing_axisymmetric_01-plate-packed-before-nailing.svg")));
  EXPECT_GT(a.size(), 100U);
}

TEST(Pictures, state_the_magnification_of_displacements) {
  EXPECT_NE(picture_called("standing_axisymmetric_00-baseline.svg").find("deformation × 3<"), std::string::npos);
}

// Equilibrium: the vertical stress in the sole's corium, summed over its area, carries the bone's share of the load. The
// element means stand half an element off the surface, so 10 % is asked, no more (common practice, no source).
TEST(Fields, compressive_stress_of_the_corium_carries_the_share_of_the_load) {
  const ModelResult& model = small_results()[1].models[0];
  const PhaseResult& standing = model.phases[1];
  const auto stress = solver::nodal_stresses(*model.built->system, standing.solution.state, {"corium"});
  const auto& edges = model.built->mesh.edges.at("bone_corium").edges;
  double force = 0;
  for (const auto& e : edges) {
    const auto& X = model.built->mesh.X;
    const double r = X[static_cast<std::size_t>(e.mid)].x();
    const double dr = std::abs(X[static_cast<std::size_t>(e.b)].x() - X[static_cast<std::size_t>(e.a)].x());
    force -= stress[static_cast<std::size_t>(e.mid)](1, 1) * 2 * 3.14159265358979 * r * dr;
  }
  const double share = standing.values.at("bone_share_sole").value / 100 * standing.solution.loading.normal_force;
  ASSERT_GT(share, 100);
  EXPECT_NEAR(force / share, 1, 0.1);
}

TEST(Fields, a_uniform_pressure_has_no_von_mises_stress) {
  const solver::Mat3 sigma = -3.5 * solver::Mat3::Identity();
  EXPECT_DOUBLE_EQ(solver::pressure_of(sigma), 3.5);
  EXPECT_NEAR(solver::von_mises(sigma), 0, 1e-12);
  solver::Mat3 pull = solver::Mat3::Zero();  // uniaxial: von Mises is the stress itself (von Mises 1913)
  pull(0, 0) = 7;
  EXPECT_NEAR(solver::von_mises(pull), 7, 1e-12);
}

TEST(Fields, files_hold_a_value_for_every_node_and_cell) {
  const ModelResult& model = small_results()[0].models[0];
  const std::string vtu = plane_vtu(*model.built, model.phases[1].solution);
  EXPECT_EQ(tests::xml_problem(vtu), "");
  for (const char* name :
       {"displacement_mm", "sole_pressure_kPa", "stress_xx_yy_zz_xy_MPa", "pressure_MPa", "region_names"})
    EXPECT_NE(vtu.find(name), std::string::npos) << name;
}

TEST(ResultFiles, the_last_good_state_of_what_failed_is_kept) {
  auto results = small_results();
  results[1].models[0].phases[1].solved = false;
  const auto folder = std::filesystem::temp_directory_path() / "hoofload-last-good-test";
  const auto written = write_last_good(results, folder);
  ASSERT_EQ(written.size(), 1U);
  EXPECT_EQ(written[0].filename(), "last-good_01-plate-packed-before-nailing_standing_axisymmetric.vtu");
  EXPECT_GT(std::filesystem::file_size(written[0]), 1000U);
  std::filesystem::remove_all(folder);
}

TEST(ResultFiles, names_are_fit_for_any_file_system) {
  EXPECT_EQ(file_stem("set back 1/8 in"), "set-back-1-8-in");
  EXPECT_EQ(file_stem("../../etc"), "etc");
  EXPECT_EQ(file_stem("６°"), "run");
}

}  // namespace
}  // namespace hoofload::scenarios
