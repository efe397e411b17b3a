// Where a result comes from: program, libraries, case, meshes. With it, a result alone is enough to repeat it.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "scenarios/run.hpp"

namespace hoofload::scenarios {

/// {"program", "version", "commit", "libraries": {...}, "case_file", "case_sha256", "case_toml": [one text per run], "seed",
/// "meshes": [{"option", "model", "density", "plane_nodes", "plane_elements", "bricks", "unknowns"}]}.
/// The commit is "unknown" outside a checkout.
[[nodiscard]] nlohmann::json provenance_json(const std::string& case_file, const std::vector<RunResult>& results);

/// SHA-256 over the resolved text of all runs in order.
[[nodiscard]] std::string comparison_fingerprint(const std::vector<RunResult>& results);

/// "hoofload 0.1.0, commit 0123456789ab".
[[nodiscard]] std::string program_line();

/// One line for tables and figures: version, commit, first digits of the fingerprint.
[[nodiscard]] std::string provenance_line(const std::vector<RunResult>& results);

}  // namespace hoofload::scenarios
