// A thousand random feet, shoes and packings through the reader's door and all phases: nearly all must be solved, each failure
// must say why, and nothing accepted may violate equilibrium, contact or det F > 0. On demand only:
//
//   HOOFLOAD_FEET=1000 build/tests/physics_test --gtest_filter='RandomFeetStudy.*'
//
// Common practice, no source. Ranges of the foot: docs/reference-foot.md; of the materials: the catalogue's own.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <map>

#include "tests/scenarios/case_fixture.hpp"
#include "tests/support/random_foot.hpp"
#include "tests/support/record.hpp"
#include "tests/support/shod_foot.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

/// Largest tensile force and largest overlap of a contact that the phase accepted [N, mm].
std::pair<double, double> contact_violation(const scenarios::BuiltModel& built, const PhaseResult& phase) {
  const auto& points = built.system->contact_points();
  const auto& solution = phase.solution;
  double pull = 0, overlap = 0;
  for (std::size_t k = 0; k < points.size(); ++k) {
    const auto& status = solution.state.contact[k];
    if (points[k].tied || status.dormant) continue;
    if (status.closed) {
      pull = std::max(pull, -solution.reactions[points[k].normal]);
    } else {
      const double bound = status.offset_normal - (points[k].gap - solution.loading.ramp * points[k].interference);
      overlap = std::max(overlap, bound - solution.state.q[points[k].normal]);
    }
  }
  return {pull, overlap};
}

constexpr double kDensity = 0.25;  ///< coarse: a thousand feet in half an hour

struct Tally {
  int cases = 0, refused = 0, phases = 0, failed = 0, violations = 0;
  std::map<std::string, int> reasons;
};

void judge(const scenarios::ModelResult& model, std::uint64_t seed, Tally& tally) {
  const std::string name(scenarios::name_of(model.kind));
  if (!model.built) {
    ++tally.phases, ++tally.failed, ++tally.reasons[name + ", not built: " + model.why];
    std::printf("seed %llu, %s: not built: %s\n", static_cast<unsigned long long>(seed), name.c_str(),
                model.why.c_str());
    return;
  }
  for (const PhaseResult& phase : model.phases) {
    ++tally.phases;
    const std::string what = name + ", " + std::string(scenarios::name_of(phase.phase));
    if (!phase.solved) {
      ++tally.failed, ++tally.reasons[what + ": " + (phase.why.empty() ? "SILENT" : phase.why)];
      std::printf("seed %llu, %s: %s\n", static_cast<unsigned long long>(seed), what.c_str(), phase.why.c_str());
      EXPECT_FALSE(phase.why.empty());
      continue;
    }
    const double load = std::max(10.0, phase.solution.loading.normal_force);  // in the air clinches press with kilonewtons
    const auto [pull, overlap] = contact_violation(*model.built, phase);
    // Energy is finite only while det F > 0 at every point.
    const bool is_whole = std::isfinite(model.built->system->energy(phase.solution.state, phase.solution.loading));
    // The solver takes a state whose steps end in round-off below 1e-7 of the load (stiff horn under a light load does).
    if (phase.balance.force < 1e-7 && phase.balance.moment < 1e-7 && pull < 1e-6 * load && overlap < 1e-8 && is_whole)
      continue;
    ++tally.violations;
    std::printf("seed %llu, %s: force %.1e moment %.1e pull %.1e N overlap %.1e mm, det F %s\n",
                static_cast<unsigned long long>(seed), what.c_str(), phase.balance.force, phase.balance.moment, pull,
                overlap, is_whole ? "> 0" : "<= 0");
  }
}

TEST(RandomFeetStudy, nearly_all_are_solved_and_none_violates_what_it_must_hold) {
  std::setvbuf(stdout, nullptr, _IOLBF, 0);
  const char* wanted = std::getenv("HOOFLOAD_FEET");
  const char* first = std::getenv("HOOFLOAD_FIRST_SEED");
  const int feet = wanted != nullptr ? std::atoi(wanted) : 1000;
  Tally tally;
  for (std::uint64_t seed = first != nullptr ? std::strtoull(first, nullptr, 10) : 1; tally.cases < feet; ++seed) {
    const auto reading = scenarios::read(random_case(seed, kDensity));
    if (!reading.errors.empty()) {
      ++tally.refused;
      ASSERT_LT(tally.refused, 10 * feet + 10) << scenarios::all_errors(reading.errors);
      continue;
    }
    ++tally.cases;
    if (feet == 1) std::printf("%s", random_case(seed, kDensity).c_str());  // one alone: to be looked at as a case file
    for (const RunResult& run : scenarios::solve_runs(reading.runs, catalogue()))
      for (const auto& model : run.models) judge(model, seed, tally);
  }
  std::printf("%d cases (%d drawn and refused at the door), %d phases: %d not solved (%.2f %%), %d violations\n",
              tally.cases, tally.refused, tally.phases, tally.failed, 100.0 * tally.failed / tally.phases,
              tally.violations);
  for (const auto& [reason, count] : tally.reasons) std::printf("  %4d  %s\n", count, reason.c_str());
  const Claim claim{"random feet, shoes, packings and moduli are solved, and none violates what it must hold",
                    "goal of this study", text("density %g, %d feet", kDensity, tally.cases)};
  record_finding(claim, "phases not solved", "at most 0.5 %",
                 text("%.2f %% of %d", 100.0 * tally.failed / tally.phases, tally.phases),
                 200 * tally.failed > tally.phases);
  record_finding(claim, "violations", "0", text("%d", tally.violations), tally.violations > 0);
  EXPECT_LE(200 * tally.failed, tally.phases);
  EXPECT_EQ(tally.violations, 0);
}

}  // namespace
