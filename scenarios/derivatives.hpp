// How much each quantity of a solved run changes with each of its inputs, at this point: direct derivatives from the factors of
// the solved states, Eqs. (109) to (113). What is held on the way is said in docs/theory.md, section 22.
#pragma once

#include "scenarios/neighbour.hpp"
#include "scenarios/shifted_case.hpp"
#include "scenarios/uncertainty.hpp"

#include <functional>
#include <string>
#include <vector>

namespace hoofload::scenarios {

/// What a slope is taken by: an uncertainty of the case, or one of its numbers.
struct SlopeInput {
  std::string name;             ///< key, or the uncertainty's name
  std::string unit;             ///< of the slope's denominator; "" a plain number; a scale's is "1" (times the value)
  double now = 0;               ///< value in the case; 0 for an error that is added or multiplied
  double sd = 0;                ///< one standard deviation of it in `unit`; 0 if none is known
  double step = 0;              ///< half the distance of the two neighbours
  Effect effect = Effect::add;  ///< of the number that `unit` counts
  std::vector<Moved> moved;
};

/// All uncertainties of the case, or the named keys, where run `of` has them; std::invalid_argument for a name that is no
/// number of the case.
[[nodiscard]] std::vector<SlopeInput> slope_inputs(const std::vector<Case>& runs, const materials::Catalogue& catalogue,
                                                   const std::vector<std::string>& by, std::size_t of = 0);

/// Derivative of one quantity by one input.
struct Slope {
  std::size_t input = 0;
  double value = 0;    ///< in the quantity's unit over the input's
  double step = 0;     ///< that it was taken with
  std::string remark;  ///< one-sided, or across a change of contacts
  [[nodiscard]] double size(
      const std::vector<SlopeInput>& inputs) const;  ///< |change| for one sd; without, for 10 % or for 1
};

struct SlopeTable {
  Phase phase = Phase::swing;
  Quantities values;
  std::map<std::string, std::vector<Slope>, std::less<>> slopes;  ///< by quantity, in the order of the inputs
};

struct MissingSlope {
  std::size_t input = 0;
  std::string phase;  ///< "" all
  std::string why;
};

struct RunSlopes {
  std::string option;
  ModelKind model = ModelKind::axisymmetric;
  std::vector<SlopeTable> phases;
  std::vector<MissingSlope> missing;
  std::vector<std::string> unsolved;  ///< "breakover: why", phases without an anchor
  int factorisations = 0;             ///< of the anchors; the slopes need no more
};

/// Slopes of the chosen runs in every model of the case; a baseline that only sets the tendon is solved as well. `report` gets
/// what is done of how much.
[[nodiscard]] std::vector<RunSlopes> slopes_of(const std::vector<Case>& runs, const std::vector<std::string>& options,
                                               const std::vector<SlopeInput>& inputs,
                                               const materials::Catalogue& catalogue,
                                               const std::function<void(const RunProgress&)>& report = {});

/// The case with so much of the input's number put into it. What an option sets itself (`is_own`) it alone has.
[[nodiscard]] ShiftedCase moved_case(const Case& run, const SlopeInput& input, double by, const MaterialWords& words);
[[nodiscard]] bool is_own(const SlopeInput& input, const Case& option);

}  // namespace hoofload::scenarios
