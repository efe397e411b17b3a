// Points in the unit cube for sampling: scrambled Sobol', Latin hypercube, plain random. The same seed gives the same
// bits on every machine; no coordinate is ever 0 or 1, so that every distribution has a quantile there.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace hoofload::scenarios {

/// Coordinates, point by point: at(i, d).
struct UnitPoints {
  std::size_t count = 0, dimensions = 0;
  std::vector<double> values;
  [[nodiscard]] double at(std::size_t point, std::size_t dimension) const {
    return values[point * dimensions + dimension];
  }
};

/// Sobol' points with the directions of Joe & Kuo 2008, each dimension's bits scrambled nestedly (Owen 1995): the
/// first 2^k points are a (t, k, s)-net as without, every point is uniform, and the mean over seeds is without bias.
/// Up to 3667 dimensions (std::invalid_argument beyond) and 2^32 - 1 points.
[[nodiscard]] UnitPoints sobol_points(std::size_t count, std::size_t dimensions, std::uint64_t seed);

/// One point in each of `count` equal slices of every dimension, at random within it (McKay, Beckman & Conover 1979).
[[nodiscard]] UnitPoints latin_hypercube_points(std::size_t count, std::size_t dimensions, std::uint64_t seed);

[[nodiscard]] UnitPoints random_points(std::size_t count, std::size_t dimensions, std::uint64_t seed);

/// A random 64-bit word for each tuple: a counter-based generator has no state that the order of calls could change.
[[nodiscard]] std::uint64_t hashed(std::uint64_t seed, std::uint64_t a, std::uint64_t b = 0, std::uint64_t c = 0);

/// The middle of one of 2^53 equal cells of (0, 1), from the upper bits of a word.
[[nodiscard]] double unit_number(std::uint64_t word);

}  // namespace hoofload::scenarios
