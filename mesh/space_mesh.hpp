// A space (3D) mesh of twenty-node bricks: the capsule shell. x forward, y up, z lateral (half: z >= 0). Lengths in mm.
#pragma once

#include <Eigen/Core>
#include <array>
#include <map>
#include <string>
#include <vector>

namespace hoofload::mesh {

using Vec3 = Eigen::Vector3d;

/// Eight-node face of a brick: corners counter-clockwise seen from outside the brick, then mids 01, 12, 23, 30.
using Face = std::array<int, 8>;

struct SpaceMesh {
  std::vector<Vec3> X;
  /// Node order: corners of the bottom (zeta = -1) face counter-clockwise, corners of the top face, then mid-side
  /// nodes of the bottom edges 01 12 23 30, of the top edges 45 56 67 74, of the uprights 04 15 26 37.
  std::vector<std::array<int, 20>> hex;
  std::vector<std::string> hex_region;  ///< region name of each brick
  std::map<std::string, std::vector<Face>> faces;
  std::map<std::string, std::vector<int>> nodes;
};

}  // namespace hoofload::mesh
