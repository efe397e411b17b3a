#include "mesh/gmsh_outline.hpp"

#include <gmsh.h>

#include <map>
#include <mutex>
#include <stdexcept>
#include <utility>

namespace hoofload::mesh {
namespace {

namespace geo = gmsh::model::geo;

constexpr int tri6 = 9;  // Gmsh's element types
constexpr int line3 = 8;

/// Gmsh's process-wide state, opened on first use.
struct Session {
  Session() {
    gmsh::initialize(0, nullptr, false);
    gmsh::option::setNumber("General.Terminal", 0);
    gmsh::option::setNumber("General.NumThreads", 1);    // two threads change the mesh from run to run
    gmsh::option::setNumber("General.AbortOnError", 1);  // the default terminates the process from inside OpenMP
    gmsh::option::setNumber("Mesh.Algorithm", 6);
  }
  ~Session() { gmsh::finalize(); }
  Session(const Session&) = delete;
  Session& operator=(const Session&) = delete;
};

std::mutex& gate() {
  static std::mutex m;
  return m;
}

/// Runs `build` (geometry) and `read` (results) in a fresh model; Gmsh's own exceptions are strings.
template <class Build, class Read>
void in_fresh_model(Build build, Read read) {
  static Session session;
  gmsh::clear();
  gmsh::model::add("section");
  gmsh::logger::start();
  std::vector<std::string> log;
  try {
    build();
    geo::synchronize();
    gmsh::model::mesh::generate(2);
    gmsh::model::mesh::setOrder(2);
    gmsh::logger::get(log);
    gmsh::logger::stop();
  } catch (const std::string& what) {
    gmsh::logger::stop();
    throw std::runtime_error("Gmsh could not mesh the section: " + what);
  }
  // With AbortOnError 1 a failed surface is only logged and the mesh is partial.
  for (const std::string& line : log)
    if (line.rfind("Error", 0) == 0) throw std::runtime_error("Gmsh could not mesh the section: " + line);
  read();
}

/// Compact numbering of the nodes that are used, in order of first use.
class Numbering {
 public:
  Numbering() {
    std::vector<std::size_t> tags;
    std::vector<double> xyz, parametric;
    gmsh::model::mesh::getNodes(tags, xyz, parametric);
    for (std::size_t i = 0; i < tags.size(); ++i) place_[tags[i]] = Vec2{xyz[3 * i], xyz[3 * i + 1]};
  }

  int operator()(std::size_t tag) {
    const auto [it, fresh] = id_.try_emplace(tag, static_cast<int>(X.size()));
    if (fresh) X.push_back(place_.at(tag));
    return it->second;
  }

  std::vector<Vec2> X;

 private:
  std::map<std::size_t, Vec2> place_;
  std::map<std::size_t, int> id_;
};

std::vector<std::size_t> elements_of(int dim, int type, int entity) {
  std::vector<int> types;
  std::vector<std::vector<std::size_t>> tags, nodes;
  gmsh::model::mesh::getElements(types, tags, nodes, dim, entity);
  for (std::size_t k = 0; k < types.size(); ++k)
    if (types[k] == type) return nodes[k];
  return {};
}

std::vector<std::array<int, 6>> triangles_of(int surface, Numbering& number) {
  const std::vector<std::size_t> flat = elements_of(2, tri6, surface);
  std::vector<std::array<int, 6>> tri(flat.size() / 6);
  for (std::size_t e = 0; e < tri.size(); ++e) {
    for (std::size_t k = 0; k < 6; ++k) tri[e][k] = number(flat[6 * e + k]);
    const auto at = [&](std::size_t k) { return number.X[static_cast<std::size_t>(tri[e][k])]; };
    const Vec2 a = at(1) - at(0), b = at(2) - at(0);
    if (a.x() * b.y() - a.y() * b.x() < 0) tri[e] = {tri[e][0], tri[e][2], tri[e][1], tri[e][5], tri[e][4], tri[e][3]};
  }
  return tri;
}

}  // namespace

OutlineMesh mesh_outline(const Outline& outline) {
  const std::scoped_lock lock(gate());
  OutlineMesh out;
  std::vector<int> curves, surfaces;
  const auto build = [&] {
    std::vector<int> points;
    for (const OutlinePoint& p : outline.points) points.push_back(geo::addPoint(p.at.x(), p.at.y(), 0, p.size));
    for (const auto& through : outline.curves) {
      std::vector<int> tags;
      for (const int p : through) tags.push_back(points.at(static_cast<std::size_t>(p)));
      curves.push_back(tags.size() == 2 ? geo::addLine(tags[0], tags[1]) : geo::addSpline(tags));
    }
    for (const OutlineRegion& region : outline.regions) {
      std::vector<int> loop;
      for (const int c : region.curves)
        loop.push_back(c > 0 ? curves.at(static_cast<std::size_t>(c - 1))
                             : -curves.at(static_cast<std::size_t>(-c - 1)));
      surfaces.push_back(geo::addPlaneSurface({geo::addCurveLoop(loop)}));
    }
  };
  const auto read = [&] {
    Numbering number;
    for (const int s : surfaces) out.tri.push_back(triangles_of(s, number));
    for (const int c : curves) {
      const std::vector<std::size_t> flat = elements_of(1, line3, c);
      std::vector<Edge> edges;
      for (std::size_t e = 0; e + 2 < flat.size(); e += 3)
        edges.push_back({number(flat[e]), number(flat[e + 1]), number(flat[e + 2])});
      out.edges.push_back(std::move(edges));
    }
    out.X = std::move(number.X);
  };
  in_fresh_model(build, read);
  return out;
}


}  // namespace hoofload::mesh
