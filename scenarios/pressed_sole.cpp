#include "scenarios/pressed_sole.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>

namespace hoofload::scenarios {

namespace {

constexpr double kEdge = 10;  ///< about a filling's depth: so far behind its rounded front the edge is felt all along it [mm]

/// Breadths of the filling's upper face, by the sole's nodes over it. One for each edge, by its mid-side node.
using ByMiddle = std::map<int, std::map<int, double>>;

/// Breadths no smaller than the one kEdge behind the front: nearer to it a breadth of the chord alone would make a peak of what is
/// a narrow end.
void widen_front(const mesh::PlaneMesh& mesh, ByMiddle& breadths) {
  double front = -std::numeric_limits<double>::infinity(), best = std::numeric_limits<double>::infinity(), least = 0;
  const auto x_of = [&](int node) { return mesh.X[static_cast<std::size_t>(node)].x(); };
  for (const auto& [mid, edge] : breadths)
    for (const auto& [node, breadth] : edge) front = std::max(front, x_of(node));
  for (const auto& [mid, edge] : breadths)
    for (const auto& [node, breadth] : edge)
      if (std::abs(x_of(node) - (front - kEdge)) < best) best = std::abs(x_of(node) - (front - kEdge)), least = breadth;
  for (auto& [mid, edge] : breadths)
    for (auto& [node, breadth] : edge)
      if (x_of(node) > front - kEdge) breadth = std::max(breadth, least);
}

ByMiddle filling_breadths(const mesh::PlaneMesh& mesh) {
  ByMiddle found;
  const auto edges = mesh.edges.find("sole_packing");
  const auto pairs = mesh.pairs.find("sole_packing");
  if (edges == mesh.edges.end() || pairs == mesh.pairs.end()) return found;
  std::map<int, int> sole_over;
  for (const auto& pair : pairs->second) sole_over[pair.slave] = pair.master;
  for (std::size_t i = 0; i < edges->second.edges.size(); ++i) {
    const auto& e = edges->second.edges[i];
    const auto& w = edges->second.breadth[i];
    found[sole_over.at(e.mid)] = {{sole_over.at(e.a), w[0]}, {sole_over.at(e.b), w[1]}, {sole_over.at(e.mid), w[2]}};
  }
  widen_front(mesh, found);
  return found;
}

}  // namespace

double open_share(const Case& run, const mesh::Breadths& b, const std::string& face, double x) {
  if (face != "sole_surface" && face != "frog_surface") return 1;
  const double sole = mesh::b_sole(b, x);
  if (x < mesh::shoe_end_x(b, run.shoeing.shoe)) return 1;
  return sole > 0 ? std::min(1.0, mesh::shoe_inner_chord(b, run.shoeing.shoe, x) / sole) : 0.0;
}

mesh::EdgeSet pressed_sole(const mesh::PlaneMesh& mesh, const Case& run) {
  mesh::EdgeSet face = mesh.edges.at("sole_surface");
  const mesh::Breadths b = mesh::breadths(run.foot);
  const ByMiddle filling = filling_breadths(mesh);
  for (std::size_t i = 0; i < face.edges.size(); ++i) {
    const auto& e = face.edges[i];
    const std::array<int, 3> nodes{e.a, e.b, e.mid};
    const auto filled = filling.find(e.mid);
    for (std::size_t k = 0; k < 3; ++k) {
      const double x = mesh.X[static_cast<std::size_t>(nodes[k])].x();
      const double share = open_share(run, b, "sole_surface", x);
      if (filled != filling.end())
        face.breadth[i][k] = std::min(face.breadth[i][k], filled->second.at(nodes[k]));
      else if (share > 0)
        face.breadth[i][k] *= std::max(share, std::min(1.0, open_share(run, b, "sole_surface", x - kEdge)));
    }
  }
  return face;
}

}  // namespace hoofload::scenarios
