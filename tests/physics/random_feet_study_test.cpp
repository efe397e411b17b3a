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
#include <random>
#include <sstream>

#include "tests/scenarios/case_fixture.hpp"
#include "tests/support/shod_foot.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

class Draw {
 public:
  explicit Draw(std::uint64_t seed) : engine_(seed) {}
  /// Uniform in [low, high), the same on every platform.
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_() >> 11) * 0x1.0p-53;
  }
  const std::string& one_of(const std::vector<std::string>& words) {
    return words[std::min(words.size() - 1, static_cast<std::size_t>(between(0, static_cast<double>(words.size()))))];
  }
  bool chance(double p) { return between(0, 1) < p; }

 private:
  std::mt19937_64 engine_;
};

/// The catalogue's entries that serve as this, but nothing that only holds a shoe on.
std::vector<std::string> ids_of(materials::Kind kind) {
  std::vector<std::string> ids;
  for (const auto& entry : catalogue().entries) {
    const bool is_fastener = entry.id.ends_with("glue") || entry.id == "nail steel";
    if (!is_fastener && std::find(entry.kinds.begin(), entry.kinds.end(), kind) != entry.kinds.end())
      ids.push_back(entry.id);
  }
  return ids;
}

void add_foot(Draw& draw, std::ostream& out) {
  const double length = draw.between(110, 145);
  out << "[horse]\nmass = \"" << draw.between(400, 650) << " kg\"\n[foot]\n";
  out << "toe_angle = \"" << draw.between(46, 55) << " deg\"\npalmar_angle = \"" << draw.between(1, 8) << " deg\"\n";
  out << "sole_depth_tip = \"" << draw.between(8, 20) << " mm\"\nsole_cup = \"" << draw.between(5, 13) << " mm\"\n";
  out << "bearing_length = \"" << length << " mm\"\nbearing_width = \"" << length * draw.between(0.92, 1.02)
      << " mm\"\n";
  out << "hl_proximal = \"" << draw.between(14.5, 18) << " mm\"\nwall_thickness_toe = \"" << draw.between(8.5, 11)
      << " mm\"\n";
}

void add_shoeing(Draw& draw, std::ostream& out) {
  static const auto shoes = ids_of(materials::Kind::shoe), pads = ids_of(materials::Kind::pad),
                    fillings = ids_of(materials::Kind::packing);
  const std::string type = draw.one_of({"bare", "open", "straight bar", "egg bar", "heart bar", "full plate"});
  out << "[shoe]\ntype = \"" << type << "\"\n";
  if (type == "bare") return;
  const double thickness = draw.between(8, 12);
  out << "material = \"" << draw.one_of(shoes) << "\"\nweb = \"" << draw.between(18, 26) << " mm\"\nthickness = \""
      << thickness << " mm\"\n";
  if (draw.chance(0.5)) out << "setback = \"" << draw.between(0, 12) << " mm\"\n";
  if (draw.chance(0.5)) out << "toe = \"" << draw.one_of({"rolled", "rocker", "square"}) << "\"\n";
  if (draw.chance(0.4)) out << "elevation = \"" << draw.between(0, 6) << " deg\"\n";
  out << "attachment = \"" << draw.one_of({"nailed", "nailed", "glued", "taped"}) << "\"\n";
  if (type == "full plate") out << "plate_thickness = \"" << draw.between(3, thickness) << " mm\"\n";
  const bool has_pad = draw.chance(0.3);
  if (has_pad)
    out << "[pad]\ntype = \"" << draw.one_of({"full", "rim"}) << "\"\nmaterial = \"" << draw.one_of(pads)
        << "\"\nthickness = \"" << draw.between(2, 6) << " mm\"\n";
  if (!draw.chance(0.6)) return;
  const std::string order = draw.one_of({"before nailing", "after nailing"});
  out << "[packing]\nregion = \"" << draw.one_of({"full sole", "dorsal half", "palmar two thirds", "frog rear"})
      << "\"\nmaterial = \"" << draw.one_of(fillings) << "\"\norder = \"" << order << "\"\nbond = \""
      << draw.one_of({"bonded", "frictional", "free"}) << "\"\n";
  if (order == "before nailing") out << "proud = \"" << draw.between(0, 2) << " mm\"\n";
}

/// Moduli of the tissues, each log-uniform over its own range in the catalogue.
void add_materials(Draw& draw, std::ostream& out) {
  static const std::vector<std::pair<std::string, std::string>> varied{{"wall", "E"},
                                                                       {"sole horn", "E"},
                                                                       {"frog horn", "E"},
                                                                       {"sole corium", "E"},
                                                                       {"lamellae", "C10"},
                                                                       {"lamellae", "C20"},
                                                                       {"digital cushion palmar", "E"}};
  out << "[materials]\n";
  for (const auto& [id, key] : varied) {
    const auto& p = materials::find(catalogue(), id)->parameters.at(key);
    out << '"' << id << "\"." << key << " = \"" << p.low * std::pow(p.high / p.low, draw.between(0, 1)) << ' ' << p.unit
        << "\"\n";
  }
}

std::string random_case(std::uint64_t seed, double density) {
  Draw draw(seed);
  std::ostringstream out;
  out << "schema = 1\ntitle = \"random foot\"\n";
  add_foot(draw, out);
  add_shoeing(draw, out);
  out << "[load]\ngait = \"" << draw.one_of({"walk", "trot"})
      << "\"\nphases = [\"swing\", \"standing\", \"midstance\", \"breakover\"]\n[study]\nbars = false\ndensity = "
      << density << "\n";
  add_materials(draw, out);
  return out.str();
}

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
    const double load = std::max(1.0, phase.solution.loading.normal_force);
    const auto [pull, overlap] = contact_violation(*model.built, phase);
    // Energy is finite only while det F > 0 at every point.
    const bool is_whole = std::isfinite(model.built->system->energy(phase.solution.state, phase.solution.loading));
    if (phase.balance.force < 1e-8 && phase.balance.moment < 1e-8 && pull < 1e-6 * load && overlap < 1e-8 && is_whole)
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
  EXPECT_LE(200 * tally.failed, tally.phases);
  EXPECT_EQ(tally.violations, 0);
}

}  // namespace
