// Seeded random feet and shoeings for tests: every measurement varies about the reference foot by what healthy and long-toed feet
// show (reference foot's ranges; common practice for shoes, no source).
#pragma once

#include <cstdint>
#include <random>

#include "mesh/shoeing.hpp"

namespace hoofload::mesh::samples {

/// Portable uniform numbers: std distributions may differ between libraries, the engine's words do not.
struct Dice {
  std::mt19937_64 engine;
  double between(double low, double high) { return low + (high - low) * static_cast<double>(engine() >> 11) * 0x1p-53; }
  int pick(int n) { return static_cast<int>(engine() % static_cast<std::uint64_t>(n)); }
};

inline Foot random_foot(Dice& d) {
  Foot f;
  const double size = d.between(0.88, 1.12);
  f.toe_angle = d.between(45, 55) * degree;
  f.heel_angle = d.between(38, 52) * degree;
  f.toe_length = size * d.between(78, 95);
  f.heel_length = size * d.between(30, 45);
  f.bearing_length = size * d.between(124, 132);
  f.bearing_width = size * d.between(118, 132);
  f.wall_thickness_toe = d.between(8, 12), f.wall_thickness_quarter = d.between(6.5, 9.5),
  f.wall_thickness_heel = d.between(5, 7.5);
  f.sole_horn = d.between(6, 12);
  f.sole_depth_tip = f.sole_horn + d.between(2.5, 7);
  f.sole_cup = d.between(5, 12);
  f.palmar_angle = d.between(1, 8) * degree;
  f.sole_depth_wing = d.between(14, 22);
  f.palmar_length = size * d.between(71, 77);
  f.toe_to_tip = size * d.between(33, 39);
  f.toe_to_cor = f.toe_to_tip + size * 49;
  f.frog_width = size * d.between(42, 58);
  f.frog_length = size * d.between(70, 86);
  return f;
}

inline Shoeing random_shoeing(Dice& d) {
  Shoeing s;
  s.shoe.type = static_cast<ShoeType>(d.pick(6));
  if (s.shoe.type == ShoeType::bare) return s;
  s.shoe.toe = static_cast<ToeShape>(d.pick(4));
  s.shoe.web = d.between(20, 30);
  s.shoe.thickness = d.between(8, 14);
  s.shoe.setback = d.pick(2) == 0 ? 0 : d.between(0, 13);
  s.shoe.breakover = d.between(3, 12);
  s.shoe.rocker_angle = d.between(6, 12) * degree;
  s.shoe.elevation = d.pick(2) == 0 ? 0 : d.between(0, 6) * degree;
  s.shoe.heel_extension = d.between(2, 15);
  s.shoe.plate_thickness = d.between(3, 6);
  s.shoe.plate_recess = d.pick(2) == 0 ? 0 : d.between(0.5, 1.9);
  s.shoe.layer_thickness = d.pick(3) == 0 ? d.between(2, 4) : 0;
  s.pad.type = static_cast<PadType>(d.pick(3));
  s.pad.thickness = d.between(2, 5);
  s.packing.region = static_cast<PackingRegion>(d.pick(5));
  s.packing.proud = d.pick(2) == 0 ? 0 : d.between(0, 2);
  s.packing.thickness = d.pick(3) == 0 ? d.between(3, 8) : 0;
  return s;
}

}  // namespace hoofload::mesh::samples
