// What a page keeps or draws for the record: runs solved from the unloaded foot, and the draws if they are asked for.
#pragma once

#include "scenarios/page_work.hpp"
#include "scenarios/result_json.hpp"
#include "scenarios/study.hpp"

namespace hoofload::scenarios {

inline constexpr const char* kPageCaseFile = "page.toml";

[[nodiscard]] Reply json_reply(const nlohmann::json& j, int status = 200);

/// Tells the board how far that client's work is and breaks off what nobody wants any more.
[[nodiscard]] std::function<void(const RunProgress&)> reporter(Workshop& shop, const std::string& client,
                                                               const std::function<void()>& wanted);

struct Recorded {
  std::vector<RunResult> results;
  Comparison comparison;
  ResultContext context;
  std::optional<SampledStudy> study;  ///< when the case asks for draws
};

/// Solves the runs as `compare` does and then the draws, on all cores but one: that one is the sliders'. `report` may throw
/// to break off; draws that are being solved then are waited for.
[[nodiscard]] Recorded solve_for_record(const Workshop& shop, const std::string& text, const CaseReading& reading,
                                        const std::function<void(const RunProgress&)>& report);

}  // namespace hoofload::scenarios
