// A case with some of its numbers moved by a little: what a derivative by a number of the case is taken along.
#pragma once

#include "scenarios/case_overlay.hpp"

#include <optional>
#include <string>
#include <vector>

namespace hoofload::scenarios {

/// An input and by how much it is moved, in the input's unit.
struct Shift {
  Input input;
  double by = 0;
};

struct ShiftedCase {
  Case run;
  std::string why;  ///< why there is none, "" if there is
};

/// The number that the case has there, in the input's unit, values of the catalogue that it replaces included. Precondition:
/// the input is a number.
[[nodiscard]] double number_of(const Input& input, const Case& c, const MaterialWords& words);

/// The case with the shifts made. Measurements that were left out follow as in a case that gives the moved ones
/// (foot_pose.hpp), but exactly, by the change of what they follow from: rounding, and keeping the reference's own value
/// where it is near, would hide a slope.
[[nodiscard]] ShiftedCase shifted_case(const Case& c, const std::vector<Shift>& shifts, const MaterialWords& words);

}  // namespace hoofload::scenarios
