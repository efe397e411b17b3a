// A thin layer of thickness h between a fixed inner body and a moving outer face, as a nonlinear foundation.
//
// The displacement is taken to grow linearly across the layer, from 0 to the outer face's u along the unit normal N (from the
// inner to the outer body), and in-plane gradients of u, of order u/L, are dropped beside u/h:
//
//   F = I + u (x) N / h,   energy per area h psi(F),   traction P N,   stiffness (N . A . N) / h
//
// The traction is what the outer face needs, i.e. minus the force per area that the layer exerts on it. For linear
// elasticity this is [k_n N N + k_s (I - N N)] u with k_n = (lambda + 2 mu)/h, k_s = mu/h.
// Limits: h small against the radius of curvature and the length over which u varies. mm, N, MPa.
#pragma once

#include "materials/response.hpp"

#include <Eigen/Core>

namespace hoofload::solver {

/// Per area of the layer's mid-surface: energy [N/mm], traction [MPa], stiffness [MPa/mm] (symmetric).
struct LayerResponse {
  double energy;
  Eigen::Vector3d traction;
  Eigen::Matrix3d stiffness;
};

/// Deformation gradient of the layer.
[[nodiscard]] inline Eigen::Matrix3d layer_gradient(const Eigen::Vector3d& u, const Eigen::Vector3d& N, double h) {
  return Eigen::Matrix3d::Identity() + u * N.transpose() / h;
}

/// Response of a layer of the given law. An inverted layer (det F <= 0) has infinite energy, as the law says.
template <class Law>
[[nodiscard]] LayerResponse layer_response(const Law& law, const Eigen::Vector3d& u, const Eigen::Vector3d& N,
                                           double h) {
  const auto r = respond<materials::SpaceComponents>(law, layer_gradient(u, N, h));
  LayerResponse out{h * r.psi, Eigen::Vector3d::Zero(), Eigen::Matrix3d::Zero()};
  for (int i = 0; i < 3; ++i)
    for (int J = 0; J < 3; ++J) {
      out.traction[i] += r.P[3 * i + J] * N[J];
      for (int k = 0; k < 3; ++k)
        for (int L = 0; L < 3; ++L) out.stiffness(i, k) += N[J] * r.A(3 * i + J, 3 * k + L) * N[L] / h;
    }
  return out;
}

/// Energy per area only, for line searches.
template <class Law>
[[nodiscard]] double layer_energy(const Law& law, const Eigen::Vector3d& u, const Eigen::Vector3d& N, double h) {
  return h * energy(law, layer_gradient(u, N, h));
}

}  // namespace hoofload::solver
