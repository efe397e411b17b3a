// The resolved case: every value in use, defaults included, as TOML that reads back to the same case and as JSON.
#pragma once

#include "scenarios/case.hpp"

#include <nlohmann/json_fwd.hpp>
#include <string>

namespace hoofload::scenarios {

/// A case file of this one run. Keys without effect in it are left out.
[[nodiscard]] std::string resolved_case_toml(const Case& c);

/// {"name": ..., "sha256": ..., "foot": {"toe_angle": {"value": 48, "unit": "deg", "origin": "given"}, ...}, ...}.
/// Numbers with a unit are objects of value, unit and, for lengths of shoeing, the inch fraction as "text"; "origin" is
/// given, default, or follows (from other measurements). "materials" holds the overrides.
[[nodiscard]] nlohmann::json resolved_case_json(const Case& c);

/// SHA-256 of the resolved TOML.
[[nodiscard]] std::string case_fingerprint(const Case& c);

}  // namespace hoofload::scenarios
