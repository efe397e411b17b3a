// A plane (2D) mesh of six-node triangles: places, names and out-of-plane breadth. No physics.
//
// One mesh serves both models: axisymmetric (x = r, y = z) and sagittal (x forward, y up).
// In the sagittal model several sheets may overlap in the side view; blocks that share nodes move together,
// blocks that do not are separate sheets. Lengths in mm.
#pragma once

#include <Eigen/Core>
#include <array>
#include <map>
#include <string>
#include <vector>

namespace hoofload::mesh {

using Vec2 = Eigen::Vector2d;

/// Three-node edge: ends a, b and mid-side node. Walked so that the body it belongs to lies on its left.
struct Edge {
  int a, b, mid;
};

/// One region of one sheet. `tri`: corners counter-clockwise, then mid-side nodes of edges 01, 12, 20.
/// `breadth`: out-of-plane breadth b(x, y) [mm] at the same six nodes (ignored when axisymmetric).
struct Block {
  std::string region;
  std::vector<std::array<int, 6>> tri;
  std::vector<std::array<double, 6>> breadth;
};

/// A named chain of edges, ordered, with the breadth [mm] of each edge's three nodes.
struct EdgeSet {
  std::vector<Edge> edges;
  std::vector<std::array<double, 3>> breadth;
};

/// Two coincident nodes of a duplicated interface line; the slave is on the softer side.
struct NodePair {
  int slave, master;
};

struct PlaneMesh {
  std::vector<Vec2> X;
  std::vector<Block> blocks;
  std::map<std::string, EdgeSet> edges;
  /// Conforming duplicated lines, by interface name; pair k of an interface lies on the edge set of the same
  /// name (slave side), normals point from master to slave.
  std::map<std::string, std::vector<NodePair>> pairs;
};

/// Breadth inside an element is the quadratic through its six values; where the outline steps within an element that dips below
/// zero, and the element would have a negative stiffness. Then the mid-side values are the means of their ends.
[[nodiscard]] std::array<double, 6> positive_inside(std::array<double, 6> breadth);

/// Smallest value of that quadratic on a lattice of ten steps a side.
[[nodiscard]] double smallest_inside(const std::array<double, 6>& breadth);

/// Ids of the nodes of an edge set, in order of first appearance along the chain (end, mid, end, mid, ...).
[[nodiscard]] std::vector<int> nodes_of(const EdgeSet& set);

/// Smallest det J over all blocks, sampled at the six nodes and the centroid [mm^2]; <= 0 means a folded element.
[[nodiscard]] double smallest_jacobian(const PlaneMesh& mesh);

/// Smallest corner angle over all blocks [rad].
[[nodiscard]] double smallest_angle(const PlaneMesh& mesh);

}  // namespace hoofload::mesh
