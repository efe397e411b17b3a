// Variance-based sensitivities: how much of a quantity's variance an input causes alone (first order), and with all
// that it does together with others (total). Jansen's estimators, Eqs. (106), (107), with bootstrap intervals.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace hoofload::scenarios {

struct IndexEstimate {
  double value = 0, low = 0, high = 0;  ///< 95 % bootstrap interval
};

struct SobolIndices {
  std::vector<IndexEstimate> first, total;  ///< by input
  double variance = 0;
  std::size_t samples = 0;  ///< used
};

/// The quantity on the designs: f(A), f(B), and for each input f(A with that input's column of B); all of one length,
/// at least 2. A quantity without variance gives zeros.
struct DesignValues {
  std::vector<double> a, b;
  std::vector<std::vector<double>> ab;
};

[[nodiscard]] SobolIndices sobol_indices(const DesignValues& values, std::size_t resamples = 1000,
                                         std::uint64_t seed = 1);

}  // namespace hoofload::scenarios
