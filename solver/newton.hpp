// One equilibrium: Newton's method on the energy under contact bounds (theory.md, Newton).
//
// Each step minimises the quadratic model under the bounds by a primal-dual active set; steps are accepted by an Armijo
// test on the energy. Friction is a Tresca fixed point inside the loop: the slip bound is mu times the last pressure.
#pragma once

#include <vector>

#include "solver/linear.hpp"
#include "solver/state.hpp"
#include "solver/system.hpp"

namespace hoofload::solver {

struct NewtonOptions {
  double tolerance = 1e-9;  ///< unbalanced force over the largest internal or applied force
  int most_iterations = 40;         ///< twice as many where the stiffness was found indefinite
  int set_changes = 3;             ///< active-set passes per step: an early step need not know its final set
  int patient_after = 12;          ///< from this step on every quadratic model is solved to its end ...
  int most_set_changes = 80;       ///< ... within so many passes
  int most_friction_updates = 10;  ///< rounds in which stick, slip and slip bounds may change
  double friction_slack = 1e-3;    ///< part of a slip bound by which a traction may miss it, Eq. (47)
  int most_factorisations = 250;   ///< of one solve, all passes together: then it is not going to converge
  double length_scale = 50;        ///< size of the body, for what is round-off of its coordinates [mm]
  double arm = 5;  ///< turns the joint's unbalanced moment into a force: the arm that must be right [mm]
};

/// Places whose status does not go with the forces and gaps of a state that settle_near found: it lies beyond a kink.
struct StatusChanges {
  int opens = 0, closes = 0, slips = 0, sticks = 0;  ///< contacts
  int springs = 0;                                   ///< one-sided ones and stick-slip ones
  [[nodiscard]] int all() const { return opens + closes + slips + sticks + springs; }
};

/// A system with its factorisation and work space.
class Newton {
 public:
  explicit Newton(const System& system);

  /// Brings `state` to equilibrium under `loading`. On failure `state` is left as it was given.
  [[nodiscard]] SolveReport solve(State& state, const Loading& loading, const NewtonOptions& options = {});

  /// Takes `state`, which is in equilibrium, as the anchor of settle_near: one factorisation. False if it is not stable.
  [[nodiscard]] bool anchor(const State& state, const Loading& loading);

  /// Brings `state` of this system to equilibrium with the anchor's factor alone, Eq. (112): every contact stays open or
  /// closed and every point stuck or sliding as in `at`, the anchor's state. The two systems have the same unknowns.
  [[nodiscard]] SolveReport settle_near(const Newton& anchor, const State& at, State& state, const Loading& loading,
                                        const NewtonOptions& options = {});

  /// What would change its status at the state that settle_near has just found.
  [[nodiscard]] StatusChanges status_changes(const Newton& anchor, const State& at, const State& state,
                                             const Loading& loading, const NewtonOptions& options = {}) const;

  /// Gradient dPi/dq at the last converged state: reactions of bounded and held unknowns.
  [[nodiscard]] const Eigen::VectorXd& reactions() const { return assembly_.gradient; }
  [[nodiscard]] const System& system() const { return system_; }

 private:
  struct Held {
    std::vector<char> is;  ///< 1: prescribed
    Eigen::VectorXd move;  ///< its increment
  };
  [[nodiscard]] Held held_unknowns(const State& state, const Loading& loading) const;
  [[nodiscard]] double bound(const State& state, std::size_t contact, double ramp) const;
  [[nodiscard]] bool update_friction(State& state, double scale, double part) const;
  [[nodiscard]] bool mobilise_ground(State& state, const Loading& loading, double scale, double part_left);
  /// Tractions and spring bounds that this system's pressures differ by from the anchor's; the largest change of one [N].
  double follow_pressures(const Newton& anchor, const State& at, State& state, const Loading& loading) const;
  /// Slip tractions that the present pressures ask for, contact by contact; 0 where nothing slides.
  [[nodiscard]] std::vector<double> asked_tractions(const State& state, const Loading& loading) const;
  /// A step that is cut short does not reach all the bounds that it closed: those are open still.
  void release_unreached(const std::vector<ContactStatus>& before, State& state, double ramp) const;
  /// Work of the slip tractions of `contact` from q = 0 to q.
  [[nodiscard]] double friction_work(const std::vector<ContactStatus>& contact, const Eigen::VectorXd& q) const;
  /// Whether every open contact keeps its bound and every closed one is at it; whether what is held is in its place.
  [[nodiscard]] bool feasible(const State& state, double ramp) const;
  [[nodiscard]] bool in_place(const State& state, const Loading& loading) const;
  /// Whether a contact is a column of the bed; its energy, its force -A p on the gap and its stiffness A p' while it is closed.
  [[nodiscard]] bool on_bed(std::size_t contact) const;
  [[nodiscard]] LawValue column(const State& state, std::size_t contact) const;
  [[nodiscard]] double bed_energy(const State& state) const;
  void add_bed_forces(const State& state, Eigen::VectorXd& gradient) const;
  /// What presses on a contact [N]: the bound's reaction, or the column's force.
  [[nodiscard]] double pressing(const State& state, std::size_t contact) const;
  [[nodiscard]] std::size_t first_ground() const { return static_cast<std::size_t>(system_.first_ground_contact()); }
  void add_friction(const State& state);
  /// The Hessian with the bed's columns, held unknowns taken out and the diagonal raised by the shift. False if not positive.
  [[nodiscard]] bool factorise(const State& state, const Held& held);
  [[nodiscard]] bool solve_reduced(const State& state, const Held& held, Eigen::VectorXd& dq, SolveReport& report);
  [[nodiscard]] bool quadratic_step(State& state, const Loading& loading, const NewtonOptions& options, double tiny,
                                    Eigen::VectorXd& dq, bool keeps_bounds, bool& found_set, SolveReport& report);
  [[nodiscard]] double force_scale(const Loading& loading) const;
  [[nodiscard]] double residual(const State& state, const Loading& loading, const NewtonOptions& options) const;

  const System& system_;
  Factor factor_;
  Assembly assembly_;
  std::vector<MixedRecovery> recovery_, last_recovery_;
  Eigen::VectorXd diagonal_;  ///< of the matrix that is factored: with columns of the bed and a shift
  double largest_force_ = 1;
  double shift_ = 0;
  bool cut_short_ = false;       ///< the last step was not taken whole
  double relaxation_ = 1;        ///< of the mobilised tractions
  Eigen::VectorXd last_excess_;  ///< what they were off by in the last round
  Loading anchored_;             ///< loading of the anchor
};

}  // namespace hoofload::solver
