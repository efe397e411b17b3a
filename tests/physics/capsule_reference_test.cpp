// The bare capsule, its bone hung from the wall by the lamellae, against the project's 3D reference computation
// (docs/capsule.md: C3D20 meshes of 651 to 8420 nodes; its coarse mesh checked with CalculiX 2.20 to five digits).
//
// Half foot, wall E 735 nu .35 fixed or sliding on its base; bone rigid with three dofs about (-85, 50): u_x, u_y, rotation.
// (a) lamellae as 3 mm of solid bricks E 6 nu .4, (b) as the thin-layer foundation that the program uses.
// The reference's thickness function, heel half-width and corner at the widest point are not recorded. Here the thickness
// tapers straight from 10 (toe) to 6 mm (heel) along the foot and the other two are mesh/plan_outline.cpp's; no stiffness is
// adjusted.

#include "materials/linear_isotropic.hpp"
#include "mesh/capsule_shell.hpp"
#include "solver/brick.hpp"
#include "solver/layer.hpp"
#include "tests/support/record.hpp"

#include <gtest/gtest.h>
#include <Eigen/Sparse>
#include <Eigen/SparseCholesky>

#include <stdexcept>
#include <vector>

namespace {

using namespace hoofload;
using Eigen::Matrix3d, Eigen::Vector3d, Eigen::VectorXd;
using Triplets = std::vector<Eigen::Triplet<double>>;
using Sparse = Eigen::SparseMatrix<double>;

enum class Lamellae { solid, layer };
enum class Base { fixed, slide };

constexpr double wall_E = 735, wall_nu = 0.35, lamella_E = 6, lamella_nu = 0.4;

struct Motion {
  double sink, rotation, u_x;  ///< mm, deg (heel down), mm, of the bone at (-85, 50)
  Vector3d dorsal, quarter;    ///< coronet at t = 0 and 1
  double reaction;             ///< vertical, whole foot
};

/// Displacement of the rigid bone at X from (u_x, u_y, rotation).
Matrix3d bone_motion(const Vector3d& X) {
  Matrix3d B;
  B << 1, 0, -(X.y() - 50), 0, 1, X.x() + 85, 0, 0, 0;
  return B;
}

void add_bricks(const mesh::CapsuleShell& s, Lamellae kind, Triplets& K) {
  const auto wall = solver::isotropic_elasticity(wall_E, wall_nu);
  const auto soft = solver::isotropic_elasticity(lamella_E, lamella_nu);
  const auto gauss = mesh::gauss_cube<3>();
  for (std::size_t e = 0; e < s.mesh.hex.size(); ++e) {
    const bool lamella = s.mesh.hex_region[e] == "lamella";
    if (lamella && kind == Lamellae::layer) continue;
    const auto& hex = s.mesh.hex[e];
    solver::BrickNodes X;
    for (int a = 0; a < 20; ++a) X.col(a) = s.mesh.X[hex[a]];
    std::array<double, 27> share;
    // behind their end a millionth of the lamellae is kept, so that no node is left loose
    for (int q = 0; q < 27; ++q) {
      const auto N = mesh::Hex20::N(gauss[q].xi, gauss[q].eta, gauss[q].zeta);
      share[q] = !lamella || X.row(0).dot(N) > s.extent.end_x ? 1 : 1e-6;
    }
    const auto k = solver::brick_stiffness(X, lamella ? soft : wall, share);
    for (int i = 0; i < 60; ++i)
      for (int j = 0; j < 60; ++j) K.emplace_back(3 * hex[i / 3] + i % 3, 3 * hex[j / 3] + j % 3, k(i, j));
  }
}

/// The foundation between wall nodes and the bone's three dofs, which follow the nodes' dofs.
void add_layer(const mesh::CapsuleShell& s, Triplets& K) {
  const int bone = 3 * static_cast<int>(s.mesh.X.size());
  const materials::LinearIsotropic law{lamella_E, lamella_nu};
  for (const auto& p : s.lamella) {
    Eigen::Matrix<double, 3, 27> B;
    for (int a = 0; a < 8; ++a) B.block<3, 3>(0, 3 * a) = p.at.shape[a] * Matrix3d::Identity();
    B.rightCols<3>() = -bone_motion(p.at.X);
    const auto r = solver::layer_response(law, Vector3d::Zero(), p.normal, s.extent.thickness);
    const Eigen::Matrix<double, 27, 27> k = p.area * B.transpose() * r.stiffness * B;
    const auto dof = [&](int i) { return i < 24 ? 3 * p.at.nodes[i / 3] + i % 3 : bone + i - 24; };
    for (int i = 0; i < 27; ++i)
      for (int j = 0; j < 27; ++j) K.emplace_back(dof(i), dof(j), k(i, j));
  }
}

/// All dofs from the free ones; the bone's three come last. Bone-side nodes of a solid lamella follow the bone.
Sparse constraint(const mesh::CapsuleShell& s, Lamellae kind, Base base) {
  const auto& m = s.mesh;
  const int n = static_cast<int>(m.X.size());
  std::vector<char> held(3 * n, 0), follows(n, 0), used(n, 0);
  for (const int i : m.nodes.at("symmetry")) held[3 * i + 2] = 1;
  for (const int i : m.nodes.at("bearing")) {
    held[3 * i + 1] = 1;
    if (base == Base::fixed) held[3 * i] = held[3 * i + 2] = 1;
    if (base == Base::slide && m.X[i].z() == 0) held[3 * i] = 1;
  }
  for (const int i : m.nodes.at("bone")) follows[i] = 1;
  for (std::size_t e = 0; e < m.hex.size(); ++e)
    if (kind == Lamellae::solid || m.hex_region[e] == "wall")
      for (const int i : m.hex[e]) used[i] = 1;
  Triplets free, bone;
  int count = 0;
  for (int i = 0; i < n; ++i)
    for (int a = 0; a < 3 && used[i]; ++a) {
      if (!follows[i] && !held[3 * i + a]) free.emplace_back(3 * i + a, count++, 1.0);
      for (int b = 0; b < 3 && follows[i]; ++b) bone.emplace_back(3 * i + a, b, bone_motion(m.X[i])(a, b));
    }
  for (int b = 0; b < 3; ++b) bone.emplace_back(3 * n + b, b, 1.0);
  for (const auto& t : bone) free.emplace_back(t.row(), count + t.col(), t.value());
  Sparse T(3 * n + 3, count + 3);
  T.setFromTriplets(free.begin(), free.end());
  return T;
}

Vector3d coronet(const mesh::CapsuleShell& s, const VectorXd& u, double t) {
  const auto place = mesh::wall_point(s.outline, t, mesh::coronet_height(s.outline, t));
  for (std::size_t i = 0; i < s.mesh.X.size(); ++i)
    if ((s.mesh.X[i] - place).norm() < 1e-6) return u.segment<3>(3 * static_cast<int>(i));
  throw std::logic_error("the coronet has no node there");
}

/// Load 1: 2500 N at the joint (`moment` 0); load 2: centre of pressure 15 mm ahead of it (moment 37.5 N m).
Motion solve(Lamellae kind, Base base, double moment, const mesh::ShellDivisions& base_divisions = {}) {
  auto outline = mesh::plan_outline(mesh::Foot{});
  outline.thickness_quarter = 10 - 4 * 70.0 / 128;
  mesh::ShellDivisions d = base_divisions;
  d.solid_lamella = true;
  const auto s = mesh::capsule_shell(outline, mesh::LamellaExtent{}, d);
  Triplets entries;
  add_bricks(s, kind, entries);
  if (kind == Lamellae::layer) add_layer(s, entries);
  const int n = 3 * static_cast<int>(s.mesh.X.size()) + 3;
  Sparse K(n, n);
  K.setFromTriplets(entries.begin(), entries.end());
  const Sparse T = constraint(s, kind, base);
  VectorXd f = VectorXd::Zero(n);
  f[n - 2] = -2500 / 2.0;
  f[n - 1] = -moment / 2;
  const Eigen::SimplicialLDLT<Sparse> factor(Sparse(T.transpose() * K * T));
  if (factor.info() != Eigen::Success) throw std::runtime_error("singular capsule");
  const VectorXd u = T * factor.solve(T.transpose() * f), r = K * u;
  double reaction = 0;
  for (const int i : s.mesh.nodes.at("bearing")) reaction += 2 * r[3 * i + 1];
  return {-u[n - 2], u[n - 1] / mesh::degree, u[n - 3], coronet(s, u, 0), coronet(s, u, 1), reaction};
}

constexpr double load_2 = 37500;  // N mm

void expect_within(const std::string& of, double value, double reference, double fraction) {
  EXPECT_NEAR(value, reference, fraction * std::abs(reference));
  tests::record({"coarse capsule wall of bricks against a fine one in three dimensions",
                 "reference foot, docs/capsule.md", "63 wall bricks"},
                of, reference, value);
}

TEST(CapsuleReference, solid_lamellae_on_the_coarse_shell_meet_the_coarse_reference_within_3_percent) {
  // Reference row "3D, 651 nodes" (63 wall and 23 lamellar bricks), fixed base, loads 1 and 2.
  const Motion a = solve(Lamellae::solid, Base::fixed, 0), b = solve(Lamellae::solid, Base::fixed, load_2);
  expect_within("load 1 sink", a.sink, 0.686, 0.03);
  expect_within("load 1 rotation", a.rotation, 0.684, 0.03);
  expect_within("load 1 dorsal x", a.dorsal.x(), -0.247, 0.03);
  expect_within("load 1 dorsal y", a.dorsal.y(), -0.164, 0.03);
  expect_within("load 2 sink", b.sink, 0.507, 0.03);
  expect_within("load 2 rotation", b.rotation, 0.253, 0.03);
  expect_within("load 2 dorsal x", b.dorsal.x(), -0.150, 0.03);
  expect_within("load 2 dorsal y", b.dorsal.y(), -0.137, 0.03);
}

TEST(CapsuleReference, solid_lamellae_meet_the_fine_reference_in_the_bones_motion) {
  // Reference, 8420 nodes, fixed base. Its own two meshes differ by 1.5 %; the rotation under load 2 is a small difference.
  const Motion a = solve(Lamellae::solid, Base::fixed, 0), b = solve(Lamellae::solid, Base::fixed, load_2);
  expect_within("load 1 sink", a.sink, 0.692, 0.03);
  expect_within("load 1 rotation", a.rotation, 0.696, 0.03);
  expect_within("load 1 u_x", a.u_x, -0.185, 0.03);
  expect_within("load 2 sink", b.sink, 0.510, 0.03);
  expect_within("load 2 rotation", b.rotation, 0.249, 0.05);
}

TEST(CapsuleReference, sliding_base_meets_the_reference) {
  // Reference, 8420 nodes, frictionless base, toe held in x. The heels' shape, not recorded, acts more strongly here: on the
  // rotation under load 2 (a third of that under load 1, from which it is left over) by 7 %.
  const Motion a = solve(Lamellae::solid, Base::slide, 0), b = solve(Lamellae::solid, Base::slide, load_2);
  expect_within("load 1 sink", a.sink, 0.723, 0.03);
  expect_within("load 1 rotation", a.rotation, 0.692, 0.03);
  expect_within("load 1 dorsal x", a.dorsal.x(), -0.276, 0.05);
  expect_within("load 1 dorsal y", a.dorsal.y(), -0.200, 0.05);
  expect_within("load 2 sink", b.sink, 0.541, 0.03);
  expect_within("load 2 rotation", b.rotation, 0.233, 0.10);
}

TEST(CapsuleReference, thin_layer_foundation_stands_close_to_the_solid_lamellae) {
  // The reference's own comparison of springs against solid lamellae: 3 % in sink, 5 % in rotation.
  for (const double moment : {0.0, load_2}) {
    const Motion solid = solve(Lamellae::solid, Base::fixed, moment),
                 layer = solve(Lamellae::layer, Base::fixed, moment);
    expect_within("layer for solid sink", layer.sink, solid.sink, 0.03);
    expect_within("layer for solid rotation", layer.rotation, solid.rotation, 0.05);
    EXPECT_LT(layer.sink, solid.sink);  // dropped in-plane gradients only remove compliance
  }
}

TEST(CapsuleReference, quarter_moves_little_where_a_projected_wall_moves_much) {
  // Reference (-.041, -.056, +.023). It hangs on the heels' unrecorded shape, so only its size is asserted: the projected
  // models gave -.146 and -.197 down.
  const Motion a = solve(Lamellae::solid, Base::fixed, 0);
  expect_within("load 1 quarter y", a.quarter.y(), -0.056, 0.20);
  EXPECT_NEAR(a.quarter.x(), -0.041, 0.01);
  EXPECT_NEAR(a.quarter.z(), 0.023, 0.04);
}

TEST(CapsuleReference, bearing_carries_the_load_and_a_finer_shell_changes_the_bone_by_less_than_2_percent) {
  mesh::ShellDivisions fine;
  fine.ellipse = 12;
  fine.branch = 6;
  fine.lamellar = 5;
  fine.above = 2;
  const Motion a = solve(Lamellae::layer, Base::fixed, 0), b = solve(Lamellae::layer, Base::fixed, 0, fine);
  EXPECT_NEAR(a.reaction, 2500, 1e-6);
  expect_within("load 1 sink", a.sink, b.sink, 0.02);
  expect_within("load 1 rotation", a.rotation, b.rotation, 0.02);
}

}  // namespace
