#include "scenarios/units.hpp"

#include "scenarios/nearest.hpp"

#include <array>
#include <cassert>
#include <charconv>
#include <cmath>
#include <numbers>
#include <numeric>
#include <vector>

namespace hoofload::scenarios {
namespace {

constexpr double kDegree = std::numbers::pi / 180.0;
// International avoirdupois pound and standard gravity are exact by definition (SI brochure, 9th ed.; NIST SP 811 App. B).
constexpr double kPound = 0.45359237;
constexpr double kGravity = 9.80665;
constexpr double kInch = 25.4;

using D = Dimension;
constexpr std::array kUnits = {
    Unit{"mm", D::length, 1},
    Unit{"cm", D::length, 10},
    Unit{"m", D::length, 1000},
    Unit{"in", D::length, kInch},
    Unit{"inch", D::length, kInch},
    Unit{"inches", D::length, kInch},
    Unit{"\"", D::length, kInch},
    Unit{"\u2033", D::length, kInch},
    Unit{"mm^2", D::area, 1},
    Unit{"mm2", D::area, 1},
    Unit{"cm2", D::area, 100},
    Unit{"rad", D::angle, 1},
    Unit{"deg", D::angle, kDegree},
    Unit{"degree", D::angle, kDegree},
    Unit{"degrees", D::angle, kDegree},
    Unit{"\u00b0", D::angle, kDegree},
    Unit{"kg", D::mass, 1},
    Unit{"lb", D::mass, kPound},
    Unit{"lbs", D::mass, kPound},
    Unit{"N", D::force, 1},
    Unit{"kN", D::force, 1000},
    Unit{"lbf", D::force, kPound* kGravity},
    Unit{"kgf", D::force, kGravity},
    Unit{"MPa", D::pressure, 1},
    Unit{"kPa", D::pressure, 1e-3},
    Unit{"Pa", D::pressure, 1e-6},
    Unit{"GPa", D::pressure, 1e3},
    Unit{"N/mm2", D::pressure, 1},
    Unit{"N/mm^2", D::pressure, 1},
    Unit{"psi", D::pressure, kPound* kGravity / (kInch * kInch)},
    Unit{"s", D::time, 1},
    Unit{"ms", D::time, 1e-3},
    Unit{"min", D::time, 60},
    Unit{"h", D::time, 3600},
    Unit{"ShoreA", D::hardness, 1},
    Unit{"Shore A", D::hardness, 1},
    Unit{"N/kg", D::force_per_mass, 1},
    Unit{"N/mm", D::stiffness, 1},
    Unit{"kN/mm", D::stiffness, 1e3},
    Unit{"N/m", D::stiffness, 1e-3},
    Unit{"%", D::none, 0.01},
};

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::string_view trimmed(std::string_view s) {
  const auto first = s.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return s.substr(first, s.find_last_not_of(" \t") - first + 1);
}

/// Length of the run of digits at `at`.
std::size_t digits(std::string_view s, std::size_t at) {
  std::size_t n = 0;
  while (at + n < s.size() && is_digit(s[at + n])) ++n;
  return n;
}

/// A decimal without sign at the start of s: its length, 0 if there is none.
std::size_t decimal_length(std::string_view s) {
  std::size_t n = digits(s, 0);
  std::size_t figures = n;
  if (n < s.size() && s[n] == '.') {
    const std::size_t m = digits(s, n + 1);
    figures += m;
    n += m > 0 || figures > 0 ? 1 + m : 0;
  }
  if (figures == 0) return 0;
  if (n + 1 < s.size() && (s[n] == 'e' || s[n] == 'E')) {
    const std::size_t sign = s[n + 1] == '+' || s[n + 1] == '-' ? 1 : 0;
    const std::size_t m = digits(s, n + 1 + sign);
    if (m > 0) n += 1 + sign + m;
  }
  return n;
}

std::optional<double> decimal_value(std::string_view s) {
  double value = 0;
  const auto [end, error] = std::from_chars(s.data(), s.data() + s.size(), value);
  if (error != std::errc{} || end != s.data() + s.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

struct Scanned {
  double value;
  std::size_t length;
};

/// "a/b" at the start of s; a and b at most six figures, so that both are exact.
std::optional<Scanned> fraction(std::string_view s) {
  const std::size_t n = digits(s, 0);
  if (n == 0 || n > 6 || n >= s.size() || s[n] != '/') return std::nullopt;
  const std::size_t m = digits(s, n + 1);
  if (m == 0 || m > 6) return std::nullopt;
  const auto above = decimal_value(s.substr(0, n));
  const auto below = decimal_value(s.substr(n + 1, m));
  if (!above || !below || *below == 0) return std::nullopt;
  return Scanned{*above / *below, n + 1 + m};
}

/// The longest number at the start of s, without sign.
std::optional<Scanned> unsigned_number(std::string_view s) {
  if (const auto f = fraction(s)) return f;
  const std::size_t n = decimal_length(s);
  if (n == 0) return std::nullopt;
  const auto whole = decimal_value(s.substr(0, n));
  if (!whole) return std::nullopt;
  const std::size_t gap = s.find_first_not_of(' ', n);
  if (n == digits(s, 0) && gap != std::string_view::npos && gap > n) {
    if (const auto part = fraction(s.substr(gap))) return Scanned{*whole + part->value, gap + part->length};
  }
  return Scanned{*whole, n};
}

std::optional<Scanned> scan_number(std::string_view s) {
  const std::size_t sign = !s.empty() && (s[0] == '-' || s[0] == '+') ? 1 : 0;
  auto number = unsigned_number(s.substr(sign));
  if (!number) return std::nullopt;
  number->length += sign;
  if (s[0] == '-') number->value = -number->value;
  return number;
}

ParsedQuantity wrong(std::string problem, std::string nearest = {}) {
  return {std::nullopt, std::move(problem), std::move(nearest)};
}

std::string nearest_unit(std::string_view name) {
  std::vector<std::string_view> names;
  for (const Unit& u : kUnits) names.push_back(u.name);
  return nearest_name(name, names);
}

}  // namespace

std::span<const Unit> all_units() { return kUnits; }

const Unit* find_unit(std::string_view name) {
  for (const Unit& u : kUnits)
    if (u.name == name) return &u;
  return nullptr;
}

std::string units_of(Dimension dimension) {
  std::string text;
  for (const Unit& u : kUnits) {
    if (u.dimension != dimension || u.name.front() == '"' || u.name.front() < 0) continue;
    text += (text.empty() ? "" : ", ") + std::string(u.name);
  }
  return text;
}

std::string_view name_of(Dimension dimension) {
  switch (dimension) {
    case D::none:
      return "plain number";
    case D::length:
      return "length";
    case D::area:
      return "area";
    case D::angle:
      return "angle";
    case D::mass:
      return "mass";
    case D::force:
      return "force";
    case D::pressure:
      return "pressure or modulus";
    case D::time:
      return "time";
    case D::hardness:
      return "hardness";
    case D::force_per_mass:
      return "force per body mass";
    case D::stiffness:
      return "stiffness";
  }
  return "";
}

std::optional<double> parse_number(std::string_view text) {
  const std::string_view s = trimmed(text);
  const auto number = scan_number(s);
  if (!number || number->length != s.size()) return std::nullopt;
  return number->value;
}

ParsedQuantity parse_quantity(std::string_view text) {
  const std::string_view s = trimmed(text);
  if (s.empty()) return wrong("missing value");
  const auto number = scan_number(s);
  if (!number) return wrong("not a number with a unit");
  const std::string_view rest = s.substr(number->length);
  if (!rest.empty() && (is_digit(rest[0]) || std::string_view(".,/+-").find(rest[0]) != std::string_view::npos)) {
    const bool comma = rest[0] == ',';
    return wrong(comma ? "malformed number (decimals are written with a point)" : "malformed number");
  }
  const std::string_view name = trimmed(rest);
  if (name.empty()) return {Quantity{number->value, D::none}, {}, {}};
  const Unit* unit = find_unit(name);
  if (unit == nullptr) return wrong("unknown unit '" + std::string(name) + "'", nearest_unit(name));
  const double value = number->value * unit->factor;
  if (!std::isfinite(value)) return wrong("number too large");
  return {Quantity{value, unit->dimension}, {}, {}};
}

std::string number_text(double value) {
  std::array<char, 64> buffer;
  const double size = std::abs(value);
  // The shortest form alone would write 100000 as 1e+05.
  const bool plain = size == 0 || (size >= 1e-5 && size < 1e15);
  const auto end =
      plain ? std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed).ptr
            : std::to_chars(buffer.data(), buffer.data() + buffer.size(), value).ptr;
  return {buffer.data(), end};
}

std::string quantity_text(double value, std::string_view unit) {
  if (unit.empty()) return number_text(value);
  const Unit* u = find_unit(unit);
  assert(u != nullptr);
  const double shown = value / u->factor;
  // Division and multiplication by the factor need not cancel in the last bit: take the shortest text that does.
  std::array<char, 64> buffer;
  for (int figures = 1; figures <= 17; ++figures) {
    const auto end =
        std::to_chars(buffer.data(), buffer.data() + buffer.size(), shown, std::chars_format::general, figures).ptr;
    const auto back = decimal_value({buffer.data(), end});
    if (back && *back * u->factor == value) return number_text(*back) + " " + std::string(unit);
  }
  for (const double beside : {std::nextafter(shown, -HUGE_VAL), std::nextafter(shown, HUGE_VAL)})
    if (beside * u->factor == value) return number_text(beside) + " " + std::string(unit);
  return number_text(shown) + " " + std::string(unit);
}

std::string with_inch_fraction(double mm) {
  const std::string metric = number_text(std::round(mm * 100) / 100) + " mm";
  const long sixteenths = std::lround(std::abs(mm) / kInch * 16);
  if (sixteenths == 0) return metric;
  const bool exact = std::abs(std::abs(mm) - static_cast<double>(sixteenths) * kInch / 16) <= 0.05;
  const long whole = sixteenths / 16;
  const long part = sixteenths % 16;
  const long common = std::gcd(part, 16L);
  std::string inch = whole > 0 ? std::to_string(whole) : "";
  if (part > 0) inch += (whole > 0 ? " " : "") + std::to_string(part / common) + "/" + std::to_string(16 / common);
  return metric + " (" + (exact ? "" : "about ") + (mm < 0 ? "-" : "") + inch + " in)";
}

}  // namespace hoofload::scenarios
