#include "solver/solid.hpp"

#include <Eigen/Dense>
#include <stdexcept>

#include "mesh/tri_shapes.hpp"
#include "solver/solid_kernel.hpp"

namespace hoofload::solver {

namespace {

struct Geometry {
  Eigen::Matrix<double, 6, 2> X;
  Eigen::Matrix<double, 6, 1> breadth;
};

Geometry geometry_of(const mesh::PlaneMesh& mesh, const mesh::Block& block, std::size_t e) {
  Geometry g;
  for (int a = 0; a < 6; ++a) {
    const auto i = static_cast<std::size_t>(a);
    g.X.row(a) = mesh.X[static_cast<std::size_t>(block.tri[e][i])].transpose();
    g.breadth(a) = block.breadth.empty() ? 1.0 : block.breadth[e][i];
  }
  return g;
}

/// Gradient and value of the cubic bubble 27 L0 L1 L2.
Eigen::Vector2d bubble_gradient(double xi, double eta) {
  const double l0 = 1 - xi - eta;
  return 27.0 * Eigen::Vector2d{eta * (l0 - xi), xi * (l0 - eta)};
}

void add_point(SolidBlock& block, Symmetry symmetry, const Geometry& geo, const mesh::TriPoint& q) {
  const auto N = mesh::Tri6::N(q.xi, q.eta);
  const auto dN = mesh::Tri6::dN(q.xi, q.eta);
  const Eigen::Matrix2d J = geo.X.transpose() * dN;  // dX_i/dxi_j
  const double det = J.determinant();
  if (!(det > 0)) throw std::invalid_argument("region '" + block.region + "': an element is folded (det J <= 0)");
  const Eigen::Matrix2d J_inverse = J.inverse();
  const Vec2 X = geo.X.transpose() * N;
  SolidPoint point;
  point.dN_dX = dN * J_inverse;
  point.weight = q.weight * det * measure(symmetry, X, geo.breadth.dot(N));
  for (int a = 0; a < 6; ++a) point.hoop(a) = hoop(symmetry, N(a), X.x());
  block.has_hoop = block.has_hoop || !point.hoop.isZero(0);
  block.points.push_back(point);
  if (block.formulation == Formulation::displacement) return;
  const double l0 = 1 - q.xi - q.eta;
  MixedPoint m;
  m.dNb_dX = J_inverse.transpose() * bubble_gradient(q.xi, q.eta);
  m.hoop_bubble = hoop(symmetry, 27 * l0 * q.xi * q.eta, X.x());
  m.L = Eigen::Vector3d{l0, q.xi, q.eta};
  block.mixed_points.push_back(m);
}

void add_pressure_mass(SolidBlock& block, std::size_t e) {
  Eigen::Matrix3d M = Eigen::Matrix3d::Zero();
  const auto np = static_cast<std::size_t>(block.points_per_element);
  for (std::size_t q = e * np; q < (e + 1) * np; ++q)
    M += block.points[q].weight * block.mixed_points[q].L * block.mixed_points[q].L.transpose();
  block.M_inverse.push_back(M.inverse());
}

template <class Rule>
void fill_points(SolidBlock& block, const mesh::PlaneMesh& mesh, const mesh::Block& source, Symmetry symmetry,
                 const Rule& rule) {
  block.points_per_element = static_cast<int>(rule.size());
  block.points.reserve(source.tri.size() * rule.size());
  for (std::size_t e = 0; e < source.tri.size(); ++e) {
    const Geometry geo = geometry_of(mesh, source, e);
    for (const auto& q : rule) add_point(block, symmetry, geo, q);
    if (block.formulation == Formulation::mixed) add_pressure_mass(block, e);
  }
}

}  // namespace

SolidBlock make_solid_block(const mesh::PlaneMesh& mesh, const mesh::Block& source, Symmetry symmetry,
                            const materials::Material& material, Formulation formulation) {
  SolidBlock block;
  block.region = source.region;
  block.material = material;
  block.formulation = formulation;
  block.nodes = source.tri;
  const bool split =
      std::visit([](const auto& law) { return materials::HasVolumetricSplit<std::decay_t<decltype(law)>>; }, material);
  if (formulation == Formulation::mixed && !split)
    throw std::invalid_argument("region '" + source.region + "': its material has no volumetric split");
  if (formulation == Formulation::mixed)
    fill_points(block, mesh, source, symmetry, mesh::triangle_rule<6>);
  else
    fill_points(block, mesh, source, symmetry, mesh::triangle_rule<3>);
  return block;
}

double solid_energy(const SolidBlock& block, int e, const Eigen::Matrix<double, 12, 1>& u, const MixedState* state) {
  return std::visit(
      [&](const auto& law) {
        return kernel::element_energy(law, block, e, u, block.formulation == Formulation::mixed ? state : nullptr);
      },
      block.material);
}

namespace {

template <bool with_hoop, class Law>
void sweep_elements(const Law& law, const SolidBlock& block, const SolidSweep& sweep, const Eigen::VectorXd& x,
                    const SolidSink& sink) {
  SolidResult result;
  for (int e = 0; e < static_cast<int>(block.nodes.size()); ++e) {
    const auto at = static_cast<std::size_t>(e);
    const Eigen::Matrix<double, 12, 1> u = element_displacements(block, e, x);
    bool done = false;
    if constexpr (materials::HasVolumetricSplit<Law>) {
      if (block.formulation == Formulation::mixed) {
        kernel::mixed_element<with_hoop>(law, block, e, u, sweep.states[at], sweep.recovery[at], result);
        done = true;
      }
    }
    if (!done) kernel::displacement_element<with_hoop>(law, block, e, u, result);
    sink(e, result);
  }
}

}  // namespace

void sweep_solid(const SolidBlock& block, const SolidSweep& sweep, const Eigen::VectorXd& x, const SolidSink& sink) {
  std::visit(
      [&](const auto& law) {
        block.has_hoop ? sweep_elements<true>(law, block, sweep, x, sink)
                       : sweep_elements<false>(law, block, sweep, x, sink);
      },
      block.material);
}

}  // namespace hoofload::solver
