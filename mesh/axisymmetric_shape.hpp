// Radii and heights of the axisymmetric section: lengths only, no mesh. Lengths in mm.
#pragma once

#include <string>
#include <vector>

#include "mesh/shoeing.hpp"

namespace hoofload::mesh {

struct AxisymmetricShape {
  double radius;      ///< of the bearing outline
  double wall_inner;  ///< radius of the wall's inner edge at the bearing plane
  double slope;       ///< the wall leans in by this much a mm of height
  double strip;       ///< horizontal width of lamella and white line
  double cup, horn, corium;
  double lamella_top, coronet;
  double inner;  ///< shoe's inner radius
  double split;  ///< radius that divides the void's columns: edge of a partial packing, else free
  /// Heights of the row lines from the ground face up to y = 0, and which of them bound what (indices into `heights`).
  std::vector<double> heights;
  int plate_from = -1, plate_to = -1;  ///< plate between these lines
  int layer_to = 0;                    ///< shoe's lower layer below this line
  int shoe_to = 0;                     ///< shoe below this line, pad above it
  int floor = 0;                       ///< packing's lower face
  int fill_to = 0;                     ///< packing's upper face, if below the bearing plane (else the last line)
  double fill_top;                     ///< height of the filling's flat top; infinite when it fills the void
  double proud_below = 0;              ///< how far the packing stands out below the ground face
  std::vector<std::string> notes;

  [[nodiscard]] double dome(double r) const { return cup * (1 - (r / wall_inner) * (r / wall_inner)); }
  [[nodiscard]] double wall_in(double z, double off = 0) const { return wall_inner - off - slope * z; }
  /// Radius where the dome raised by `up` meets the wall's inner face moved in by `off`.
  [[nodiscard]] double meet(double up, double off) const;
};

[[nodiscard]] AxisymmetricShape axisymmetric_shape(const Foot& foot, const Shoeing& shoeing, double lamella_area);

}  // namespace hoofload::mesh
