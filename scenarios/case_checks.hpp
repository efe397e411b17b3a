// What no single value shows: geometry that cannot be, and settings that contradict each other.
#pragma once

#include "scenarios/case.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace hoofload::scenarios {

/// A clash of several keys. The first of `keys` that the file gives is the place to point at.
struct Clash {
  std::vector<std::string_view> keys;
  std::string problem;
  std::string value;  ///< the numbers that clash
  std::string allowed;
};

/// Impossible geometry and missing companions of a completed run (a press without a force, a region without material).
[[nodiscard]] std::vector<Clash> clashes(const Case& c);

/// Measurements that disagree by more than they can be read; the run is solved all the same.
[[nodiscard]] std::vector<Clash> doubts(const Case& c);

/// Why a key has no effect in a run; `reason` is empty if it has one. A contradiction is an error where the file sets the
/// key; otherwise it is merely not needed (the gait of a run that only stands).
struct Unused {
  std::string_view reason;
  bool contradiction = false;
};

[[nodiscard]] Unused why_unused(const Case& c, std::string_view key);

}  // namespace hoofload::scenarios
