#include "scenarios/unit_points.hpp"

#include <boost/random/sobol.hpp>
#include <limits>
#include <numeric>
#include <stdexcept>
#include <utility>

namespace hoofload::scenarios {

namespace {

constexpr int kBits = 32;
constexpr std::size_t kMostDimensions = 3667;

/// Finaliser of splitmix64 (Steele, Lea & Flood 2014).
std::uint64_t mixed(std::uint64_t x) {
  x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9U;
  x = (x ^ (x >> 27)) * 0x94d049bb133111ebU;
  return x ^ (x >> 31);
}

/// Nested uniform scrambling: every bit is flipped or not by a random bit that belongs to the bits above it. What lies
/// below the last bit is uniform in the cell.
double scrambled(std::uint32_t x, std::size_t dimension, std::uint64_t seed) {
  std::uint32_t y = 0;
  for (int bit = 0; bit < kBits; ++bit) {
    const std::uint64_t above = bit == 0 ? 0 : x >> (kBits - bit);
    const auto flip = static_cast<std::uint32_t>(hashed(seed, dimension, static_cast<std::uint64_t>(bit), above) & 1U);
    y |= (((x >> (kBits - 1 - bit)) & 1U) ^ flip) << (kBits - 1 - bit);
  }
  const std::uint64_t within = hashed(seed, dimension, kBits, x) >> (64 - 21);
  return unit_number((static_cast<std::uint64_t>(y) << 32U) | (within << 11U));
}

UnitPoints empty_points(std::size_t count, std::size_t dimensions) {
  return {count, dimensions, std::vector<double>(count * dimensions)};
}

}  // namespace

std::uint64_t hashed(std::uint64_t seed, std::uint64_t a, std::uint64_t b, std::uint64_t c) {
  constexpr std::uint64_t golden = 0x9e3779b97f4a7c15U;
  std::uint64_t h = mixed(seed + golden);
  for (const std::uint64_t word : {a, b, c}) h = mixed(h + golden + mixed(word + golden));
  return h;
}

double unit_number(std::uint64_t word) { return (static_cast<double>(word >> 11U) + 0.5) * 0x1p-53; }

UnitPoints sobol_points(std::size_t count, std::size_t dimensions, std::uint64_t seed) {
  if (dimensions > kMostDimensions) throw std::invalid_argument("Sobol' points have at most 3667 dimensions");
  if (count > std::numeric_limits<std::uint32_t>::max()) throw std::invalid_argument("too many Sobol' points");
  UnitPoints points = empty_points(count, dimensions);
  if (points.values.empty()) return points;
  boost::random::sobol_engine<std::uint32_t, kBits> engine(dimensions);
  // The library leaves out the first point, zero, without which no set of 2^k points is balanced.
  for (std::size_t k = 0; k < points.values.size(); ++k)
    points.values[k] = scrambled(k < dimensions ? 0 : engine(), k % dimensions, seed);
  return points;
}

UnitPoints latin_hypercube_points(std::size_t count, std::size_t dimensions, std::uint64_t seed) {
  UnitPoints points = empty_points(count, dimensions);
  std::vector<std::size_t> slice(count);
  for (std::size_t d = 0; d < dimensions; ++d) {
    std::iota(slice.begin(), slice.end(), std::size_t{0});
    for (std::size_t i = count; i > 1; --i) {  // Fisher & Yates; the bias of the remainder is below 2^-32
      const std::size_t other = hashed(seed, d, i, 1) % i;
      std::swap(slice[i - 1], slice[other]);
    }
    for (std::size_t i = 0; i < count; ++i)
      points.values[i * dimensions + d] =
          (static_cast<double>(slice[i]) + unit_number(hashed(seed, d, i, 2))) / static_cast<double>(count);
  }
  return points;
}

UnitPoints random_points(std::size_t count, std::size_t dimensions, std::uint64_t seed) {
  UnitPoints points = empty_points(count, dimensions);
  for (std::size_t k = 0; k < points.values.size(); ++k) points.values[k] = unit_number(hashed(seed, k, 0, 3));
  return points;
}

}  // namespace hoofload::scenarios
