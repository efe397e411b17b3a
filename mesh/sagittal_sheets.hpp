// The sheets of the sagittal section: which region lies between which curves of the side view, and how broad it is.
#pragma once

#include "mesh/breadths.hpp"
#include "mesh/layered_grid.hpp"
#include "mesh/sagittal_template.hpp"

namespace hoofload::mesh {

struct ColumnRange {
  int from = 0, to = 0;  ///< column lines; empty when equal
  [[nodiscard]] bool empty() const { return from >= to; }
};

/// What every sheet is built from.
struct SagittalPlan {
  Foot foot;
  Shoeing shoeing;
  Breadths plan;
  SideView view;
  ShoeView shoe;  ///< bare: not used
  SagittalTemplate columns;
  double density;
  ColumnRange packing, packing_frog, plate;

  [[nodiscard]] bool shod() const { return shoeing.shoe.type != ShoeType::bare; }
  [[nodiscard]] bool full_pad() const { return shoeing.pad.type == PadType::full; }
  /// The packing's lower face is carried: by the pad, by a full plate; under the frog also by a frog plate.
  [[nodiscard]] bool backed() const { return full_pad() || shoeing.shoe.type == ShoeType::full_plate; }
  [[nodiscard]] bool frog_backed() const { return backed() || shoeing.shoe.type == ShoeType::heart_bar; }
};

[[nodiscard]] SagittalPlan sagittal_plan(const Foot& foot, const Shoeing& shoeing, double density);

/// Row lines of the core: 0 frog's ground face, 1 sole's ground face, 2 middle of the horn, 3 top of the horn, 4 bone.
[[nodiscard]] Sheet core_sheet(const SagittalPlan& p);
[[nodiscard]] Sheet cushion_sheet(const SagittalPlan& p);
/// Row lines of shoe and plate: 0 lower face, 1 middle (or top of the lower layer), 2 upper face.
[[nodiscard]] Sheet shoe_sheet(const SagittalPlan& p);
[[nodiscard]] Sheet plate_sheet(const SagittalPlan& p);
[[nodiscard]] Sheet pad_sheet(const SagittalPlan& p);
[[nodiscard]] Sheet packing_sheet(const SagittalPlan& p);
[[nodiscard]] Sheet packing_frog_sheet(const SagittalPlan& p);

/// Breadth of a region at x [mm], at least 1 mm where the region is meshed: no node may be without stiffness.
[[nodiscard]] double region_breadth(const SagittalPlan& p, const std::string& region, double x);

}  // namespace hoofload::mesh
