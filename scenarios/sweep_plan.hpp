// A sweep's plan: a base case, what varies in it, and how the runs are drawn. TOML, read with the case's own rules
// for keys, units and ranges. The same plan always gives the same runs; their fingerprint is what a file of results
// belongs to.
#pragma once

#include "scenarios/case_overlay.hpp"
#include "scenarios/distribution.hpp"
#include "scenarios/unit_points.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace hoofload::scenarios {

/// sobol_indices: the designs A, B and, for each input, A with that input's column of B, `samples` runs each.
/// one_at_a_time: all inputs at their median, then each alone at 5 % and at 95 %.
enum class SweepMethod { grid, latin_hypercube, sobol, list, sobol_indices, one_at_a_time };

/// True when the values come from distributions, not from lists of runs.
[[nodiscard]] bool is_drawn(SweepMethod method);

/// One input that varies: among values (grid, list, a drawn choice) or by a distribution in the input's unit.
struct Variation {
  Input input;
  std::vector<std::string> values;
  std::optional<Distribution> distribution;
};

struct SweepPlan {
  std::string file, base;  ///< as given; the base with the plan's folder before it
  std::string title;
  SweepMethod method = SweepMethod::grid;
  std::int64_t samples = 0;  ///< of sobol, latin hypercube and sobol indices
  std::int64_t seed = 1;
  std::vector<Variation> variations;  ///< in the order of the file
  UnitPoints points;                  ///< of the drawn methods; of sobol indices A and B beside each other
};

struct PlanReading {
  SweepPlan plan;
  CaseErrors errors;
};

/// Reads the plan itself; every problem in one pass, with file, line and key. `base` is only named, not opened.
[[nodiscard]] PlanReading read_sweep_plan(std::string_view text, const std::string& file,
                                          const MaterialWords& materials);

/// Number of runs that the plan describes.
[[nodiscard]] std::size_t run_count(const SweepPlan& plan);

/// What run `run` sets, one value a variation. Drawn numbers are rounded to nine figures, so that a last bit of a
/// mathematical library cannot make another plan.
[[nodiscard]] std::vector<InputValue> settings_of(const SweepPlan& plan, std::size_t run);

/// "grid", "latin hypercube", ...
[[nodiscard]] std::string_view name_of(SweepMethod method);

}  // namespace hoofload::scenarios
