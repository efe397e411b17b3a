// Problems that hoofload exported and other programs solved on the same mesh: CalculiX 2.20, dolfinx 0.5.2, GetFEM 5.4.2.
//
// Source of every reference value: tests/reference/values.json, written by the command that stands in it. With displacement
// triangles as the others have them the same discrete problem is solved, so only contact differs (theirs a penalty, ours a
// bound) and the programs' own integration. As the program solves it (mixed elements) it is held against the others' twice
// finer mesh.
#include <gtest/gtest.h>

#include <fstream>

#include "tests/reference/peer_foot.hpp"
#include "tests/reference/problem_json.hpp"
#include "tests/reference/sheet.hpp"
#include "tests/support/record.hpp"

namespace {

using namespace hoofload;
using reference::Json;
using reference::Problem;
using reference::Reading;

const Json& rows() {
  static const Json all = [] {
    std::ifstream in(materials::data_directory().parent_path() / "tests" / "reference" / "values.json");
    return Json::parse(in).at("rows");
  }();
  return all;
}

const materials::Catalogue& catalogue() {
  static const materials::Catalogue all = materials::load_catalogue();
  return all;
}

/// Largest relative difference allowed in sink or load, share, mean and peak.
struct Bounds {
  double sink, share, mean, peak;
};

/// What a row prescribes and no program answers.
const char* given(const std::string& row) { return row.starts_with("peer") ? "load_N" : "sink_mm"; }

std::string quantity_of(std::string_view key) {
  return std::string(key == "p_mean_MPa"   ? "mean pressure"
                     : key == "p_peak_MPa" ? "peak pressure"
                     : key == "share_pct"  ? "share"
                                           : "sink or load");
}

void expect_alike(const std::string& row, const std::string& program, const Reading& ours, const Bounds& bounds) {
  const Json& theirs = rows().at(row).at(program);
  const auto expect = [&](const char* key, double value, double bound) {
    const double other = theirs.at(key).get<double>();
    std::printf("  %s, %s: %s %.5g, ours %.5g (%+.2f %%)\n", row.c_str(), program.c_str(), key, other, value,
                100 * (value / other - 1));
    EXPECT_NEAR(value, other, bound * other) << row << ' ' << program << ' ' << key;
    const double goal = row.find(" c") != std::string::npos && row.starts_with("foot") ? 2 : 1;
    if (key != std::string_view(given(row)))
      tests::record({"exported problems, solved by " + program + ": " + quantity_of(key), "tests/reference/values.json",
                     "same mesh; fine: twice as fine", goal},
                    row, other, value);
  };
  expect("sink_mm", ours.sink, bounds.sink);
  expect("load_N", ours.load, bounds.sink);
  expect("share_pct", ours.share, bounds.share);
  expect("p_mean_MPa", ours.mean, bounds.mean);
  expect("p_peak_MPa", ours.peak, bounds.peak);
}

Reading peer(char variant, double kappa = 169) {
  return solve(reference::peer_foot({variant, mesh::PeerSize::k5, kappa, solver::Formulation::displacement})).reading;
}
Reading foot(char variant, bool displacement_only) {
  return solve(reference::own_foot(
                   {.variant = variant, .sink = variant == 'a' ? 0.4 : 0.1, .displacement_only = displacement_only},
                   catalogue()))
      .reading;
}
Reading sheet(char variant, bool displacement_only) {
  return solve(reference::sheet({.variant = variant, .displacement_only = displacement_only}, catalogue())).reading;
}

// Bonded: the equations are the same to the last digit; ccx integrates over a wedge of two degrees and prints seven digits; the
// peak is a hat projection that two codes make.
constexpr Bounds bonded{1e-3, 1e-3, 1e-3, 3e-3};

TEST(OtherPrograms, solve_the_linear_peer_foot_alike) {
  const Reading ours = peer('a');
  for (const char* program : {"ccx", "dolfinx", "getfem"}) expect_alike("peer a 5k", program, ours, bonded);
}
TEST(OtherPrograms, solve_the_hyperelastic_peer_foot_alike) {
  const Reading ours = peer('b');
  for (const char* program : {"ccx", "dolfinx", "getfem"}) expect_alike("peer b 5k", program, ours, bonded);
}

// Contact: asked for are half a percent in sink and share and one in the pressures; the three differ by 0.2 and 0.7 %.
TEST(OtherPrograms, solve_the_peer_foot_in_contact_alike) {
  const Reading ours = peer('c');
  for (const char* program : {"ccx", "dolfinx", "getfem"})
    expect_alike("peer c 5k", program, ours, {5e-3, 5e-3, 1e-2, 1e-2});
}

TEST(OtherPrograms, solve_the_own_foot_alike) {
  for (const char variant : {'a', 'b', 'c'}) {
    const Reading ours = foot(variant, true);
    const Bounds bounds = variant == 'c' ? Bounds{2e-2, 2e-2, 2e-2, 2e-2} : Bounds{1e-2, 1e-2, 1e-2, 1e-2};
    for (const char* program : {"ccx", "dolfinx"}) expect_alike(std::string("foot ") + variant, program, ours, bounds);
  }
}
TEST(OtherPrograms, on_a_finer_mesh_meet_the_own_foot_with_mixed_elements) {
  for (const char variant : {'a', 'b', 'c'}) {
    const double bound = variant == 'c' ? 2e-2 : 1e-2;
    expect_alike(std::string("foot ") + variant + " fine", "dolfinx", foot(variant, false),
                 {bound, bound, bound, bound});
  }
}

TEST(OtherPrograms, solve_a_sheet_of_even_breadth_alike) {
  for (const char variant : {'a', 'b'}) {
    const Reading ours = sheet(variant, true);
    for (const char* program : {"ccx", "dolfinx"}) expect_alike(std::string("sheet ") + variant, program, ours, bonded);
    expect_alike(std::string("sheet ") + variant + " fine", "dolfinx", sheet(variant, false), {1e-2, 1e-2, 1e-2, 1e-2});
  }
}

}  // namespace
