// Balances of one run's stance at any share of it: the regular steps in turn, then any share between them.
//
// A balance between regular steps is always solved from the regular step before it, so it does not depend on what else was
// asked for. On the baseline each gives the tendon's slack length; options take theirs from the baseline at the same share.
#pragma once

#include <map>

#include "scenarios/stance.hpp"

namespace hoofload::scenarios {

class StanceSolver {
 public:
  /// `frozen`: slack length by share; empty on the baseline, which finds its own.
  StanceSolver(std::shared_ptr<BuiltModel> built, Case run, PhaseSolution fit, SlackByShare frozen);

  /// Solves the next regular step; shares must rise. False, with why(), if there is no equilibrium.
  bool add_regular(double share);
  /// The balance at a share from the first regular step on; nothing if there is no equilibrium.
  [[nodiscard]] const StanceStep* at(double share);
  /// Slack length at a share; nothing before the first regular step or where there is no equilibrium.
  [[nodiscard]] std::optional<double> slack_at(double share);

  /// The last regular step's state. Precondition: there is one.
  [[nodiscard]] const PhaseSolution& last() const { return regular_.back().solution; }
  [[nodiscard]] const std::string& why() const { return why_; }
  /// Of the regular steps the one with the largest tendon force (axisymmetric: load); the fitted foot if there is none.
  [[nodiscard]] const PhaseSolution& largest() const;

 private:
  struct Balance {
    std::optional<StanceStep> step;
    std::optional<double> slack;
  };
  struct Regular {
    double share;
    PhaseSolution solution;
  };

  PhaseSolution solve(double share, const PhaseSolution* last, Balance& balance);
  const Balance& balance_at(double share);

  std::shared_ptr<BuiltModel> built_;
  Case run_;
  PhaseSolution fit_;
  SlackByShare frozen_;
  std::vector<Regular> regular_;
  std::map<double, Balance> balances_;
  std::string why_;
};

}  // namespace hoofload::scenarios
