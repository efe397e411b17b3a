// How good a section mesh is, and the guard that refuses a bad one.
#pragma once

#include <numbers>
#include <sstream>
#include <stdexcept>
#include <string>

#include "mesh/plane_mesh.hpp"

namespace hoofload::mesh {

struct SectionQuality {
  double smallest_jacobian;  ///< det J [mm^2]
  double smallest_angle;     ///< [rad]
};

[[nodiscard]] inline bool is_usable(const SectionQuality& q) {
  return q.smallest_jacobian > 0 && q.smallest_angle > std::numbers::pi / 180;
}

/// Throws std::invalid_argument when an element is folded, or has a corner angle below 1 degree. (Shallow
/// fillings far from the sole and thin coria make angles of a few degrees: harmless, and reported.)
[[nodiscard]] inline SectionQuality checked_quality(const PlaneMesh& mesh, const std::string& name) {
  const SectionQuality q{smallest_jacobian(mesh), smallest_angle(mesh)};
  constexpr double degree_of = 180 / std::numbers::pi;
  if (is_usable(q)) return q;
  std::ostringstream what;
  what << "these measurements fold or flatten the " << name << " mesh (smallest det J " << q.smallest_jacobian
       << " mm2, smallest angle " << q.smallest_angle * degree_of << " deg)";
  throw std::invalid_argument(what.str());
}

/// Throws std::invalid_argument(what) unless `holds`.
inline void require(bool holds, const std::string& what) {
  if (!holds) throw std::invalid_argument(what);
}

/// "name 12.3 mm": for messages that name measurements.
[[nodiscard]] inline std::string measured(const std::string& name, double mm) {
  std::ostringstream text;
  text.precision(4);
  text << name << ' ' << mm << " mm";
  return text.str();
}

}  // namespace hoofload::mesh
