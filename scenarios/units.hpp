// Units at the border: text such as "1 1/4 in" to a number in mm, N, MPa, s, rad, kg, and back to text.
//
// Grammar of a number: decimal (3.2, -4, 1e3), fraction a/b, or whole and fraction w a/b. The unit follows and must
// stand in the table of units.cpp. The split is ours because the general unit parsers read "1 1/4 in" as 1/4 in, accept
// an empty text as 1 and "1-3 mm" as 1 mm; a table of some thirty names then needs no library.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace hoofload::scenarios {

enum class Dimension { none, length, area, angle, mass, force, pressure, time, hardness, force_per_mass, stiffness };

/// One accepted unit; a number in it times `factor` is in the inside unit (mm, mm^2, rad, kg, N, MPa, s, Shore A, N/kg, N/mm).
struct Unit {
  std::string_view name;
  Dimension dimension;
  double factor;
};

/// All accepted units; the first of each dimension is the inside one.
[[nodiscard]] std::span<const Unit> all_units();

/// The unit of that name, or null. Names are case-sensitive (mPa is not MPa).
[[nodiscard]] const Unit* find_unit(std::string_view name);

/// "mm, cm, m, in": the accepted names of a dimension.
[[nodiscard]] std::string units_of(Dimension dimension);

/// "length", "angle", ...
[[nodiscard]] std::string_view name_of(Dimension dimension);

/// A number with its unit; `value` is in the inside unit. A bare number has dimension none and no unit.
struct Quantity {
  double value = 0;
  Dimension dimension = Dimension::none;
};

/// Either a quantity, or one sentence on what is wrong with the text and what to write instead.
struct ParsedQuantity {
  std::optional<Quantity> quantity;
  std::string problem;
  std::string nearest;  ///< nearest known unit, if the unit was the trouble
};

[[nodiscard]] ParsedQuantity parse_quantity(std::string_view text);

/// Number grammar alone; nothing if the text is anything else. Never NaN or infinite.
[[nodiscard]] std::optional<double> parse_number(std::string_view text);

/// Shortest decimal that reads back as exactly this value.
[[nodiscard]] std::string number_text(double value);

/// Inside value as text in the given unit, e.g. (0.0698, "deg") -> "4 deg"; the shortest text that parses back to the
/// same double, which exists for every value that was once read from text in that unit; else the nearest. Unit "" gives the bare number. Precondition: the unit is "" or stands in the table.
[[nodiscard]] std::string quantity_text(double value, std::string_view unit);

/// "6.35 mm (1/4 in)": millimetres with the nearest 1/16 in beside them; "about" where it is further than 0.05 mm off.
[[nodiscard]] std::string with_inch_fraction(double mm);

}  // namespace hoofload::scenarios
