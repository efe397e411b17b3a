// A bed of independent columns (Winkler 1867) under the ground plane: pressure as a function of depth, Eqs. (98), (99).
// Elastic, and where a plateau is given, crushing: beyond it only the gas in the cells still stiffens the bed.
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>

#include "solver/law.hpp"

namespace hoofload::solver {

struct ColumnBed {
  double stiffness = 0;                                    ///< pressure per depth while elastic [MPa/mm]
  double crush = std::numeric_limits<double>::infinity();  ///< pressure at which it begins to crush [MPa]
  double thickness = 1;                                    ///< of the layer that crushes [mm]
  double gas = 0.1;                                        ///< pressure of the gas in its cells [MPa]
  double solid = 0.03;                                     ///< share of its volume that cannot be crushed
};

/// Energy, pressure and stiffness per area at a depth [mm] below the plane. Above the plane the elastic branch goes on: who
/// is not touching is the business of the active set.
[[nodiscard]] inline LawValue value(const ColumnBed& bed, double depth) {
  const double k = bed.stiffness, elastic = bed.crush / k;
  if (!(depth > elastic)) return {0.5 * k * depth * depth, k * depth, k};
  // Gas at constant temperature, Gibson & Ashby 1997: g0 e / (1 - e - r) at the strain e.
  const double h = bed.thickness, room = 1 - bed.solid, full = 0.98 * room;
  const double e0 = std::min(elastic / h, full), e1 = std::min(depth / h, full);
  const auto pressure = [&](double e) { return bed.gas * e / (room - e); };
  const auto energy = [&](double e) { return -bed.gas * h * (e + room * std::log(room - e)); };
  const double slope = bed.gas * room / (h * (room - e1) * (room - e1));
  const double over =
      depth - std::max(elastic, h * e1);  // what is left when the cells are full: its last slope goes on
  const double p = bed.crush + pressure(e1) - pressure(e0);
  const double crushed = std::max(0.0, h * e1 - elastic);
  const double work = 0.5 * bed.crush * elastic + (bed.crush - pressure(e0)) * crushed + energy(e1) - energy(e0);
  return {work + p * over + 0.5 * slope * over * over, p + slope * over, slope};
}

}  // namespace hoofload::solver
