// Labels that keep out of each other's way: each tries places around its anchor and takes the first free one.
#pragma once

#include <string>
#include <vector>

#include "viz/svg.hpp"

namespace hoofload::viz {

using svg::Vec2;

/// Axis-parallel box on the page [px].
struct Box {
  Vec2 low, high;
};

[[nodiscard]] bool overlap(const Box& a, const Box& b);

/// `towards`: where the label would like to lie, seen from its anchor (page directions, need not be unit); zero: on it.
struct Label {
  Vec2 anchor;
  std::string text;
  Vec2 towards = {1, -1};
  std::string colour = "#222222";
  double leader_from = 14;  ///< distance [px] from the anchor beyond which a line leads to it; 0: always
};

struct PlacedLabel {
  Label label;
  Box box;
  bool leader;  ///< far enough from its anchor to need a line
};

/// Labels in their order of importance. If no place is free inside `bounds`, the one with least overlap is taken.
[[nodiscard]] std::vector<PlacedLabel> place(const std::vector<Label>& labels, std::vector<Box> taken,
                                             const Box& bounds, double size);

[[nodiscard]] std::string drawn(const std::vector<PlacedLabel>& labels, double size);

}  // namespace hoofload::viz
