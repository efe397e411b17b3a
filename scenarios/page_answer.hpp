// What the page is told of a solved request, and how it may be changed: one JSON value each.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "scenarios/page_case.hpp"
#include "scenarios/page_solve.hpp"

namespace hoofload::scenarios {

/// Runs with their readings, scenes and sole-pressure profiles; differences against the first run, warnings, cautions.
[[nodiscard]] nlohmann::json answer_json(const PageRequest& request, const PageResult& result,
                                         const CaseErrors& reader_warnings);

/// {"problems": [{"key", "problem", "value", "allowed", "nearest"}]}
[[nodiscard]] nlohmann::json problems_json(const CaseErrors& errors);

/// Keys with unit, range and meaning; materials by kind; quantities; the runs of the demo's case file; lessons;
/// cautions.
[[nodiscard]] nlohmann::json start_json(const MaterialWords& materials, const std::string& demo_text);

}  // namespace hoofload::scenarios
