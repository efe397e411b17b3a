// Column template of the sagittal section: which stations along x every sheet shares, and how finely they are divided.
//
// Column lines from the heel forward (x rising):
//   0 shoe end   1 sole's rear end   2 rear end of frog and packing   3 palmar process   4 cushion's front end
//   5, 6 the frog's apex and the packing's (or frog plate's) limit   7, 8 the bone's tip and the inner edge of the shoe's toe
//   9 sole's front end (white line); the shoe goes on from its inner toe edge over two columns of its own to its front.
// 5/6: the limit lies in front of the apex for a packing of the palmar two thirds, behind it otherwise (with a heart bar it is
// the front of the frog plate, and a packing of the palmar two thirds ends at the apex). 7/8: in whichever order they
// come. So counts and connectivity depend on kinds, on that one order and on whether tip and inner edge are more than 6 mm
// apart; lengths only move nodes. Stations that would nearly coincide are kept apart (1.5 to 3 mm) by moving packing limit,
// apex or inner edge.
#pragma once

#include <array>
#include <vector>

#include "mesh/patch_grid.hpp"
#include "mesh/shoe_view.hpp"

namespace hoofload::mesh {

struct SagittalTemplate {
  static constexpr int sole_rear = 1, frog_rear = 2, process = 3, cushion = 4, sole_front = 9;
  std::array<double, 10> x;            ///< stations of the column lines
  int apex, limit;                     ///< column lines (5 or 6)
  int tip, inner_toe;                  ///< column lines (7 or 8)
  double shoe_front, shoe_bend;        ///< end and middle station of the shoe's own columns
  std::vector<Interval> columns;       ///< of the foot and of everything inside the shoe: 9 intervals
  std::vector<Interval> shoe_columns;  ///< of shoe and pad: the first `inner_toe` of them, then two

  [[nodiscard]] double at(double s) const;       ///< station at logical abscissa s of `columns`
  [[nodiscard]] double shoe_at(double s) const;  ///< the same of `shoe_columns`
};

/// Throws std::invalid_argument naming the measurements when the stations cannot be ordered.
[[nodiscard]] SagittalTemplate sagittal_template(const SideView& foot, const ShoeView& shoe, const Shoeing& shoeing,
                                                 double density);

}  // namespace hoofload::mesh
