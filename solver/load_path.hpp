// From one equilibrium to another: steps with cut-back and exact restore (theory.md, Newton), touch-down on the ground
// plane, and the lift-off event under prescribed pitch.
#pragma once

#include <functional>
#include <vector>

#include "solver/newton.hpp"

namespace hoofload::solver {

struct PathOptions {
  double first_step = 1.0;        ///< of the way from one loading to the other
  int most_cuts = 6;              ///< halvings of one step before giving up
  double least_step = 1.0 / 200;  ///< a path that creeps in smaller steps is given up too
  NewtonOptions newton;
};

struct PathReport {
  Outcome outcome = Outcome::converged;
  double reached = 1;  ///< fraction of the way at the last good state
  int steps = 0, iterations = 0, factorisations = 0, shifts = 0;
  double residual = 0, energy = 0;
};

/// Effort and outcome of a further leg of the way.
void append(PathReport& path, const PathReport& more);

/// `a` at t = 0 and `b` at t = 1; a hold that only one of the two has is taken from that one at once.
[[nodiscard]] Loading between(const Loading& a, const Loading& b, double t);

/// Follows the loading from `from` (where `state` is) to `to`. On failure the last good state is kept in `state`.
[[nodiscard]] PathReport follow(Newton& newton, State& state, const Loading& from, const Loading& to,
                                const PathOptions& options = {});

/// Puts the ground at pitch `theta` against the body and presses it `depth` in, pitch and offset held.
/// `loading` supplies the ramp; returns the loading that holds the state reached.
struct TouchDown {
  PathReport path;
  Loading held;
  double touching = 0;  ///< distance d at first touch
};
[[nodiscard]] TouchDown touch_down(Newton& newton, State& state, const Loading& loading, double theta, double depth,
                                   const PathOptions& options = {});

/// Part (0 to 1) of a contact point that counts: one whose length lies half in a zone counts half.
struct ContactPart {
  int contact;  ///< index into System::contact_points
  double part = 1;
};

/// Share of the ground's normal force that the given parts of contact points carry.
[[nodiscard]] double contact_share(const Newton& newton, const std::vector<ContactPart>& contacts, double normal_force);

/// How far below the bed's level the resultant of its columns acts: their mean depth by force; 0 on rigid ground [mm].
[[nodiscard]] double mean_depth(const System& system, const State& state, const Eigen::VectorXd& reactions);

struct LiftOff {
  PathReport path;
  bool found = false;
  double pitch = 0;   ///< theta at the event [rad]
  double moment = 0;  ///< moment about the joint that holds it [N mm]
  double share = 0;   ///< of the rear contacts at the event
  int evaluations = 0;
};

/// Raises the pitch from the present one until the rear contacts carry `share` of F_n: marched, bracketed, polished.
/// `loading` must not have a cable: the moment is the reaction of the held pitch.
[[nodiscard]] LiftOff find_lift_off(Newton& newton, State& state, Loading loading, const std::vector<ContactPart>& rear,
                                    double share, double pitch_step, double most_pitch,
                                    const PathOptions& options = {});

}  // namespace hoofload::solver
