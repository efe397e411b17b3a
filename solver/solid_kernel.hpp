// The inner loops of solid.hpp: templates on the law, visited once per block. Included by solid.cpp alone.
#pragma once

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <variant>

#include "materials/response.hpp"
#include "solver/solid.hpp"
#include "solver/solid_sums.hpp"

namespace hoofload::solver {

namespace kernel {

using materials::PlaneComponents;

/// H = B u without forming B.
template <bool with_hoop = true>
inline Vec5 displacement_gradient(const SolidPoint& point, const Eigen::Matrix<double, 12, 1>& u) {
  Vec5 H = Vec5::Zero();
  for (int a = 0; a < 6; ++a) {
    H(0) += point.dN_dX(a, 0) * u(2 * a);
    H(1) += point.dN_dX(a, 1) * u(2 * a);
    H(2) += point.dN_dX(a, 0) * u(2 * a + 1);
    H(3) += point.dN_dX(a, 1) * u(2 * a + 1);
    if constexpr (with_hoop) H(4) += point.hoop(a) * u(2 * a);
  }
  return H;
}

/// The point's own shapes and the bubble's, side by side.
struct BubbleShapes {
  std::array<double, 8> x{}, y{}, hoop{};
  BubbleShapes(const SolidPoint& point, const MixedPoint& m) {
    std::copy_n(point.dN_dX.data(), 6, x.data());
    std::copy_n(point.dN_dX.data() + 6, 6, y.data());
    std::copy_n(point.hoop.data(), 6, hoop.data());
    x[6] = m.dNb_dX(0), y[6] = m.dNb_dX(1), hoop[6] = m.hoop_bubble;
  }
};

inline void add_bubble(const MixedPoint& m, const Eigen::Vector2d& b, Vec5& H) {
  H(0) += m.dNb_dX(0) * b(0);
  H(1) += m.dNb_dX(1) * b(0);
  H(2) += m.dNb_dX(0) * b(1);
  H(3) += m.dNb_dX(1) * b(1);
  H(4) += m.hoop_bubble * b(0);
}

/// Everything inlined: the laws' small matrices then stay in registers (a fifth of an assembly).
template <bool with_hoop, class Law>
[[gnu::flatten]] void displacement_element(const Law& law, const SolidBlock& block, int e,
                                           const Eigen::Matrix<double, 12, 1>& u, SolidResult& out) {
  out.energy = 0;
  ElementSums<6> sums;
  for (int q = 0; q < block.points_per_element; ++q) {
    const SolidPoint& point = block.points[static_cast<std::size_t>(e * block.points_per_element + q)];
    const auto r = materials::respond<PlaneComponents>(law, deformation_gradient(displacement_gradient<with_hoop>(point, u)));
    out.energy += point.weight * r.psi;
    const PointShapes shapes{point.dN_dX.data(), point.dN_dX.data() + 6, point.hoop.data()};
    sums.template add<with_hoop>(shapes, point.weight, r.P, r.A);
  }
  sums.write(out.f, out.K);
}

/// Smallest stiffness the bubble block may have, relative to its largest: keeps the condensation a descent direction.
inline Eigen::Matrix2d clamped_inverse(const Eigen::Matrix2d& K) {
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix2d> es(K);
  const double floor = 1e-3 * es.eigenvalues().cwiseAbs().maxCoeff();
  const Eigen::Vector2d inverse = es.eigenvalues().cwiseMax(floor).cwiseInverse();
  return es.eigenvectors() * inverse.asDiagonal() * es.eigenvectors().transpose();
}

template <bool with_hoop, class Law>
[[gnu::flatten]] void mixed_element(const Law& law, const SolidBlock& block, int e,
                                    const Eigen::Matrix<double, 12, 1>& u, const MixedState& state, MixedRecovery& rec,
                                    SolidResult& out) {
  constexpr int n = 7;
  const double kappa = kappa0(law);
  const int np = block.points_per_element;
  const Eigen::Matrix3d& Mi = block.M_inverse[static_cast<std::size_t>(e)];
  ElementSums<n> sums;
  Eigen::Matrix<double, 3, 14> G = Eigen::Matrix<double, 3, 14>::Zero();
  Eigen::Vector3d c = Eigen::Vector3d::Zero();
  out.energy = 0;
  for (int q = 0; q < np; ++q) {
    const auto at = static_cast<std::size_t>(e * np + q);
    const SolidPoint& point = block.points[at];
    const MixedPoint& m = block.mixed_points[at];
    Vec5 H = displacement_gradient<with_hoop>(point, u);
    add_bubble(m, state.bubble, H);
    const Mat3 F = deformation_gradient(H);
    auto iso = materials::respond_isochoric<PlaneComponents>(law, F);
    const auto strain = materials::volumetric_strain<PlaneComponents>(law, F);
    const double w = point.weight;
    out.energy += w * iso.psi;
    c += w * strain.psi * m.L;
    iso.A += state.pressure.dot(m.L) * strain.A;
    const BubbleShapes s(point, m);
    sums.template add<with_hoop>({s.x.data(), s.y.data(), s.hoop.data()}, w, iso.P, iso.A);
    for (int a = 0; a < n; ++a) {
      const double gx = w * (s.x[a] * strain.P(0) + s.y[a] * strain.P(1) + s.hoop[a] * strain.P(4));
      const double gy = w * (s.x[a] * strain.P(2) + s.y[a] * strain.P(3));
      G.col(2 * a) += gx * m.L;
      G.col(2 * a + 1) += gy * m.L;
    }
  }
  Eigen::Matrix<double, 14, 1> f;
  Eigen::Matrix<double, 14, 14> K;
  sums.write(f, K);
  K.template triangularView<Eigen::StrictlyUpper>() = K.transpose();
  // Small fixed sizes: written out by the compiler, where the general product would pack its operands first.
  const Eigen::Matrix3d kMi = kappa * Mi;
  const Eigen::Matrix<double, 3, 14> kMiG = kMi.lazyProduct(G);
  const Eigen::Vector3d p = kappa * Mi * c;
  out.energy += 0.5 * c.dot(p);
  f += G.transpose() * p;
  K += G.transpose().lazyProduct(kMiG);
  rec.Kbb_inverse = clamped_inverse(K.template bottomRightCorner<2, 2>());
  rec.Kbu = K.template bottomLeftCorner<2, 12>();
  rec.fb = f.template tail<2>();
  rec.p_at_state = p;
  rec.dp = kMiG;
  const Eigen::Matrix<double, 12, 2> KubKi = rec.Kbu.transpose() * rec.Kbb_inverse;
  out.f = f.template head<12>() - KubKi * rec.fb;
  out.K = K.template topLeftCorner<12, 12>();
  out.K -= KubKi.lazyProduct(rec.Kbu);
}

template <class Law>
double element_energy(const Law& law, const SolidBlock& block, int e, const Eigen::Matrix<double, 12, 1>& u,
                      const MixedState* state) {
  const int np = block.points_per_element;
  double sum = 0;
  Eigen::Vector3d c = Eigen::Vector3d::Zero();
  for (int q = 0; q < np; ++q) {
    const auto at = static_cast<std::size_t>(e * np + q);
    Vec5 H = displacement_gradient(block.points[at], u);
    const double w = block.points[at].weight;
    if constexpr (materials::HasVolumetricSplit<Law>) {
      if (state != nullptr) {
        add_bubble(block.mixed_points[at], state->bubble, H);
        const Mat3 F = deformation_gradient(H);
        sum += w * energy_isochoric(law, F);
        c += w * theta(law, F) * block.mixed_points[at].L;
        continue;
      }
    }
    sum += w * energy(law, deformation_gradient(H));
  }
  if constexpr (materials::HasVolumetricSplit<Law>) {
    if (state != nullptr) sum += 0.5 * kappa0(law) * c.dot(block.M_inverse[static_cast<std::size_t>(e)] * c);
  }
  return sum;
}

}  // namespace kernel

}  // namespace hoofload::solver
