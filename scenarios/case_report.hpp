// What `hoofload check` says of a case.
#pragma once

#include "scenarios/case.hpp"

#include <nlohmann/json_fwd.hpp>
#include <string>

namespace hoofload::scenarios {

/// {"schema": "hoofload-check/1", "file", "errors": [...], "warnings": [...], "runs": [...]}.
[[nodiscard]] nlohmann::json check_json(const std::string& file, const CaseReading& reading);

/// The runs, what each changes, and what was left to defaults. For a reading without errors.
[[nodiscard]] std::string check_text(const std::string& file, const CaseReading& reading);

}  // namespace hoofload::scenarios
