// What a value that is not known exactly may be: a distribution over the reals, drawn by its quantile.
#pragma once

#include <string>

namespace hoofload::scenarios {

/// uniform, log-uniform: between low and high. normal: mean and sd, cut off at low and high. triangular: low, mode,
/// high. log-normal: the logarithm is normal about that of `middle`.
enum class Shape { uniform, log_uniform, normal, triangular, log_normal };

struct Distribution {
  Shape shape = Shape::uniform;
  double low = 0, high = 0;  ///< no value lies outside
  double middle = 0;         ///< mean of the normal one before it is cut off, mode of the triangular one
  double sd = 0;             ///< of the normal one before it is cut off; of the logarithm
};

/// The value below which the share u of the distribution lies, 0 < u < 1. Precondition: sound.
[[nodiscard]] double quantile(const Distribution& d, double u);

/// Its standard deviation; of a normal and a log-normal one that of the whole, before the ends are cut off. Precondition: sound.
[[nodiscard]] double standard_deviation(const Distribution& d);

/// What is wrong with it, "" if nothing.
[[nodiscard]] std::string unsound(const Distribution& d);

/// "uniform 3 to 9 mm".
[[nodiscard]] std::string distribution_text(const Distribution& d, const std::string& unit);

/// A normal distribution around `middle` cut off three standard deviations away.
[[nodiscard]] Distribution normal_around(double middle, double sd);

}  // namespace hoofload::scenarios
