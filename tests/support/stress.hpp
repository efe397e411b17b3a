// Deformation gradient and first Piola stress at the quadrature points of a block, for tests.
#pragma once

#include <vector>

#include "mesh/tri_shapes.hpp"
#include "solver/solid_kernel.hpp"
#include "solver/system.hpp"

namespace hoofload::tests {

using namespace hoofload::solver;

inline Vec2 rule_place(const Model& model, const std::array<int, 6>& nodes, int points, int q) {
  const auto at = static_cast<std::size_t>(q);
  const mesh::TriPoint p = points == 3 ? mesh::triangle_rule<3>[at] : mesh::triangle_rule<6>[at];
  const auto N = mesh::Tri6::N(p.xi, p.eta);
  Vec2 X = Vec2::Zero();
  for (int a = 0; a < 6; ++a) X += N[a] * model.X[static_cast<std::size_t>(nodes[static_cast<std::size_t>(a)])];
  return X;
}

inline Mat3 full_tensor(const Eigen::Matrix<double, 5, 1>& c) {
  Mat3 T = Mat3::Zero();
  for (int k = 0; k < 5; ++k)
    T(materials::PlaneComponents::row[static_cast<std::size_t>(k)],
      materials::PlaneComponents::col[static_cast<std::size_t>(k)]) = c[k];
  return T;
}

/// kappa M^-1 c of a mixed element.
template <class Law>
Eigen::Vector3d pressure_of(const Law& law, const SolidBlock& block, std::size_t e,
                            const Eigen::Matrix<double, 12, 1>& u, const Eigen::Vector2d& bubble) {
  Eigen::Vector3d c = Eigen::Vector3d::Zero();
  const auto np = static_cast<std::size_t>(block.points_per_element);
  for (std::size_t at = e * np; at < (e + 1) * np; ++at) {
    auto H = kernel::displacement_gradient(block.points[at], u);
    kernel::add_bubble(block.mixed_points[at], bubble, H);
    c += block.points[at].weight * theta(law, deformation_gradient(H)) * block.mixed_points[at].L;
  }
  return kappa0(law) * block.M_inverse[e] * c;
}

/// Point stresses of block b; the mixed element's own pressure field enters its stress.
inline std::vector<PointStress> point_stresses(const System& system, const State& state, std::size_t b) {
  const Model& model = system.model();
  const SolidBlock& block = model.solids[b];
  const Eigen::VectorXd x = system.displacements(state);
  std::vector<PointStress> out;
  for (std::size_t e = 0; e < block.nodes.size(); ++e) {
    Eigen::Matrix<double, 12, 1> u;
    for (int a = 0; a < 6; ++a) u.segment<2>(2 * a) = x.segment<2>(2 * block.nodes[e][static_cast<std::size_t>(a)]);
    for (int q = 0; q < block.points_per_element; ++q) {
      const std::size_t at = e * static_cast<std::size_t>(block.points_per_element) + static_cast<std::size_t>(q);
      auto H = kernel::displacement_gradient(block.points[at], u);
      PointStress p;
      p.X = rule_place(model, block.nodes[e], block.points_per_element, q);
      p.weight = block.points[at].weight;
      std::visit(
          [&](const auto& law) {
            using Law = std::decay_t<decltype(law)>;
            if constexpr (materials::HasVolumetricSplit<Law>) {
              if (block.formulation == Formulation::mixed) {
                const MixedState& m = state.mixed[static_cast<std::size_t>(block.first_state) + e];
                // The pressure that the force is made of; the iterated one may lag a step behind, Eq. (22).
                const Eigen::Vector3d pressure = pressure_of(law, block, e, u, m.bubble);
                kernel::add_bubble(block.mixed_points[at], m.bubble, H);
                p.F = deformation_gradient(H);
                p.P = full_tensor(materials::respond_isochoric<materials::PlaneComponents>(law, p.F).P +
                                  pressure.dot(block.mixed_points[at].L) *
                                      materials::volumetric_strain<materials::PlaneComponents>(law, p.F).P);
                return;
              }
            }
            p.F = deformation_gradient(H);
            p.P = full_tensor(materials::respond<materials::PlaneComponents>(law, p.F).P);
          },
          block.material);
      out.push_back(p);
    }
  }
  return out;
}

}  // namespace hoofload::tests
