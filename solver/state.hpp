// Where a model is: unknowns, element internals, contact status and friction history. A value; copying it is the exact
// restore that the load path relies on.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "solver/model.hpp"

namespace hoofload::solver {

enum class Tangential { free, stick, slip };

/// One point that may touch: its normal and tangential unknowns and what they are doing.
struct ContactPoint {
  int normal, tangent;               ///< unknowns
  double gap = 0, interference = 0;  ///< bound of the normal unknown is -(gap - ramp interference)
  double friction = 0;
  bool tied = false;
  double area = 0;  ///< of its column where the ground is a bed [mm^2]
};

struct ContactStatus {
  bool closed = false;
  Tangential tangential = Tangential::free;
  double reference = 0;                          ///< tangential unknown where it sticks
  double traction = 0;                           ///< force while slipping [N]
  int toggles = 0;                               ///< stick-slip changes in the current solve
  bool dormant = false;                          ///< not there yet: may neither close nor tie
  double offset_normal = 0, offset_tangent = 0;  ///< where it was when it woke: its bound and tie start from there
};

/// What a solve is asked to hold or to balance.
struct Loading {
  double normal_force = 0;      ///< F_n on the body, along the ground normal [N]
  double tangential_force = 0;  ///< F_t on the body, along the ground, forward positive [N]
  double ramp = 1;              ///< fit-up: interference and fastener preload, 0 to 1
  std::optional<double> hold_distance, hold_offset, hold_pitch;  ///< prescribed d, s, theta
  std::optional<Cable> cable;                                    ///< acting cable, none: slack
};

struct State {
  Eigen::VectorXd q;
  std::vector<MixedState> mixed;
  std::vector<ContactStatus> contact;
  std::vector<std::vector<double>> spring_bounds;  ///< StickSlip bounds, per group and spring [N]
};

enum class Outcome { converged, inverted, not_positive, too_many_iterations, unstable, line_search_failed };

struct SolveReport {
  Outcome outcome = Outcome::converged;
  int iterations = 0, factorisations = 0, shifts = 0;
  double residual = 0;  ///< largest unbalanced force over the force scale
  double energy = 0;
};

[[nodiscard]] inline const char* describe(Outcome outcome) {
  switch (outcome) {
    case Outcome::converged:
      return "converged";
    case Outcome::inverted:
      return "an element turned inside out";
    case Outcome::not_positive:
      return "the stiffness stayed indefinite (unstable or not held)";
    case Outcome::too_many_iterations:
      return "no equilibrium within the iteration limit";
    case Outcome::unstable:
      return "no stable equilibrium within the iteration limit: the shape gives way";
    case Outcome::line_search_failed:
      return "the energy could not be lowered along the step";
  }
  return "unknown";
}

}  // namespace hoofload::solver
