#include "scenarios/distribution.hpp"

#include "scenarios/units.hpp"

#include <algorithm>
#include <array>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <cstdio>

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

std::string six_figures(double x) {
  std::array<char, 40> text{};
  std::snprintf(text.data(), text.size(), "%.6g", x);
  return number_text(parse_number(text.data()).value_or(x));
}

std::string range_text(const Distribution& d, const std::string& unit) {
  return six_figures(d.low) + " to " + six_figures(d.high) + (unit.empty() ? "" : " " + unit);
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
    case Shape::log_normal:
      x = std::exp(
          cut_normal_quantile({Shape::normal, std::log(d.low), std::log(d.high), std::log(d.middle), d.sd}, u));
      break;
  }
  return std::clamp(x, d.low, d.high);
}

double standard_deviation(const Distribution& d) {
  const double a = d.low, b = d.high, m = d.middle;
  switch (d.shape) {
    case Shape::uniform:
      return (b - a) / std::sqrt(12.0);
    case Shape::log_uniform: {
      const double log = std::log(b / a), mean = (b - a) / log;
      return std::sqrt((b * b - a * a) / (2 * log) - mean * mean);
    }
    case Shape::triangular:
      return std::sqrt((a * a + b * b + m * m - a * b - a * m - b * m) / 18);
    case Shape::log_normal:
      return m * std::exp(0.5 * d.sd * d.sd) * std::sqrt(std::expm1(d.sd * d.sd));
    case Shape::normal:
      break;
  }
  return d.sd;
}

std::string unsound(const Distribution& d) {
  if (!(std::isfinite(d.low) && std::isfinite(d.high) && std::isfinite(d.middle) && std::isfinite(d.sd)))
    return "not finite";
  if (d.low > d.high) return "low is above high";
  const bool is_log = d.shape == Shape::log_uniform || d.shape == Shape::log_normal;
  const bool is_normal = d.shape == Shape::normal || d.shape == Shape::log_normal;
  if (is_log && !(d.low > 0)) return "a log-uniform or log-normal value is above 0";
  if (is_normal && !(d.sd > 0)) return "the sd of a normal value is above 0";
  const bool has_middle = is_normal || d.shape == Shape::triangular;
  if (has_middle && (d.middle < d.low || d.middle > d.high)) return "its middle lies outside low and high";
  return "";
}

std::string distribution_text(const Distribution& d, const std::string& unit) {
  constexpr std::array names{"uniform", "log-uniform", "normal", "triangular", "log-normal"};
  std::string text = std::string(names[static_cast<std::size_t>(d.shape)]) + " ";
  const std::string tail = unit.empty() ? "" : " " + unit;
  if (d.shape == Shape::normal) text += six_figures(d.middle) + " +- " + six_figures(d.sd) + tail + ", within ";
  if (d.shape == Shape::log_normal)
    text += "about " + six_figures(d.middle) + tail + ", sd of the logarithm " + six_figures(d.sd) + ", within ";
  if (d.shape == Shape::triangular) text += "about " + six_figures(d.middle) + tail + ", within ";
  return text + range_text(d, unit);
}

Distribution normal_around(double middle, double sd) {
  return {Shape::normal, middle - kCutOff * sd, middle + kCutOff * sd, middle, sd};
}

}  // namespace hoofload::scenarios
