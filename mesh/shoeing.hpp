// What is put on the foot: shoe, pad, packing, nails. Lengths in mm, angles in rad, forces in N.
#pragma once

#include "mesh/foot.hpp"

namespace hoofload::mesh {

enum class ShoeType { bare, open, straight_bar, egg_bar, heart_bar, full_plate };
enum class ToeShape { flat, rolled, rocker, square };
enum class Attachment { nailed, glued, taped };

struct Shoe {
  ShoeType type = ShoeType::open;
  ToeShape toe = ToeShape::flat;
  Attachment attachment = Attachment::nailed;
  double web = 22;           ///< width of the branch
  double thickness = 10;     ///< at the toe; the ground face is flat
  double setback = 0;        ///< toe of the shoe behind the toe of the hoof
  double breakover = 6;      ///< foremost ground contact behind the shoe's front edge (worn flat shoe: 6)
  double roll_radius = 30;   ///< of a rolled toe
  double rocker_start = 30;  ///< of a rocker, behind the shoe's front edge
  double rocker_angle = 12 * degree;
  double elevation = 0;        ///< heel elevation as a wedge in the shoe, about the shoe's front edge
  double heel_extension = 8;   ///< branch beyond the heel buttress
  double plate_thickness = 6;  ///< full plate, frog plate or bar; its lower face is flush with the ground face
  double plate_recess = 0;     ///< lifts that plate off the ground face
  double bar_width = 20;       ///< of a straight or egg bar
  double layer_thickness = 0;  ///< lower layer of another material (0: none)
};

enum class PadType { none, full, rim };

struct Pad {
  PadType type = PadType::none;
  double thickness = 3;
};

enum class PackingRegion { none, full_sole, dorsal_half, palmar_two_thirds, frog_rear };
enum class PackingOrder { before_nailing, after_nailing };
enum class PackingBond { bonded, frictional, free };

struct Packing {
  PackingRegion region = PackingRegion::none;
  PackingOrder order = PackingOrder::after_nailing;
  PackingBond bond = PackingBond::bonded;
  double proud = 0;      ///< beyond the void (backing) or beyond the shoe's ground face (no backing)
  double thickness = 0;  ///< filled depth above the backing or ground face; 0: fills the void to the sole
};

struct Nails {
  int count = 6;        ///< both branches together
  double first = 35;    ///< first nail behind the toe of the shoe, along x
  double last = 75;     ///< last nail behind the toe of the shoe, along x
  double preload = 80;  ///< clinch, each nail, N
  double patch = 4;     ///< width of the patch that a nail bears on
};

struct Shoeing {
  Shoe shoe;
  Pad pad;
  Packing packing;
  Nails nails;
};

}  // namespace hoofload::mesh
