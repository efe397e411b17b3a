#include "solver/fields.hpp"

#include <algorithm>
#include <cmath>

#include "solver/solid_kernel.hpp"

namespace hoofload::solver {

namespace {

using kernel::Vec5;
using materials::PlaneComponents;

Mat3 cauchy(const Vec5& P, const Mat3& F) {
  Mat3 stress = Mat3::Zero();
  stress << P(0), P(1), 0, P(2), P(3), 0, 0, 0, P(4);
  return stress * F.transpose() / F.determinant();
}

Eigen::Matrix<double, 12, 1> displacements_of(const SolidBlock& block, std::size_t e, const Eigen::VectorXd& x) {
  Eigen::Matrix<double, 12, 1> u;
  for (int a = 0; a < 6; ++a) u.segment<2>(2 * a) = x.segment<2>(2 * block.nodes[e][static_cast<std::size_t>(a)]);
  return u;
}

/// Stress at one quadrature point; `mixed` is null in a displacement element.
template <class Law>
Mat3 point_stress(const Law& law, const SolidBlock& block, std::size_t at, const Eigen::Matrix<double, 12, 1>& u,
                  const MixedState* mixed) {
  Vec5 H = kernel::displacement_gradient(block.points[at], u);
  if constexpr (materials::HasVolumetricSplit<Law>) {
    if (mixed != nullptr) {
      kernel::add_bubble(block.mixed_points[at], mixed->bubble, H);
      const Mat3 F = deformation_gradient(H);
      const double p = mixed->pressure.dot(block.mixed_points[at].L);
      const Vec5 P = materials::respond_isochoric<PlaneComponents>(law, F).P +
                     p * materials::volumetric_strain<PlaneComponents>(law, F).P;
      return cauchy(P, F);
    }
  }
  const Mat3 F = deformation_gradient(H);
  return cauchy(materials::respond<PlaneComponents>(law, F).P, F);
}

double volume(const SolidBlock& block, std::size_t e) {
  double sum = 0;
  const auto np = static_cast<std::size_t>(block.points_per_element);
  for (std::size_t q = e * np; q < (e + 1) * np; ++q) sum += block.points[q].weight;
  return sum;
}

}  // namespace

std::vector<Mat3> element_stresses(const System& system, const State& state, const SolidBlock& block) {
  const Eigen::VectorXd x = system.displacements(state);
  const auto np = static_cast<std::size_t>(block.points_per_element);
  std::vector<Mat3> means;
  for (std::size_t e = 0; e < block.nodes.size(); ++e) {
    const auto u = displacements_of(block, e, x);
    const MixedState* mixed = block.formulation == Formulation::mixed
                                  ? &state.mixed[static_cast<std::size_t>(block.first_state) + e]
                                  : nullptr;
    Mat3 sum = Mat3::Zero();
    for (std::size_t q = e * np; q < (e + 1) * np; ++q)
      sum += block.points[q].weight *
             std::visit([&](const auto& law) { return point_stress(law, block, q, u, mixed); }, block.material);
    means.emplace_back(sum / volume(block, e));
  }
  return means;
}

std::vector<Mat3> nodal_stresses(const System& system, const State& state, const std::vector<std::string>& regions) {
  const Model& model = system.model();
  std::vector<Mat3> sum(model.X.size(), Mat3::Zero());
  std::vector<double> weight(model.X.size(), 0.0);
  for (const SolidBlock& block : model.solids) {
    if (std::find(regions.begin(), regions.end(), block.region) == regions.end()) continue;
    const auto means = element_stresses(system, state, block);
    for (std::size_t e = 0; e < means.size(); ++e) {
      const double w = volume(block, e);
      for (const int node : block.nodes[e]) {
        sum[static_cast<std::size_t>(node)] += w * means[e];
        weight[static_cast<std::size_t>(node)] += w;
      }
    }
  }
  for (std::size_t i = 0; i < sum.size(); ++i)
    if (weight[i] > 0) sum[i] /= weight[i];
  return sum;
}

double pressure_of(const Mat3& sigma) { return -sigma.trace() / 3; }

double von_mises(const Mat3& sigma) {
  const Mat3 s = sigma + pressure_of(sigma) * Mat3::Identity();
  return std::sqrt(1.5 * s.cwiseProduct(s).sum());
}

}  // namespace hoofload::solver
