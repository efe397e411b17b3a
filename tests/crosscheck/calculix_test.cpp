// CalculiX (ccx), at work now: it solves the fixed shod-foot-like section from a mesh, laws, loads and contact that hoofload
// exports, at some 4,900 nodes, and its displacements are read by the extractor that reads every other program's.
//
// Source of the spreads: CalculiX 2.20, dolfinx 0.5.2 and GetFEM 5.4.2 on the same mesh, own runs of 2026 by drivers that share
// no code with those used here. Asked for: sink and share within half a percent of the spread, peak within one percent. The
// same elements (displacement triangles) on both sides, so only contact (theirs a penalty, ours a bound) may differ.
#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <memory>

#include "tests/reference/peer_foot.hpp"
#include "tests/reference/problem_json.hpp"
#include "tests/support/record.hpp"

namespace {

using namespace hoofload;
using reference::Json;
using reference::Reading;

std::string output_of(const std::string& command) {
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
  if (!pipe) return {};
  std::string text;
  std::array<char, 4096> buffer;
  while (const std::size_t n = std::fread(buffer.data(), 1, buffer.size(), pipe.get())) text.append(buffer.data(), n);
  return text;
}

/// What ccx makes of a problem; throws with what it said when it has no answer.
Reading ask_ccx(const reference::Problem& problem, const std::string& name) {
  const std::string path = ::testing::TempDir() + name + ".json";
  std::ofstream(path) << reference::problem_json(problem, 100).dump();
  const std::string said = output_of("/usr/bin/python3 tests/reference/compare.py --child ccx " + path + " '{}' 2>&1");
  const std::size_t at = said.rfind("READING");
  if (at == std::string::npos) throw std::runtime_error("no answer from ccx: " + said);
  const Json r = Json::parse(said.substr(at + 7));
  return {r.at("sink_mm"), r.at("load_N"), r.at("share_pct"), r.at("p_mean_MPa"), r.at("p_peak_MPa")};
}

struct Spread {
  double low, high;
};
struct Programs {
  Spread sink, share, peak;
};

void expect_within(const char* what, double value, const Spread& spread, double relative) {
  std::printf("  %s %.5g, spread %.5g to %.5g\n", what, value, spread.low, spread.high);
  EXPECT_GT(value, (1 - relative) * spread.low) << what;
  EXPECT_LT(value, (1 + relative) * spread.high) << what;
}

void expect_agreement(char variant, const Programs& programs) {
  ASSERT_EQ(std::system("command -v ccx >/dev/null"), 0)
      << "ccx is missing: bash scenarios/install.sh --tests installs it";
  const reference::Problem problem =
      reference::peer_foot({variant, mesh::PeerSize::k5, 169, solver::Formulation::displacement});
  const Reading theirs = ask_ccx(problem, std::string("ccx-peer-") + variant);
  const Reading ours = reference::solve(problem).reading;
  std::printf("ccx:\n");
  expect_within("sink", theirs.sink, programs.sink, 5e-3);
  expect_within("share", theirs.share, programs.share, 5e-3);
  expect_within("peak", theirs.peak, programs.peak, 1e-2);
  std::printf("hoofload:\n");
  expect_within("sink", ours.sink, programs.sink, 5e-3);
  expect_within("share", ours.share, programs.share, 5e-3);
  expect_within("peak", ours.peak, programs.peak, 1e-2);
  const auto compare = [&](const char* what, double reference, double value, double goal) {
    tests::record({"ccx at work, same mesh and elements: sink [mm], share [%], peak [MPa]", "CalculiX, run by the test",
                   "4,900 nodes", goal},
                  tests::text("%c %s", variant, what), reference, value);
  };
  compare("sink", theirs.sink, ours.sink, 0.5);
  compare("share", theirs.share, ours.share, 0.5);
  compare("peak", theirs.peak, ours.peak, 1);
  EXPECT_NEAR(ours.sink, theirs.sink, 5e-3 * theirs.sink);
  EXPECT_NEAR(ours.share, theirs.share, 5e-3 * theirs.share);
  EXPECT_NEAR(ours.peak, theirs.peak, 1e-2 * theirs.peak);
}

TEST(CalculiX, solves_the_bonded_linear_section_alike) {
  expect_agreement('a', {{0.17431, 0.17431}, {21.65, 21.66}, {0.1084, 0.1084}});
}

TEST(CalculiX, solves_the_section_in_frictionless_contact_at_finite_strain_alike) {
  expect_agreement('c', {{0.17549, 0.17550}, {18.30, 18.33}, {0.0898, 0.0904}});
}

}  // namespace
