#include "viz/contour.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <set>
#include <stdexcept>
#include <unordered_map>

namespace hoofload::viz {
namespace {

/// A point of the cut mesh: a node, or the crossing on the edge between two nodes. The key names it exactly, whatever
/// its rounded coordinates, so that neighbours agree on it.
std::uint64_t key_of(int a, int b) {
  const auto [low, high] = std::minmax(a, b);
  return (static_cast<std::uint64_t>(static_cast<std::uint32_t>(low)) << 32) | static_cast<std::uint32_t>(high);
}

struct Corner {
  std::uint64_t key;
  Vec2 at;
};

struct DirectedEdge {
  int from, to;
  bool alive;
};

/// Boundary of a union of polygons that meet edge to edge: an edge walked both ways is inside and disappears.
struct Boundary {
  std::unordered_map<std::uint64_t, int> point_of;
  std::vector<Vec2> points;
  std::unordered_map<std::uint64_t, std::size_t> edge_of;
  std::vector<DirectedEdge> edges;
};

std::uint64_t directed_key(int from, int to) {
  return (static_cast<std::uint64_t>(static_cast<std::uint32_t>(from)) << 32) | static_cast<std::uint32_t>(to);
}

int point_id(Boundary& boundary, const Corner& corner) {
  const auto [it, is_new] = boundary.point_of.try_emplace(corner.key, static_cast<int>(boundary.points.size()));
  if (is_new) boundary.points.push_back(corner.at);
  return it->second;
}

void add_polygon(Boundary& boundary, const std::vector<Corner>& polygon) {
  for (std::size_t k = 0; k < polygon.size(); ++k) {
    const int from = point_id(boundary, polygon[k]);
    const int to = point_id(boundary, polygon[(k + 1) % polygon.size()]);
    if (from == to) continue;
    const auto twin = boundary.edge_of.find(directed_key(to, from));
    if (twin != boundary.edge_of.end()) {
      boundary.edges[twin->second].alive = false;
      boundary.edge_of.erase(twin);
    } else {
      boundary.edge_of[directed_key(from, to)] = boundary.edges.size();
      boundary.edges.push_back({from, to, true});
    }
  }
}

/// Edges are followed in the order in which they came, so the same mesh gives the same bytes.
std::vector<Loop> chained(const Boundary& boundary) {
  std::vector<std::vector<int>> next(boundary.points.size());
  for (auto e = boundary.edges.rbegin(); e != boundary.edges.rend(); ++e)
    if (e->alive) next[static_cast<std::size_t>(e->from)].push_back(e->to);
  std::vector<Loop> loops;
  for (std::size_t start = 0; start < next.size(); ++start) {
    while (!next[start].empty()) {
      Loop loop;
      std::size_t at = start;
      while (!next[at].empty()) {
        loop.push_back(boundary.points[at]);
        const int to = next[at].back();
        next[at].pop_back();
        at = static_cast<std::size_t>(to);
      }
      loops.push_back(std::move(loop));
    }
  }
  return loops;
}

constexpr std::array<std::array<std::size_t, 3>, 4> quarters{{{0, 3, 5}, {3, 1, 4}, {5, 4, 2}, {3, 4, 5}}};

using Triangle = std::array<int, 3>;

std::vector<Corner> cut(const std::vector<Vec2>& x, const Triangle& triangle, const std::vector<double>& value,
                        double level) {
  std::vector<Corner> polygon;
  for (std::size_t k = 0; k < 3; ++k) {
    const int a = triangle[k], b = triangle[(k + 1) % 3];
    const auto i = static_cast<std::size_t>(a), j = static_cast<std::size_t>(b);
    const bool a_in = value[i] >= level, b_in = value[j] >= level;
    if (a_in) polygon.push_back({key_of(a, a), x[i]});
    if (a_in != b_in)
      polygon.push_back({key_of(a, b), x[i] + (level - value[i]) / (value[j] - value[i]) * (x[j] - x[i])});
  }
  return polygon;
}

void check(const std::vector<Vec2>& x, const Triangles& triangles, const std::vector<double>& value) {
  for (const auto& triangle : triangles)
    for (const int n : triangle) {
      const auto k = static_cast<std::size_t>(n);
      if (n < 0 || k >= x.size() || k >= value.size())
        throw std::invalid_argument("node " + std::to_string(n) + " has no place or no value in the field to be drawn");
      if (!std::isfinite(value[k]) || !x[k].allFinite())
        throw std::invalid_argument("node " + std::to_string(n) + " has a value or place that is not finite");
    }
}

}  // namespace

Triangles triangles_of(const mesh::PlaneMesh& mesh, const std::vector<std::string>& regions) {
  Triangles triangles;
  std::set<std::array<int, 6>> seen;
  for (const auto& block : mesh.blocks) {
    if (std::find(regions.begin(), regions.end(), block.region) == regions.end()) continue;
    for (const auto& triangle : block.tri)
      if (seen.insert(triangle).second) triangles.push_back(triangle);
  }
  return triangles;
}

std::vector<Loop> region_above(const std::vector<Vec2>& x, const Triangles& triangles, const std::vector<double>& value,
                               double level) {
  check(x, triangles, value);
  Boundary boundary;
  for (const auto& t : triangles)
    for (const auto& q : quarters) add_polygon(boundary, cut(x, {t[q[0]], t[q[1]], t[q[2]]}, value, level));
  return chained(boundary);
}

std::vector<Loop> outline(const std::vector<Vec2>& x, const Triangles& triangles) {
  return region_above(x, triangles, std::vector<double>(x.size(), 0.0), 0.0);
}

double area(const std::vector<Loop>& loops) {
  double twice = 0;
  for (const Loop& loop : loops)
    for (std::size_t k = 0; k < loop.size(); ++k) {
      const Vec2 &a = loop[k], &b = loop[(k + 1) % loop.size()];
      twice += a.x() * b.y() - b.x() * a.y();
    }
  return twice / 2;
}

}  // namespace hoofload::viz
