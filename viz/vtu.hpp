// VTK XML files (.vtu, .pvd) that any VTK reader opens unedited. Own writer: the format needs some 200 lines and zlib,
// while linking VTK would more than double the packages that a first build must fetch. Arrays are base64 over zlib, so
// the file stays well-formed XML.
#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "mesh/plane_mesh.hpp"
#include "mesh/space_mesh.hpp"

namespace hoofload::viz {

/// Values tuple by tuple; the name carries the unit: "displacement_mm", "contact_pressure_kPa".
struct VtuArray {
  std::string name;
  int components = 1;
  std::vector<double> values;
};

/// Per-node and per-cell arrays. Cells are in the order of the mesh's blocks (plane) or bricks (space).
struct VtuFields {
  std::vector<VtuArray> points, cells;
};

/// One value per node of a plane displacement [mm] as the three components that VTK warps by: "displacement_mm".
[[nodiscard]] VtuArray displacement_array(const std::vector<mesh::Vec2>& u);
[[nodiscard]] VtuArray displacement_array(const std::vector<mesh::Vec3>& u);

/// Six-node triangles (VTK type 22) in the plane z = 0. A cell array "region_id" and a field array "region_names"
/// (the name of id k at place k) are added. Throws std::invalid_argument if an array has the wrong length.
[[nodiscard]] std::string vtu(const mesh::PlaneMesh& mesh, const VtuFields& fields);

/// Twenty-node bricks (VTK type 25); the rest as above.
[[nodiscard]] std::string vtu(const mesh::SpaceMesh& mesh, const VtuFields& fields);

/// A drawn line with a number of its own: a force's size, a tendon's tension [N].
struct VtuLine {
  std::string name;
  std::vector<mesh::Vec2> points;
  double force = 0;
};

/// Two-node lines (VTK type 3) in the plane z = 0, each with its line's "force_N" and its name as its region.
[[nodiscard]] std::string vtu(const std::vector<VtuLine>& lines);

/// One file of a series; `part` tells meshes apart that belong to the same time.
struct PvdEntry {
  double time = 0;
  int part = 0;
  std::string file;  ///< relative to the .pvd
};

[[nodiscard]] std::string pvd(const std::vector<PvdEntry>& entries);

}  // namespace hoofload::viz
