// Discretisation bars from a coarse twin: of a value, Eq. (77), and of a change between two options, Eq. (78).
#pragma once

#include <string_view>

namespace hoofload::scenarios {

/// One quantity on the mesh and on its coarse twin, and its size S (docs/theory.md, section 17), all in its unit.
struct TwinReading {
  double value = 0, twin = 0, size = 0;
};

/// False for what is read at a place (a patch, a point, one nail, a third of a face), on the sole's contact, which may open,
/// or as a small difference of two places' motions; true for all else: resultants, moments, arms, shares, means over a face.
[[nodiscard]] bool is_of_the_whole(std::string_view key);

/// k of Eq. (77): what is added on coarse meshes, by what the quantity is.
[[nodiscard]] double bar_factor(double density, bool of_the_whole);

/// S_0 of Eq. (77), in the unit that is given: less than that is nothing to anybody.
[[nodiscard]] double least_size(std::string_view unit);

[[nodiscard]] double bar_of_value(const TwinReading& reading, double factor);

/// Of option - baseline: what the two meshes share cancels.
[[nodiscard]] double bar_of_change(const TwinReading& baseline, const TwinReading& option, double factor);

}  // namespace hoofload::scenarios
