#include "viz/vtu.hpp"

#include <gtest/gtest.h>
#include <unistd.h>
#include <zlib.h>

#include <cstring>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "tests/viz/mock_section.hpp"
#include "tests/viz/xml_check.hpp"
#include "viz/base64.hpp"

namespace hoofload::viz {
namespace {

std::vector<std::uint8_t> decoded(std::string_view text) {
  const std::string digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::vector<std::uint8_t> out;
  for (std::size_t k = 0; k + 3 < text.size(); k += 4) {
    std::uint32_t word = 0;
    int n = 3;
    for (std::size_t i = 0; i < 4; ++i) {
      if (text[k + i] == '=') --n;
      word = word << 6U | static_cast<std::uint32_t>(text[k + i] == '=' ? 0 : digits.find(text[k + i]));
    }
    for (int i = 0; i < n; ++i) out.push_back(static_cast<std::uint8_t>(word >> (16 - 8 * i)));
  }
  return out;
}

/// Reads a compressed array the way the format describes it, by the header and not by our writer's habits.
std::vector<std::uint8_t> unpacked(const std::string& text) {
  std::uint64_t blocks = 0;
  std::memcpy(&blocks, decoded(text.substr(0, 12)).data(), 8);
  const std::size_t header_bytes = 8 * (3 + blocks), header_text = (header_bytes + 2) / 3 * 4;
  std::vector<std::uint64_t> header(3 + blocks);
  std::memcpy(header.data(), decoded(text.substr(0, header_text)).data(), header_bytes);
  const auto packed = decoded(text.substr(header_text));
  std::vector<std::uint8_t> out;
  std::size_t at = 0;
  for (std::size_t b = 0; b < blocks; ++b) {
    uLongf size = b + 1 == blocks && header[2] != 0 ? header[2] : header[1];
    std::vector<std::uint8_t> part(size);
    EXPECT_EQ(uncompress(part.data(), &size, packed.data() + at, header[3 + b]), Z_OK);
    out.insert(out.end(), part.begin(), part.end());
    at += header[3 + b];
  }
  return out;
}

std::vector<double> read_doubles(const std::string& file, const std::string& name) {
  const auto head = file.find("Name=\"" + name + "\"");
  if (head == std::string::npos) return {};
  const auto from = file.find('>', head) + 1;
  const auto bytes = unpacked(file.substr(from, file.find('<', from) - from));
  std::vector<double> values(bytes.size() / 8);
  std::memcpy(values.data(), bytes.data(), bytes.size());
  return values;
}

std::string encoded(std::string_view text) {
  return base64({reinterpret_cast<const std::uint8_t*>(text.data()), text.size()});
}

// RFC 4648 section 10, test vectors.
TEST(Base64, gives_the_published_test_vectors) {
  EXPECT_EQ(encoded(""), "");
  EXPECT_EQ(encoded("f"), "Zg==");
  EXPECT_EQ(encoded("fo"), "Zm8=");
  EXPECT_EQ(encoded("foo"), "Zm9v");
  EXPECT_EQ(encoded("foobar"), "Zm9vYmFy");
}

TEST(Base64, several_blocks_come_back_unchanged) {
  for (const std::size_t n : {0UL, 1UL, 1UL << 20U, (1UL << 20U) + 17, 5UL << 19U}) {
    std::vector<std::uint8_t> bytes(n);
    for (std::size_t k = 0; k < n; ++k) bytes[k] = static_cast<std::uint8_t>(k * k >> 7U);
    EXPECT_TRUE(unpacked(compressed_base64(bytes)) == bytes) << n;
  }
}

struct Written {
  mesh::PlaneMesh mesh = tests::ring_section();
  VtuFields fields;
  std::string file;
};

Written written() {
  Written w;
  std::vector<Vec2> u;
  VtuArray pressure{"contact_pressure_kPa", 1, {}}, energy{"energy_density_kPa", 1, {}};
  for (const auto& X : w.mesh.X) {
    u.emplace_back(0.1 * X.x(), -1.0 / 3 * X.y());
    pressure.values.push_back(std::sin(X.x()) * 1e-7);
  }
  for (const auto& block : w.mesh.blocks)
    for (const auto& t : block.tri) energy.values.push_back(t[0] / 7.0);
  w.fields = {{displacement_array(u), pressure}, {energy}};
  w.file = vtu(w.mesh, w.fields);
  return w;
}

TEST(Vtu, is_well_formed_and_holds_the_same_bits) {
  const Written w = written();
  EXPECT_EQ(tests::xml_problem(w.file), "");
  for (const auto& array : w.fields.points) EXPECT_EQ(read_doubles(w.file, array.name), array.values);
  EXPECT_EQ(read_doubles(w.file, "energy_density_kPa"), w.fields.cells[0].values);
}

TEST(Vtu, an_array_of_the_wrong_length_is_refused) {
  const auto mesh = tests::ring_section();
  EXPECT_THROW((void)vtu(mesh, {{{"t_kPa", 1, {1, 2}}}, {}}), std::invalid_argument);
  EXPECT_THROW((void)vtu(mesh, {{}, {{"t_kPa", 1, {1, 2}}}}), std::invalid_argument);
}

TEST(Pvd, lists_its_files_with_their_times) {
  const auto file = pvd({{0, 0, "core_0.vtu"}, {0.5, 1, "capsule & wall.vtu"}});
  EXPECT_EQ(tests::xml_problem(file), "");
  EXPECT_NE(file.find("timestep=\"0.5\" group=\"\" part=\"1\" file=\"capsule &amp; wall.vtu\""), std::string::npos);
}

/// One brick of 2 x 3 x 4 mm in our node order.
mesh::SpaceMesh brick() {
  mesh::SpaceMesh m;
  const double corners[8][3] = {{0, 0, 0}, {2, 0, 0}, {2, 3, 0}, {0, 3, 0}, {0, 0, 4}, {2, 0, 4}, {2, 3, 4}, {0, 3, 4}};
  const int edges[12][2] = {{0, 1}, {1, 2}, {2, 3}, {3, 0}, {4, 5}, {5, 6},
                            {6, 7}, {7, 4}, {0, 4}, {1, 5}, {2, 6}, {3, 7}};
  for (const auto& c : corners) m.X.emplace_back(c[0], c[1], c[2]);
  for (const auto& e : edges)
    m.X.emplace_back((m.X[static_cast<std::size_t>(e[0])] + m.X[static_cast<std::size_t>(e[1])]) / 2);
  std::array<int, 20> nodes{};
  for (int k = 0; k < 20; ++k) nodes[static_cast<std::size_t>(k)] = k;
  m.hex = {nodes};
  m.hex_region = {"wall, dorsal"};
  return m;
}

/// What VTK's own reader makes of a file, or "" if this machine has no VTK for Python.
std::string read_by_vtk(const std::string& file) {
  const auto folder = std::filesystem::temp_directory_path() / ("hoofload_vtu_" + std::to_string(getpid()));
  std::filesystem::create_directories(folder);
  std::ofstream(folder / "mesh.vtu") << file;
  std::ofstream(folder / "read.py") << R"(
import sys
from vtkmodules.vtkIOXML import vtkXMLUnstructuredGridReader
from vtkmodules.vtkFiltersVerdict import vtkCellSizeFilter
r = vtkXMLUnstructuredGridReader(); r.SetFileName(sys.argv[1]); r.Update(); g = r.GetOutput()
print('points', g.GetNumberOfPoints(), 'cells', g.GetNumberOfCells(), 'type', g.GetCellType(0))
for kind in (g.GetPointData(), g.GetCellData()):
    for k in range(kind.GetNumberOfArrays()):
        a = kind.GetArray(k)
        print(a.GetName(), a.GetNumberOfComponents(), a.GetNumberOfTuples(), repr(a.GetComponent(a.GetNumberOfTuples() - 1, 0)))
names = g.GetFieldData().GetAbstractArray('region_names')
print('regions', [names.GetValue(k) for k in range(names.GetNumberOfValues())])
f = vtkCellSizeFilter(); f.SetInputData(g); f.Update(); c = f.GetOutput().GetCellData()
for n in ('Area', 'Volume'):
    print(n, round(sum(c.GetArray(n).GetValue(k) for k in range(g.GetNumberOfCells())), 6))
)";
  const auto command = "/usr/bin/python3 " + (folder / "read.py").string() + " " + (folder / "mesh.vtu").string() +
                       " > " + (folder / "out.txt").string() + " 2>/dev/null";
  const bool has_run = std::system(command.c_str()) == 0;
  std::ostringstream text;
  if (has_run) text << std::ifstream(folder / "out.txt").rdbuf();
  std::filesystem::remove_all(folder);
  return text.str();
}

bool has_vtk() { return std::system("/usr/bin/python3 -c 'import vtkmodules' 2>/dev/null") == 0; }

TEST(Vtu, vtk_reads_the_plane_mesh_with_its_arrays_names_and_regions) {
  if (!has_vtk()) GTEST_SKIP() << "python3-vtk9 is not installed; the test above reads the file without it";
  const Written w = written();
  const std::string seen = read_by_vtk(w.file);
  std::ostringstream expected;
  expected << "points " << w.mesh.X.size() << " cells " << 2 * (12 * 3 + 5 * 3) << " type 22";
  EXPECT_NE(seen.find(expected.str()), std::string::npos) << seen;
  EXPECT_NE(seen.find("displacement_mm 3 " + std::to_string(w.mesh.X.size())), std::string::npos) << seen;
  EXPECT_NE(seen.find("regions ['sole', 'shoe']"), std::string::npos) << seen;
  EXPECT_NE(seen.find("region_id 1 102 1.0"), std::string::npos) << seen;
  const auto at = seen.find("energy_density_kPa 1 102 ");
  ASSERT_NE(at, std::string::npos) << seen;
  EXPECT_EQ(std::stod(seen.substr(at + 25)), w.fields.cells[0].values.back());
}

TEST(Vtu, vtk_reads_lines_with_their_names_and_forces) {
  const std::string file = vtu({{"ground force", {{0, 0}, {3, 4}}, 1200}, {"tendon", {{0, 0}, {1, 0}, {1, 2}}, 700.5}});
  EXPECT_EQ(tests::xml_problem(file), "");
  if (!has_vtk()) GTEST_SKIP() << "python3-vtk9 is not installed";
  const std::string seen = read_by_vtk(file);
  EXPECT_NE(seen.find("points 5 cells 3 type 3"), std::string::npos) << seen;
  EXPECT_NE(seen.find("regions ['ground force', 'tendon']"), std::string::npos) << seen;
  EXPECT_NE(seen.find("force_N 1 3 700.5"), std::string::npos) << seen;
}

TEST(Vtu, vtk_reads_the_brick_in_our_node_order) {
  EXPECT_EQ(tests::xml_problem(vtu(brick(), {})), "");
  if (!has_vtk()) GTEST_SKIP() << "python3-vtk9 is not installed";
  const std::string seen = read_by_vtk(vtu(brick(), {}));
  EXPECT_NE(seen.find("points 20 cells 1 type 25"), std::string::npos) << seen;
  EXPECT_NE(seen.find("regions ['wall, dorsal']"), std::string::npos) << seen;
  EXPECT_NE(seen.find("Volume 24.0"), std::string::npos) << seen;  // 2 x 3 x 4 mm^3: any other node order folds it
}

}  // namespace
}  // namespace hoofload::viz
