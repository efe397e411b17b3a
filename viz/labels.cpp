#include "viz/labels.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace hoofload::viz {
namespace {

double shared_area(const Box& a, const Box& b) {
  const Vec2 size = a.high.cwiseMin(b.high) - a.low.cwiseMax(b.low);
  return std::max(size.x(), 0.0) * std::max(size.y(), 0.0);
}

/// Box of a text whose nearest side lies at distance r from the anchor, in direction `angle`.
Box box_at(const Vec2& anchor, const Vec2& size, double r, double angle) {
  const Vec2 direction(std::cos(angle), std::sin(angle));
  const Vec2 centre = anchor + r * direction + Vec2(direction.x() * size.x(), direction.y() * size.y()) / 2;
  return {centre - size / 2, centre + size / 2};
}

bool inside(const Box& box, const Box& bounds) {
  return (box.low - bounds.low).minCoeff() >= 0 && (bounds.high - box.high).minCoeff() >= 0;
}

struct Candidate {
  Box box;
  double cost;
};

Candidate best_place(const Label& label, const Vec2& size, const std::vector<Box>& taken, const Box& bounds) {
  const double wish = std::atan2(label.towards.y(), label.towards.x());
  const bool on_anchor = label.towards.norm() == 0;
  Candidate best{box_at(label.anchor, size, 8, wish), 1e300};
  for (const double r : {0.0, 8.0, 20.0, 36.0, 56.0, 80.0, 110.0, 150.0})
    for (int k = 0; k < 16; ++k) {
      const int turn = (k % 2 == 0 ? 1 : -1) * ((k + 1) / 2);
      if ((r == 0 && !on_anchor) || (label.leader_from == 0 && r < 20)) continue;
      const Box box = r == 0 ? Box{label.anchor - size / 2, label.anchor + size / 2}
                             : box_at(label.anchor, size, r, wish + turn * std::numbers::pi / 8);
      double clash = inside(box, bounds) ? 0 : 1e6;
      for (const Box& other : taken) clash += shared_area(box, other);
      const double cost = 1e3 * clash + r + 6 * std::abs(turn);
      if (cost < best.cost) best = {box, cost};
    }
  return best;
}

}  // namespace

bool overlap(const Box& a, const Box& b) { return shared_area(a, b) > 0; }

std::vector<PlacedLabel> place(const std::vector<Label>& labels, std::vector<Box> taken, const Box& bounds,
                               double size) {
  std::vector<PlacedLabel> placed;
  for (const Label& label : labels) {
    const Vec2 extent(svg::text_width(label.text, size) + 6, size * 1.35);
    const Candidate c = best_place(label, extent, taken, bounds);
    const Vec2 nearest = label.anchor.cwiseMax(c.box.low).cwiseMin(c.box.high);
    taken.push_back(c.box);
    placed.push_back({label, c.box, (nearest - label.anchor).norm() > label.leader_from});
  }
  return placed;
}

std::string drawn(const std::vector<PlacedLabel>& labels, double size) {
  std::string out;
  for (const auto& [label, box, leader] : labels) {
    if (leader) {
      const Vec2 nearest = label.anchor.cwiseMax(box.low).cwiseMin(box.high);
      out += svg::line(label.anchor, nearest, {.stroke = "#ffffff", .width = 2.4});
      out += svg::line(label.anchor, nearest, {.stroke = label.colour, .width = 0.8});
      out += svg::circle(label.anchor, 2, {.stroke = "#ffffff", .width = 0.6, .fill = label.colour});
    }
    out += svg::text({(box.low.x() + box.high.x()) / 2, box.high.y() - 0.36 * size}, label.text,
                     {.size = size, .colour = label.colour, .anchor = svg::Anchor::middle, .halo = 2});
  }
  return out;
}

}  // namespace hoofload::viz
