// Discretisation bars from a coarse twin: of a value, Eq. (77), and of a change between two options, Eq. (78).
#pragma once

namespace hoofload::scenarios {

/// One quantity on the mesh and on its coarse twin, and its size S (docs/theory.md, section 17), all in its unit.
struct TwinReading {
  double value = 0, twin = 0, size = 0;
};

[[nodiscard]] double bar_of_value(const TwinReading& reading);

/// Of option - baseline: what the two meshes share cancels.
[[nodiscard]] double bar_of_change(const TwinReading& baseline, const TwinReading& option);

}  // namespace hoofload::scenarios
