// Two axes with ticks and names, for every figure that shows one number against another.
#pragma once

#include <optional>
#include <string>

#include "viz/frame.hpp"
#include "viz/text.hpp"

namespace hoofload::viz {

enum class Growing { rightwards, leftwards };

/// `label` carries the unit: "pressure on the sole, kPa". Without a range the axis takes round ends around the data.
struct Axis {
  std::string label;
  std::optional<Range> range = std::nullopt;
};

/// Where the axes lie on the page and what they span.
struct Axes {
  Range x, y;
  Growing growing = Growing::rightwards;
  Vec2 corner{0, 0}, size{0, 0};
  [[nodiscard]] double floor() const { return corner.y() + size.y(); }
};

/// The usual place on the page.
[[nodiscard]] Axes axes_spanning(const Range& x, const Range& y, Growing growing = Growing::rightwards);

[[nodiscard]] Vec2 on_page(const Axes& axes, double x, double y);

/// Lines, ticks, numbers and names.
[[nodiscard]] std::string axes_drawn(const Axes& axes, const std::string& x_label, const std::string& y_label);

/// Room [px] below the floor for numbers and name.
inline constexpr double axis_bottom = 52;

}  // namespace hoofload::viz
