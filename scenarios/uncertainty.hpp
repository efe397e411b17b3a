// What of a case is not known exactly: for every such thing a distribution with its source and grade, and the inputs
// that it moves. Grades as in docs/reference-foot.md; the whole list is printed in docs/uncertainty.md.
#pragma once

#include "materials/catalogue.hpp"
#include "scenarios/case_overlay.hpp"
#include "scenarios/distribution.hpp"

#include <string>
#include <vector>

namespace hoofload::scenarios {

/// How a drawn number acts on its inputs: takes their place, multiplies them by 1 + it, or is added to them.
enum class Effect { replace, scale, add };

/// An input and how much of the drawn number it gets.
struct Moved {
  std::string input;
  double weight = 1;
};

struct Uncertainty {
  std::string name;
  UncertainGroup group = UncertainGroup::measurements;
  Distribution distribution;  ///< in `unit`
  std::string unit;
  Effect effect = Effect::replace;
  std::vector<Moved> moved;
  std::string source;
  char grade = 'D';
};

using Uncertainties = std::vector<Uncertainty>;

/// Everything that the case's baseline leaves uncertain, of the groups in study.vary; options share it. A measurement
/// that the case gives has the error of measuring, one that it leaves out the spread of feet; a catalogue value has
/// its range, unless the case sets it.
[[nodiscard]] Uncertainties uncertainties(const std::vector<Case>& runs, const materials::Catalogue& catalogue);

/// Distribution of a catalogue value: grade A and B a normal one, its range taken as two standard deviations to each
/// side and as its ends; C and D only the ends are known: uniform (JCGM 101:2008, 6.4.2). Ends more than threefold
/// apart: of the logarithm. All but the uniform one is our choice.
[[nodiscard]] Distribution distribution_of(const materials::Graded& value);

/// The values that one draw gives its inputs; `shares` has one number between 0 and 1 for each uncertainty.
[[nodiscard]] std::vector<InputValue> drawn_inputs(const Uncertainties& list, const Case& baseline,
                                                   const MaterialWords& words, const std::vector<double>& shares);

/// The number that a case has there, in the input's unit. Precondition: the input is a number.
[[nodiscard]] double value_in_case(const std::string& input, const Case& c, const MaterialWords& words);

/// docs/uncertainty.md: the list for a case that gives nothing and for one that gives every measurement.
[[nodiscard]] std::string uncertainty_markdown(const materials::Catalogue& catalogue);

[[nodiscard]] std::string_view name_of(UncertainGroup group);

}  // namespace hoofload::scenarios
