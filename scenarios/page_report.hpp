// The report, job sheet and owner's sheet of a comparison as one self-contained page (viz/report.hpp).
#pragma once

#include <string>
#include <vector>

#include "scenarios/comparison.hpp"
#include "scenarios/result_json.hpp"

namespace hoofload::scenarios {

[[nodiscard]] std::string page_report(const std::vector<RunResult>& results, const Comparison& comparison,
                                      const ResultContext& context);

}  // namespace hoofload::scenarios
