#include "materials/linear_isotropic.hpp"
#include "materials/neo_hooke.hpp"
#include "materials/yeoh.hpp"
#include "mesh/capsule_shell.hpp"
#include "solver/brick.hpp"
#include "solver/layer.hpp"

#include <gtest/gtest.h>
#include <Eigen/Geometry>
#include <Eigen/LU>

#include <stdexcept>

namespace {

using namespace hoofload;
using namespace hoofload::solver;

BrickNodes nodes_of(const mesh::SpaceMesh& m, const std::array<int, 20>& hex) {
  BrickNodes X;
  for (int a = 0; a < 20; ++a) X.col(a) = m.X[hex[a]];
  return X;
}

Eigen::Matrix3d some_gradient() {
  Eigen::Matrix3d H;
  H << 1.0, 0.3, -0.2, 0.5, -0.7, 0.4, 0.1, 0.6, 0.2;
  return 1e-3 * H;
}

Eigen::Matrix<double, 60, 1> stacked(const BrickNodes& u) {
  return Eigen::Map<const Eigen::Matrix<double, 60, 1>>(u.data());
}

TEST(Brick, uniform_strain_leaves_inner_nodes_of_a_curved_patch_in_balance) {
  // Patch test (Irons 1966): a linear field on distorted, curved bricks must give exact equilibrium at inner nodes.
  mesh::ShellDivisions d;
  d.thickness = 2;
  const auto s = mesh::capsule_shell(mesh::Foot{}, d);
  const Matrix6 C = isotropic_elasticity(735, 0.35);
  std::vector<Eigen::Vector3d> force(s.mesh.X.size(), Eigen::Vector3d::Zero());
  double largest = 0;
  for (const auto& hex : s.mesh.hex) {
    const BrickNodes X = nodes_of(s.mesh, hex);
    const Eigen::Matrix<double, 60, 1> f = brick_stiffness(X, C) * stacked(some_gradient() * X);
    largest = std::max(largest, f.cwiseAbs().maxCoeff());
    for (int a = 0; a < 20; ++a) force[hex[a]] += f.segment<3>(3 * a);
  }
  std::vector<bool> on_surface(s.mesh.X.size(), false);
  for (const char* set : {"outer", "inner", "bearing", "coronet"})
    for (const auto& face : s.mesh.faces.at(set))
      for (const int i : face) on_surface[i] = true;
  for (const int i : s.mesh.nodes.at("symmetry")) on_surface[i] = true;
  int inner = 0;
  for (std::size_t i = 0; i < force.size(); ++i) {
    const bool heel = s.mesh.X[i].x() < mesh::wall_point(s.outline, 1.9, s.mesh.X[i].y()).x();
    if (on_surface[i] || heel) continue;
    ++inner;
    EXPECT_LT(force[i].norm(), 1e-10 * largest);
  }
  EXPECT_GT(inner, 50);
}

TEST(Brick, energy_of_uniform_strain_is_exact_and_rigid_motion_is_free) {
  const auto s = mesh::capsule_shell(mesh::Foot{});
  const BrickNodes X = nodes_of(s.mesh, s.mesh.hex[13]);
  const Matrix6 C = isotropic_elasticity(735, 0.35);
  const BrickStiffness K = brick_stiffness(X, C);
  double volume = 0;
  for (const auto& p : mesh::gauss_cube<3>())
    volume += p.weight * (X * mesh::Hex20::dN(p.xi, p.eta, p.zeta)).determinant();
  const BrickNodes u = some_gradient() * X;
  const Strain e = brick_strain(X, u, {0.2, -0.3, 0.9});
  EXPECT_NEAR(stacked(u).dot(K * stacked(u)), volume * e.dot(C * e), 1e-10 * volume * e.dot(C * e));
  EXPECT_NEAR(strain_along(e, {1, 0, 0}), 1e-3, 1e-12);
  EXPECT_NEAR(e[5], 0.8e-3, 1e-12);  // 2 xy
  for (int k = 0; k < 3; ++k) {
    BrickNodes shift = BrickNodes::Zero(), turn;
    shift.row(k).setOnes();
    for (int a = 0; a < 20; ++a) turn.col(a) = Eigen::Vector3d::Unit(k).cross(X.col(a));
    EXPECT_LT((K * stacked(shift)).norm(), 1e-12 * K.norm());
    EXPECT_LT((K * stacked(turn)).norm(), 1e-12 * K.norm() * turn.norm());
  }
  Eigen::FullPivLU<Eigen::MatrixXd> lu{Eigen::MatrixXd(K)};
  lu.setThreshold(1e-9);
  EXPECT_EQ(lu.rank(), 54);  // no spurious mode under 3 x 3 x 3 points
}

TEST(Brick, folded_brick_is_refused) {
  BrickNodes X;
  for (int a = 0; a < 20; ++a)
    X.col(a) << mesh::Hex20::places[a][0], mesh::Hex20::places[a][1], mesh::Hex20::places[a][2];
  EXPECT_NO_THROW((void)brick_stiffness(X, isotropic_elasticity(1, 0.3)));
  X.row(0) *= -1;
  EXPECT_THROW((void)brick_stiffness(X, isotropic_elasticity(1, 0.3)), std::runtime_error);
}

TEST(Brick, fibre_elasticity_gives_back_the_engineering_constants) {
  // Definition of the engineering constants (Jones 1975, compliance of a transversely isotropic solid), fibre turned in space.
  const double E_L = 500, E_T = 300, nu_LT = 0.3, nu_TT = 0.4, G_LT = 150;
  const Eigen::Vector3d a = Eigen::Vector3d(1, -2, 0.5).normalized();
  const Matrix6 C = transverse_elasticity(materials::fibre_moduli(E_L, E_T, nu_LT, nu_TT, G_LT), a);
  const auto uniaxial = [&](const Eigen::Vector3d& d) {
    const Strain s{d[0] * d[0], d[1] * d[1], d[2] * d[2], d[1] * d[2], d[0] * d[2], d[0] * d[1]};
    return Strain(C.inverse() * s);
  };
  const Eigen::Vector3d b = a.unitOrthogonal(), c = a.cross(b);
  EXPECT_NEAR(strain_along(uniaxial(a), a), 1 / E_L, 1e-13);
  EXPECT_NEAR(strain_along(uniaxial(a), b), -nu_LT / E_L, 1e-13);
  EXPECT_NEAR(strain_along(uniaxial(b), b), 1 / E_T, 1e-13);
  EXPECT_NEAR(strain_along(uniaxial(b), c), -nu_TT / E_T, 1e-13);
  EXPECT_LT((C - C.transpose()).norm(), 1e-10);
  const Matrix6 iso = transverse_elasticity(materials::fibre_moduli(735, 735, 0.35, 0.35, 735 / 2.7), a);
  EXPECT_LT((iso - isotropic_elasticity(735, 0.35)).norm(), 1e-9);
}

TEST(Layer, linear_law_gives_the_two_foundation_moduli) {
  const double E = 6, nu = 0.4, h = 3, mu = E / (2 * (1 + nu)), lambda = E * nu / ((1 + nu) * (1 - 2 * nu));
  const Eigen::Vector3d N = Eigen::Vector3d(2, 1, -1).normalized(), u(0.1, -0.2, 0.05);
  const auto r = layer_response(materials::LinearIsotropic{E, nu}, u, N, h);
  const Eigen::Matrix3d NN = N * N.transpose();
  const Eigen::Matrix3d k = (lambda + 2 * mu) / h * NN + mu / h * (Eigen::Matrix3d::Identity() - NN);
  EXPECT_LT((r.stiffness - k).norm(), 1e-12);
  EXPECT_LT((r.traction - k * u).norm(), 1e-12);
  EXPECT_NEAR(r.energy, 0.5 * u.dot(k * u), 1e-12);
}

template <class Law>
void check_derivatives(const Law& law) {
  const double h = 3, step = 1e-5;
  const Eigen::Vector3d N = Eigen::Vector3d(0.6, 0.2, 0.7).normalized(), u(0.5, 1.1, -0.3);
  const auto r = layer_response(law, u, N, h);
  for (int i = 0; i < 3; ++i) {
    const Eigen::Vector3d d = step * Eigen::Vector3d::Unit(i);
    const auto plus = layer_response(law, u + d, N, h), minus = layer_response(law, u - d, N, h);
    EXPECT_NEAR(r.traction[i], (plus.energy - minus.energy) / (2 * step), 1e-7 * r.traction.norm());
    const Eigen::Vector3d column = (plus.traction - minus.traction) / (2 * step);
    EXPECT_LT((r.stiffness.col(i) - column).norm(), 1e-7 * r.stiffness.norm());
  }
  EXPECT_NEAR(layer_energy(law, u, N, h), r.energy, 1e-12);
}

TEST(Layer, traction_and_stiffness_are_derivatives_of_the_energy) {
  check_derivatives(materials::Yeoh{0.025, 1.93, 10});
  check_derivatives(materials::NeoHooke::example());
}

TEST(Layer, shear_of_a_yeoh_layer_has_its_closed_form) {
  // Simple shear g = u / h leaves J = 1 and I1 = 3 + g^2: traction 2 g (C10 + 2 C20 g^2). (Yeoh 1993; simple shear.)
  const double C10 = 0.025, C20 = 1.93, h = 3, g = 0.48;
  const auto r = layer_response(materials::Yeoh{C10, C20, 10}, {0, g * h, 0}, {1, 0, 0}, h);
  EXPECT_NEAR(r.traction.y(), 2 * g * (C10 + 2 * C20 * g * g), 1e-12);
  EXPECT_NEAR(r.stiffness(1, 1), (2 * C10 + 12 * C20 * g * g) / h, 1e-12);
}

}  // namespace
