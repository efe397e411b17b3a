// The discrete system of a model: fixed sparsity, energy, gradient and Hessian in the unknowns q (theory.md, contact).
//
// The pattern never changes with the contact state: a slave node's rows are expressed by its master and its jump, a
// ground node's by its gap and the three ground dofs. lambda_i is then the residual of the normal unknown: exact.
#pragma once

#include <Eigen/Sparse>
#include <string_view>
#include <vector>

#include "solver/model.hpp"
#include "solver/scatter_pattern.hpp"
#include "solver/state.hpp"

namespace hoofload::solver {

/// One group of elements that scatter together: unknown lists, transformation and places in the matrix.
struct ScatterMap {
  int local = 0;  ///< full dofs per element (constant within a group of solids; per element else)
  std::vector<int> first_dof, first_unknown, first_place;  ///< offsets per element, one past the end
  std::vector<int> dofs;                                   ///< full dofs
  std::vector<int> unknowns;                               ///< q indices
  std::vector<int> places;  ///< value index of each pair a >= b of unknowns, packed by columns
  std::vector<char> plain;  ///< 1: unknowns == dofs, identity transformation
  /// Of the others: which of the element's unknowns each entry of its dofs' rows is, dof by dof; offsets per element.
  std::vector<int> first_position, positions;
};

struct Assembly {
  double energy = 0;
  Eigen::VectorXd gradient;  ///< dPi/dq, contact forces not included
  std::vector<double> hessian;  ///< lower triangle: values of System::pattern()
};

class System {
 public:
  explicit System(Model model);

  [[nodiscard]] const Model& model() const { return model_; }
  [[nodiscard]] const std::vector<ContactPoint>& contact_points() const { return contacts_; }
  [[nodiscard]] int first_ground_contact() const { return first_ground_contact_; }
  /// Contact index range [first, last) of pair interaction k.
  [[nodiscard]] std::pair<int, int> contacts_of_pair(std::size_t k) const { return pair_ranges_[k]; }

  /// Undeformed state: ground at distance d, offset 0 and pitch theta, all contacts open.
  [[nodiscard]] State rest_state(double d, double theta) const;

  /// Puts the contacts of pair k to sleep (as if the slave were not there), or wakes them where they are: coincident
  /// points then start with zero pressure, points with a gap keep it.
  void set_dormant(State& state, std::size_t pair) const;
  void wake(State& state, std::size_t pair) const;

  /// Displacements of all full dofs.
  [[nodiscard]] Eigen::VectorXd displacements(const State& state) const;

  /// The same bodies against a ground plane placed at (d, s, theta): ground nodes keep their places in space.
  void place_ground(State& state, double d, double s, double theta) const;

  /// Smallest distance d at which the ground at pitch theta does not cut the deformed body.
  [[nodiscard]] double touching_distance(const State& state, double theta) const;

  /// Energy alone (line search); +inf if an element is inverted. As in assemble, friction's work is the caller's.
  [[nodiscard]] double energy(const State& state, const Loading& loading) const;

  /// Energy, gradient and Hessian; `recovery` keeps what `advance` needs.
  void assemble(const State& state, const Loading& loading, Assembly& out, std::vector<MixedRecovery>& recovery) const;

  /// state + alpha dq, with the element internals that belong to it.
  [[nodiscard]] State advance(const State& state, const Eigen::VectorXd& dq, double alpha,
                              const std::vector<MixedRecovery>& recovery) const;

  /// Internal nodal forces dW/dx of all full dofs (reactions of clamped nodes among them).
  [[nodiscard]] Eigen::VectorXd internal_forces(const State& state, const Loading& loading) const;

  /// The part of them that comes from the solid blocks of one region.
  [[nodiscard]] Eigen::VectorXd region_forces(const State& state, std::string_view region) const;

  /// Bounds of StickSlip springs from their partners' present forces.
  [[nodiscard]] std::vector<std::vector<double>> spring_bounds(const State& state) const;

  [[nodiscard]] const LowerPattern& pattern() const { return pattern_; }
  /// The lower triangle as a matrix; a view of `assembly`.
  [[nodiscard]] Eigen::Map<const SparseMatrix> hessian(const Assembly& assembly) const {
    return pattern_.with(assembly.hessian.data());
  }

 private:
  struct Rows {  ///< full dof = sum c_k q_k + constant, for slave and ground dofs; row r has the entries first[r] to first[r + 1]
    std::vector<int> first{0}, unknown;
    std::vector<double> c;
  };
  struct ScatterTarget {
    const std::vector<double>& c;  ///< coefficients of all rows
    Eigen::VectorXd& r_full;
    double* values;  ///< null: forces alone
    std::vector<double> work;
  };
  void number_contacts();
  void build_rows();
  void build_pattern();
  void add_group(ScatterMap& map, const std::vector<std::vector<int>>& dofs) const;
  [[nodiscard]] int row_of(int dof) const { return row_of_dof_[static_cast<std::size_t>(dof)]; }
  [[nodiscard]] std::vector<double> row_coefficients(const State& state) const;
  void scatter(const ScatterMap& map, int e, const double* f, const double* K, int stride, ScatterTarget& to) const;
  template <class Work>
  void for_each_entry(const ScatterMap& map, int e, const std::vector<double>& c, const Work& work) const;
  void scatter_spring(const ScatterMap& map, int e, const Spring& spring, double stiffness, ScatterTarget& to) const;
  void scatter_by_rows(const ScatterMap& map, int e, const double* K, int stride, ScatterTarget& to) const;
  void full_increment(const Eigen::VectorXd& dq, const std::vector<double>& c, Eigen::VectorXd& dx) const;
  void pull_back(const Eigen::VectorXd& r_full, const std::vector<double>& c, Eigen::VectorXd& g) const;
  void add_ground_curvature(const State& state, const Eigen::VectorXd& r_full, double* values) const;
  double add_loads(const State& state, const Loading& loading, Eigen::VectorXd* g, double* values) const;
  void add_solid_forces(const SolidBlock& block, const State& state, const Eigen::VectorXd& x,
                        Eigen::VectorXd& r) const;
  [[nodiscard]] double bound_energy(const State& state, const Eigen::VectorXd& x, double ramp) const;

  Model model_;
  std::vector<ContactPoint> contacts_;
  std::vector<std::pair<int, int>> pair_ranges_;
  int first_ground_contact_ = 0;
  std::vector<int> row_of_dof_;    ///< -1: plain
  Rows rows_;                      ///< at theta = 0; ground rows are refreshed per state
  std::vector<int> ground_index_;  ///< ground list position of a plane node, -1 none
  std::vector<int> master_of_;     ///< plane node's master, -1 none
  std::vector<Vec2> slave_normal_;
  int mixed_count_ = 0;
  LowerPattern pattern_;
  std::vector<double> constant_values_;  ///< empty: none
  SparseMatrix constant_full_;  ///< constant blocks on full dofs (all plain)
  std::vector<ScatterMap> solid_maps_, layer_maps_, spring_maps_;
  std::vector<int> ground_places_;  ///< per ground node: 15 places of (g, tau, d, s, theta)
  int theta_place_ = 0;
};

}  // namespace hoofload::solver
