// The house rules that a machine can check. Each returns one line for every violation, "file:line: what", none if all is well.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace hoofload::style {

using Violations = std::vector<std::string>;

/// Includes of our own files: written from the root, and only along the arrow
/// materials -> {}, mesh -> {}, solver -> {materials, mesh}, viz -> {mesh, solver/solution.hpp, solver/fields.hpp},
/// scenarios -> {all four}, tests -> {all}.
[[nodiscard]] Violations wrong_includes(const std::filesystem::path& root);

/// Code files of more than `limit` lines.
[[nodiscard]] Violations long_files(const std::filesystem::path& root, int limit);

/// Words of the trade in solver/ and in the laws of materials/, which serve any solid.
[[nodiscard]] Violations hoof_words(const std::filesystem::path& root);

/// Equation numbers: docs/theory.md counts 1, 2, 3, ... and whatever code cites as Eq. (n) is there.
[[nodiscard]] Violations wrong_equations(const std::filesystem::path& root);

/// Anything at the top level but the agreed names, dot files and build trees.
[[nodiscard]] Violations stray_top_level(const std::filesystem::path& root);

/// Words in string literals of viz/ and scenarios/ by which the program would judge a horse or give advice.
/// The fixed caution (viz/cautions.hpp), which denies them, is left out.
[[nodiscard]] Violations claims(const std::filesystem::path& root);

/// Traces of the place where the code was written: machine paths, numbers of tickets.
[[nodiscard]] Violations private_traces(const std::filesystem::path& root);

}  // namespace hoofload::style
