// A displacement field known in closed form: its body force, its supports and the errors of a solution against it, for tests.
#pragma once

#include <functional>

#include "tests/support/edge_loads.hpp"
#include "tests/support/equilibrium.hpp"
#include "tests/support/single_block.hpp"
#include "tests/support/stress.hpp"

namespace hoofload::tests {

using materials::Material;

/// u(X) [mm] and F(X) of a plane or axisymmetric field; `measure(X)` is the breadth, or R (any constant factor cancels).
struct ExactField {
  std::function<Vec2(const Vec2&)> u;
  std::function<Mat3(const Vec2&)> F;
  std::function<double(const Vec2&)> measure = [](const Vec2&) { return 1.0; };
};

/// F by fourth-order central differences of u; `axisymmetric` adds the hoop stretch r/R, whose place at R = 0 is never asked.
[[nodiscard]] inline std::function<Mat3(const Vec2&)> gradient_of(std::function<Vec2(const Vec2&)> u, Symmetry symmetry,
                                                                  double step = 1e-3) {
  return [=](const Vec2& X) {
    Mat3 F = Mat3::Identity();
    for (int J = 0; J < 2; ++J) {
      const Vec2 e = step * Vec2::Unit(J);
      const Vec2 d = (8 * (u(X + e) - u(X - e)) - (u(X + 2 * e) - u(X - 2 * e))) / (12 * step);
      F(0, J) += d.x();
      F(1, J) += d.y();
    }
    if (symmetry == Symmetry::axisymmetric) F(2, 2) += u(X).x() / X.x();
    return F;
  };
}

/// First Piola stress of a law [MPa].
[[nodiscard]] inline Mat3 nominal_stress(const Material& material, const Mat3& F) {
  return std::visit(
      [&](const auto& law) { return full_tensor(materials::respond<materials::PlaneComponents>(law, F).P); }, material);
}

/// kappa times the volume strain, the pressure that Eq. (22) iterates; zero for a law without the split.
[[nodiscard]] inline double volumetric_pressure(const Material& material, const Mat3& F) {
  return std::visit(
      [&](const auto& law) {
        if constexpr (materials::HasVolumetricSplit<std::decay_t<decltype(law)>>) return kappa0(law) * theta(law, F);
        return 0.0;
      },
      material);
}

/// B = -(1/m) d(m P_iJ)/dX_J + P_33/R e_r, from Eq. (6): what holds the field in balance, per volume [N/mm^3].
[[nodiscard]] inline Vec2 body_force(const ExactField& field, const Material& material, Symmetry symmetry,
                                     const Vec2& X, double step = 1e-3) {
  const auto mP = [&](const Vec2& at) { return Mat3(field.measure(at) * nominal_stress(material, field.F(at))); };
  Vec2 B = Vec2::Zero();
  for (int J = 0; J < 2; ++J) {
    const Vec2 e = step * Vec2::Unit(J);
    const Mat3 d = (8 * (mP(X + e) - mP(X - e)) - (mP(X + 2 * e) - mP(X - 2 * e))) / (12 * step);
    B -= d.block<2, 2>(0, 0).col(J) / field.measure(X);
  }
  if (symmetry == Symmetry::axisymmetric) B.x() += nominal_stress(material, field.F(X))(2, 2) / X.x();
  return B;
}

/// Calls body(X, N (6), bubble, weight x det J) at twelve points of every element of a mesh block.
template <class Body>
void at_fine_points(const mesh::PlaneMesh& mesh, const mesh::Block& block, const Body& body) {
  for (std::size_t e = 0; e < block.tri.size(); ++e) {
    Eigen::Matrix<double, 6, 2> X;
    for (int a = 0; a < 6; ++a)
      X.row(a) = mesh.X[static_cast<std::size_t>(block.tri[e][static_cast<std::size_t>(a)])].transpose();
    for (const auto& q : mesh::triangle_rule<12>) {
      const auto N = mesh::Tri6::N(q.xi, q.eta);
      const Eigen::Matrix2d J = X.transpose() * mesh::Tri6::dN(q.xi, q.eta);
      body(e, Vec2(X.transpose() * N), N, 27 * (1 - q.xi - q.eta) * q.xi * q.eta, q.weight * J.determinant());
    }
  }
}

/// Consistent nodal loads of the field's body force. Element bubbles take none, so a mixed block must have B = 0.
inline void add_body_force(BlockModel& b, const ExactField& field) {
  const Symmetry symmetry = b.model.symmetry;
  const double turn = symmetry == Symmetry::axisymmetric ? 2 * std::numbers::pi : 1;
  at_fine_points(b.mesh, b.mesh.blocks[0], [&](std::size_t e, const Vec2& X, const auto& N, double, double weight) {
    const Vec2 B = body_force(field, b.model.solids[0].material, symmetry, X);
    for (int a = 0; a < 6; ++a)
      for (int c = 0; c < 2; ++c)
        b.model.dead_loads.push_back({plane_dof(b.mesh.blocks[0].tri[e][static_cast<std::size_t>(a)], c),
                                      turn * weight * field.measure(X) * N(a) * B[c]});
  });
}

/// Holds the whole outline at the field; on the axis only u_r.
inline void hold_outline(BlockModel& b, const ExactField& field) {
  for (int node : b.outline()) {
    const bool axis =
        b.model.symmetry == Symmetry::axisymmetric && b.model.X[static_cast<std::size_t>(node)].x() < 1e-9;
    hold(b.model, {node}, field.u, axis ? std::vector<int>{0} : std::vector<int>{0, 1});
    if (axis) b.model.supports.back().value = 0;
  }
}

/// Relative L2 errors of displacement, first Piola stress and, of a mixed block, its own pressure.
struct FieldErrors {
  double u = 0, P = 0, p = 0;
};

[[nodiscard]] inline FieldErrors field_errors(const BlockModel& b, const Solved& solved, const ExactField& field) {
  const SolidBlock& block = solved.system->model().solids[0];
  const bool ax = b.model.symmetry == Symmetry::axisymmetric, mixed = block.formulation == Formulation::mixed;
  FieldErrors e;
  double u2 = 0, P2 = 0, p2 = 0;
  at_fine_points(b.mesh, b.mesh.blocks[0],
                 [&](std::size_t k, const Vec2& X, const auto& N, double bubble, double weight) {
                   Vec2 u = mixed ? Vec2(bubble * solved.state.mixed[k].bubble) : Vec2(0, 0);
                   for (int a = 0; a < 6; ++a) u += N(a) * solved.u(block.nodes[k][static_cast<std::size_t>(a)]);
                   const double w = weight * (ax ? X.x() : 1.0);
                   e.u += w * (u - field.u(X)).squaredNorm();
                   u2 += w * field.u(X).squaredNorm();
                 });
  const auto points = point_stresses(*solved.system, solved.state, 0);
  for (const auto& q : points) {
    const Mat3 P = nominal_stress(block.material, field.F(q.X));
    e.P += q.weight * (q.P - P).squaredNorm();
    P2 += q.weight * P.squaredNorm();
  }
  if (mixed) {
    for (std::size_t k = 0; k < block.nodes.size(); ++k) {
      const auto u = element_displacements(block, static_cast<int>(k), solved.x);
      const Eigen::Vector3d pressure = std::visit(
          [&](const auto& law) -> Eigen::Vector3d {
            if constexpr (materials::HasVolumetricSplit<std::decay_t<decltype(law)>>)
              return pressure_of(law, block, k, u, solved.state.mixed[k].bubble);
            return Eigen::Vector3d::Zero();
          },
          block.material);
      for (int q = 0; q < block.points_per_element; ++q) {
        const std::size_t at = k * static_cast<std::size_t>(block.points_per_element) + static_cast<std::size_t>(q);
        const double p = volumetric_pressure(block.material, field.F(points[at].X));
        e.p += points[at].weight * std::pow(pressure.dot(block.mixed_points[at].L) - p, 2);
        p2 += points[at].weight * p * p;
      }
    }
  }
  return {std::sqrt(e.u / u2), std::sqrt(e.P / P2), p2 > 0 ? std::sqrt(e.p / p2) : 0};
}

}  // namespace hoofload::tests
