// Where a value lies along the rows of a figure that has one number a row.
#pragma once

#include "viz/text.hpp"

namespace hoofload::viz {

struct RowScale {
  Range range;
  double left, right, top;
  [[nodiscard]] double x(double value) const {
    return left + (value - range.low) / (range.high - range.low) * (right - left);
  }
};

}  // namespace hoofload::viz
