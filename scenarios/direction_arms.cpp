#include "scenarios/direction_arms.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "solver/ground.hpp"

namespace hoofload::scenarios {

namespace {

/// Furthest point of the ground outline from the joint's foot, along the ground, towards an angle [mm].
double reach(const BuiltModel& built, double angle) {
  const double joint = built.system->model().ground.joint.x();
  double most = -std::numeric_limits<double>::infinity();
  for (const auto& p : built.ground_outline)
    most = std::max(most, (p.x() - joint) * std::cos(angle) + p.y() * std::sin(angle));
  return most;
}

}  // namespace

double arm_towards(const BuiltModel& built, const PhaseSolution& breakover, double angle) {
  const double F_n = breakover.loading.normal_force, F_t = breakover.loading.tangential_force;
  const double drawn_in = reach(built, 0) - breakover.rolled_cop;
  // What F_t adds straight ahead falls off with its component in the direction of the roll.
  const double of_tangential = breakover.rolled_moment - F_n * breakover.rolled_cop;
  return (F_n * (reach(built, angle) - drawn_in) + of_tangential * std::cos(angle)) / std::hypot(F_n, F_t);
}

std::vector<DirectionArm> arms_by_direction(const BuiltModel& built, const PhaseSolution& breakover) {
  std::vector<DirectionArm> arms;
  if (breakover.rolled_moment == 0) return arms;
  for (int k = -90; k <= 90; k += 5)
    arms.push_back({k * mesh::degree, arm_towards(built, breakover, std::abs(k) * mesh::degree)});
  return arms;
}

}  // namespace hoofload::scenarios
