// A shod foot ready to solve: the discrete system, and where on it the quantities are read.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "mesh/capsule_shell.hpp"
#include "mesh/plane_mesh.hpp"
#include "scenarios/case.hpp"
#include "solver/load_path.hpp"

namespace hoofload::scenarios {

/// Contacts of one part of the foot's underside with the ground.
struct GroundPart {
  std::string name;           ///< shoe, packing, wall, sole, frog
  std::vector<int> contacts;  ///< indices into System::contact_points
};

/// A contact or a spring that presses on the horn of sole or frog: the force goes to a node of that chain.
struct HornContact {
  int contact;  ///< index into System::contact_points
  int node;
};

struct HornSpring {
  std::size_t group, spring;
  int node;
};

/// A line on which pressures are read: its edges, and the contacts and springs that press on its nodes.
struct PressureLine {
  mesh::EdgeSet edges;  ///< with breadth
  std::vector<HornContact> contacts;
  std::vector<HornSpring> springs;
};

/// A part of the bone's surface through which load leaves it: the forces of `regions` on those nodes.
struct BoneFace {
  std::string share;  ///< lamellae, sole, frog
  std::vector<std::string> regions;
  mesh::EdgeSet edges;
};

/// Springs of one fastener, for its resultant.
struct Fastener {
  std::size_t group;
  std::vector<int> springs;  ///< axial, then shear
};

struct GroundZone {
  std::string name;  ///< toe, middle, heel
  std::vector<int> contacts;
  double area = 0;  ///< of the shoe's ground face in the zone [mm^2]
};

/// Sagittal model only: the capsule and where it is read.
struct CapsuleReadings {
  mesh::CapsuleShell shell;
  mesh::GaugePoint dorsal, quarter;
  double dorsal_height = 0, quarter_height = 0;
  int heel_node = -1;  ///< space node at the heel coronet, for the spread
};

struct BuiltModel {
  ModelKind kind = ModelKind::axisymmetric;
  mesh::PlaneMesh mesh;
  std::unique_ptr<solver::System> system;
  std::unique_ptr<solver::Newton> newton;
  std::optional<solver::Cable> tendon;
  double rest_pitch = 0;                  ///< theta of the level ground under the unloaded shoe (elevation)
  std::vector<std::size_t> filled_after;  ///< pairs of a packing that goes in after nailing
  std::vector<GroundPart> ground;
  std::vector<GroundZone> zones;
  std::vector<solver::ContactPart> rear_contacts;  ///< last 15 % of the bearing length
  PressureLine sole, frog;
  double tip_x = 0;  ///< under the bone's tip (sagittal), radius (axisymmetric)
  std::vector<solver::Vec2>
      ground_outline;  ///< right half of the shoe's ground outline in plan, (x, z >= 0), from the heel
  double front_x = 0;  ///< foremost ground contact possible, the shoe's breakover point
  std::vector<BoneFace> bone;
  std::vector<Fastener> nails;
  std::optional<CapsuleReadings> capsule;
  std::vector<std::string> notes;  ///< what of the case has no counterpart in this model
};

}  // namespace hoofload::scenarios
