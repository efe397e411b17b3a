// A fixed axisymmetric shod-hoof-like section that three other finite-element programs have solved (docs/validation.md):
// one conforming free mesh of six-node triangles. x = r, y = z; mm.
//
//   sole underside  z = 10 + 8 (1 - (r/53)^2),  horn 10 mm above it, corium 5 mm above that; wall leans in 18 mm over 80 mm;
//   lamella 3 mm; shoe ring r 41..63, z 0..10; packing fills r < 41 from z = 0 to the sole.
//
// Regions: wall lamella bone corium sole shoe packing. Edge sets: pb (packing underside), sb (shoe underside), itf
// (sole on packing), b_t (bone top), axis. Split: the nodes of itf are doubled, pairs "itf" (slave packing, master sole),
// edge set "itf" is then the packing's side and "itf_master" the sole's.
#pragma once

#include "mesh/plane_mesh.hpp"

namespace hoofload::mesh {

enum class PeerSize { k2, k5, k20, k80 };

[[nodiscard]] PlaneMesh peer_section(PeerSize size, bool split);

}  // namespace hoofload::mesh
