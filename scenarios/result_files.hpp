// A comparison as a folder: result.json, table.md, pictures (SVG), fields (VTU with one PVD an option and model).
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "scenarios/run.hpp"

namespace hoofload::scenarios {

/// Writes a file, folders included. Throws std::runtime_error with path and reason.
void write_file(const std::filesystem::path& path, const std::string& text);

/// Name fit for a file: lower-case letters, digits and single dashes; never empty.
[[nodiscard]] std::string file_stem(const std::string& text);

/// "03-set-back-1-4-in": place in the comparison and name, so no two runs share a file.
[[nodiscard]] std::string run_stem(const std::vector<RunResult>& results, std::size_t run);

/// VTU of every solved state under `folder`/fields, and a PVD an option and model. Returns what was written.
std::vector<std::filesystem::path> write_fields(const std::vector<RunResult>& results,
                                                const std::filesystem::path& folder);

/// VTU of the last good state of every phase that was not solved, in `folder`. Returns what was written.
std::vector<std::filesystem::path> write_last_good(const std::vector<RunResult>& results,
                                                   const std::filesystem::path& folder);

/// SVG under `folder`/pictures. Returns what was written.
std::vector<std::filesystem::path> write_pictures(const std::vector<RunResult>& results,
                                                  const std::filesystem::path& folder);

}  // namespace hoofload::scenarios
