#include "scenarios/distribution.hpp"

#include "scenarios/units.hpp"

#include <algorithm>
#include <array>
#include <boost/math/distributions/normal.hpp>
#include <cmath>

namespace hoofload::scenarios {

namespace {

constexpr double kCutOff = 3;

double cut_normal_quantile(const Distribution& d, double u) {
  const boost::math::normal standard;
  const double below = cdf(standard, (d.low - d.middle) / d.sd);
  const double above = cdf(complement(standard, (d.high - d.middle) / d.sd));
  const double share = below + u * (1 - below - above);
  return d.middle + d.sd * boost::math::quantile(standard, share);
}

double triangular_quantile(const Distribution& d, double u) {
  const double width = d.high - d.low, left = d.middle - d.low, right = d.high - d.middle;
  return u * width < left ? d.low + std::sqrt(u * width * left) : d.high - std::sqrt((1 - u) * width * right);
}

std::string range_text(const Distribution& d, const std::string& unit) {
  return number_text(d.low) + " to " + number_text(d.high) + (unit.empty() ? "" : " " + unit);
}

}  // namespace

double quantile(const Distribution& d, double u) {
  if (d.low == d.high) return d.low;
  double x = 0;
  switch (d.shape) {
    case Shape::uniform:
      x = d.low + u * (d.high - d.low);
      break;
    case Shape::log_uniform:
      x = d.low * std::pow(d.high / d.low, u);
      break;
    case Shape::normal:
      x = cut_normal_quantile(d, u);
      break;
    case Shape::triangular:
      x = triangular_quantile(d, u);
      break;
  }
  return std::clamp(x, d.low, d.high);
}

std::string unsound(const Distribution& d) {
  if (!(std::isfinite(d.low) && std::isfinite(d.high) && std::isfinite(d.middle) && std::isfinite(d.sd)))
    return "not finite";
  if (d.low > d.high) return "low is above high";
  if (d.shape == Shape::log_uniform && !(d.low > 0)) return "a log-uniform value is above 0";
  if (d.shape == Shape::normal && !(d.sd > 0)) return "the sd of a normal value is above 0";
  const bool has_middle = d.shape == Shape::normal || d.shape == Shape::triangular;
  if (has_middle && (d.middle < d.low || d.middle > d.high)) return "its middle lies outside low and high";
  return "";
}

std::string distribution_text(const Distribution& d, const std::string& unit) {
  constexpr std::array names{"uniform", "log-uniform", "normal", "triangular"};
  std::string text = std::string(names[static_cast<std::size_t>(d.shape)]) + " ";
  const std::string tail = unit.empty() ? "" : " " + unit;
  if (d.shape == Shape::normal) text += number_text(d.middle) + " +- " + number_text(d.sd) + tail + ", within ";
  if (d.shape == Shape::triangular) text += "about " + number_text(d.middle) + tail + ", within ";
  return text + range_text(d, unit);
}

Distribution normal_around(double middle, double sd) {
  return {Shape::normal, middle - kCutOff * sd, middle + kCutOff * sd, middle, sd};
}

}  // namespace hoofload::scenarios
