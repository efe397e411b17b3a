// The 3D reference foot as an input deck for CalculiX, and what to read from its answer.
//
// Half foot, linear. The bone is rigid: three solutions in which it moves by 1 mm forward, 1 mm up and 1 rad about the coffin
// joint on a fixed ground; every load follows by superposition, with the 3 x 3 stiffness of the bone (whose symmetry is
// a check). Everything read is a weighted sum of nodal displacements, of nodal reactions, or of elements' mean stress.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "scenarios/case_materials.hpp"
#include "tests/reference/foot3d_core.hpp"
#include "tests/reference/foot3d_wall.hpp"

namespace hoofload::tests {

struct Level {
  std::string name;
  WallDivisions wall;
  CoreDivisions core;
};

[[nodiscard]] const std::vector<Level>& levels();  ///< coarse, medium, fine

struct Term {
  int id;  ///< node or element, from 1
  int component;
  double weight;
};

struct Reading {
  std::string of;  ///< "U", "RF" or "S" (vertical normal stress of an element)
  std::vector<Term> terms;
};

struct Deck {
  std::string text;                         ///< the .inp
  std::map<std::string, Reading> readings;  ///< by name; half foot
  std::map<std::string, double> facts;      ///< areas [mm^2], sizes, joint
};

[[nodiscard]] Deck foot_deck(const scenarios::Case& run, const scenarios::CaseMaterials& materials, const Level& level);

}  // namespace hoofload::tests
