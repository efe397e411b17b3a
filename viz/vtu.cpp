#include "viz/vtu.hpp"

#include <algorithm>
#include <bit>
#include <cstdint>
#include <span>
#include <stdexcept>

#include "viz/base64.hpp"
#include "viz/svg.hpp"
#include "viz/text.hpp"

namespace hoofload::viz {
namespace {

static_assert(std::endian::native == std::endian::little, "arrays are written in the machine's own byte order");

template <class T>
std::string data(const std::vector<T>& values) {
  // unsigned char may look at any object's bytes
  return compressed_base64({reinterpret_cast<const std::uint8_t*>(values.data()), values.size() * sizeof(T)});
}

template <class T>
std::string array(const std::string& type, const std::string& name, int components, const std::vector<T>& values) {
  return "<DataArray type=\"" + type + "\" Name=\"" + svg::escape(name) + "\" NumberOfComponents=\"" +
         std::to_string(components) + "\" format=\"binary\">" + data(values) + "</DataArray>\n";
}

/// VTK reads a string array as the codes of its characters, each string closed by a zero.
std::string names_array(const std::vector<std::string>& names) {
  std::string codes;
  for (const auto& name : names) {
    for (const char c : clean_utf8(name))
      codes += std::to_string(static_cast<int>(static_cast<unsigned char>(c))) + " ";
    codes += "0 ";
  }
  return "<DataArray type=\"String\" Name=\"region_names\" NumberOfTuples=\"" + std::to_string(names.size()) +
         "\" format=\"ascii\">" + codes + "</DataArray>\n";
}

/// Cells of one kind: `nodes` per cell, VTK's type number, a region for each.
struct Grid {
  std::vector<double> points;
  std::vector<std::int64_t> connectivity;
  std::int64_t nodes;
  std::uint8_t type;
  std::vector<std::int32_t> region;
  std::vector<std::string> region_names;
};

std::int32_t region_id(Grid& grid, const std::string& name) {
  const auto found = std::find(grid.region_names.begin(), grid.region_names.end(), name);
  const auto id = static_cast<std::int32_t>(found - grid.region_names.begin());
  if (found == grid.region_names.end()) grid.region_names.push_back(name);
  return id;
}

std::string arrays(const std::vector<VtuArray>& list, std::size_t tuples) {
  std::string out;
  for (const auto& a : list) {
    if (a.components < 1 || a.values.size() != tuples * static_cast<std::size_t>(a.components))
      throw std::invalid_argument("array " + a.name + " does not have " + std::to_string(tuples) + " tuples of " +
                                  std::to_string(a.components));
    out += array("Float64", a.name, a.components, a.values);
  }
  return out;
}

std::string cells(const Grid& grid, std::size_t count) {
  std::vector<std::int64_t> offsets(count);
  for (std::size_t k = 0; k < count; ++k) offsets[k] = grid.nodes * static_cast<std::int64_t>(k + 1);
  const std::vector<std::uint8_t> types(count, grid.type);
  return "<Cells>\n" + array("Int64", "connectivity", 1, grid.connectivity) + array("Int64", "offsets", 1, offsets) +
         array("UInt8", "types", 1, types) + "</Cells>\n";
}

std::string file(const Grid& grid, const VtuFields& fields) {
  const std::size_t points = grid.points.size() / 3, count = grid.region.size();
  return "<?xml version=\"1.0\"?>\n<VTKFile type=\"UnstructuredGrid\" version=\"1.0\" byte_order=\"LittleEndian\" "
         "header_type=\"UInt64\" compressor=\"vtkZLibDataCompressor\">\n<UnstructuredGrid>\n<FieldData>\n" +
         names_array(grid.region_names) + "</FieldData>\n<Piece NumberOfPoints=\"" + std::to_string(points) +
         "\" NumberOfCells=\"" + std::to_string(count) + "\">\n<PointData>\n" + arrays(fields.points, points) +
         "</PointData>\n<CellData>\n" + array("Int32", "region_id", 1, grid.region) + arrays(fields.cells, count) +
         "</CellData>\n<Points>\n" + array("Float64", "Points", 3, grid.points) + "</Points>\n" + cells(grid, count) +
         "</Piece>\n</UnstructuredGrid>\n</VTKFile>\n";
}

}  // namespace

VtuArray displacement_array(const std::vector<mesh::Vec2>& u) {
  VtuArray out{"displacement_mm", 3, {}};
  for (const auto& v : u) out.values.insert(out.values.end(), {v.x(), v.y(), 0.0});
  return out;
}

VtuArray displacement_array(const std::vector<mesh::Vec3>& u) {
  VtuArray out{"displacement_mm", 3, {}};
  for (const auto& v : u) out.values.insert(out.values.end(), {v.x(), v.y(), v.z()});
  return out;
}

std::string vtu(const mesh::PlaneMesh& mesh, const VtuFields& fields) {
  Grid grid{{}, {}, 6, 22, {}, {}};
  for (const auto& X : mesh.X) grid.points.insert(grid.points.end(), {X.x(), X.y(), 0.0});
  for (const auto& block : mesh.blocks) {
    const std::int32_t id = region_id(grid, block.region);
    for (const auto& triangle : block.tri) {  // our node order is VTK's
      grid.connectivity.insert(grid.connectivity.end(), triangle.begin(), triangle.end());
      grid.region.push_back(id);
    }
  }
  return file(grid, fields);
}

std::string vtu(const mesh::SpaceMesh& mesh, const VtuFields& fields) {
  if (mesh.hex_region.size() != mesh.hex.size())
    throw std::invalid_argument("a space mesh needs one region name per brick");
  Grid grid{{}, {}, 20, 25, {}, {}};
  for (const auto& X : mesh.X) grid.points.insert(grid.points.end(), {X.x(), X.y(), X.z()});
  for (std::size_t k = 0; k < mesh.hex.size(); ++k) {  // our node order is VTK's
    grid.connectivity.insert(grid.connectivity.end(), mesh.hex[k].begin(), mesh.hex[k].end());
    grid.region.push_back(region_id(grid, mesh.hex_region[k]));
  }
  return file(grid, fields);
}

std::string vtu(const std::vector<VtuLine>& lines) {
  Grid grid{{}, {}, 2, 3, {}, {}};
  VtuArray force{"force_N", 1, {}};
  for (const VtuLine& line : lines)
    for (std::size_t k = 0; k < line.points.size(); ++k) {
      const auto node = static_cast<std::int64_t>(grid.points.size() / 3);
      grid.points.insert(grid.points.end(), {line.points[k].x(), line.points[k].y(), 0.0});
      if (k == 0) continue;
      grid.connectivity.insert(grid.connectivity.end(), {node - 1, node});
      grid.region.push_back(region_id(grid, line.name));
      force.values.push_back(line.force);
    }
  return file(grid, {{}, {force}});
}

std::string pvd(const std::vector<PvdEntry>& entries) {
  std::string out =
      "<?xml version=\"1.0\"?>\n<VTKFile type=\"Collection\" version=\"0.1\" "
      "byte_order=\"LittleEndian\">\n<Collection>\n";
  for (const auto& e : entries)
    out += "<DataSet timestep=\"" + plain_text(e.time) + "\" group=\"\" part=\"" + std::to_string(e.part) +
           "\" file=\"" + svg::escape(e.file) + "\"/>\n";
  return out + "</Collection>\n</VTKFile>\n";
}

}  // namespace hoofload::viz
