// A comparison for machines: "hoofload-result/1", described by docs/result.schema.json.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "scenarios/case_errors.hpp"
#include "scenarios/comparison.hpp"

namespace hoofload::scenarios {

/// What stands around the numbers.
struct ResultContext {
  std::string case_file;
  std::vector<std::string> warnings;  ///< of the reader, of the models, of what did not converge
};

/// A quantity's value is that of the model which resolves it best; the other model's stands under "also". Numbers that are
/// not finite are written as null. "low", "high" and "p_better" are null while nothing is sampled.
[[nodiscard]] nlohmann::json result_json(const std::vector<RunResult>& results, const Comparison& comparison,
                                         const ResultContext& context);

}  // namespace hoofload::scenarios
