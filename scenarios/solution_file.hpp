// Solved phases of one model on disk: a process that opens the same case again starts where another one ended.
//
// What is read back is the state bit by bit, so every number that is read off it is the one of the solve that wrote it. A file
// belongs to one key (the resolved case) and to one build of the program; any other, a damaged or an unreadable one is as none.
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "scenarios/phases.hpp"

namespace hoofload::scenarios {

struct StoredSolution {
  std::string key;
  std::vector<PhaseSolution> phases;
  std::vector<std::pair<Phase, double>> slack;  ///< tendon's slack lengths [mm], as after the solve
};

/// CBOR (RFC 8949); numbers as their eight bytes.
[[nodiscard]] std::string to_bytes(const StoredSolution& stored, const std::string& program);
/// Nothing if the bytes are no such file, are cut off, or come from another program.
[[nodiscard]] std::optional<StoredSolution> from_bytes(std::string_view bytes, const std::string& program);

/// Whether the states have the unknowns, contacts, springs and element internals of the model.
[[nodiscard]] bool fits(const StoredSolution& stored, const BuiltModel& built);

/// A folder of such files, the least recently used of which make room.
struct SolutionStore {
  std::filesystem::path folder;
  std::string program;    ///< build that may read them
  std::size_t most = 64;  ///< files
};

/// $XDG_CACHE_HOME/hoofload, else ~/.cache/hoofload (XDG Base Directory Specification 0.8); nothing without a home.
[[nodiscard]] std::optional<SolutionStore> users_store();

[[nodiscard]] std::optional<StoredSolution> fetch(const SolutionStore& store, const std::string& key);
/// Keeps a solution for later; a folder that cannot be written keeps nothing. Whole stances are not kept.
void put(const SolutionStore& store, const StoredSolution& stored);

}  // namespace hoofload::scenarios
