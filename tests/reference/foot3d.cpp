// Writes the 3D reference foot for CalculiX, and the program's own answers to the same loads, as JSON.
//
//   reference_foot3d list                                     names of feet, shoeings and meshes
//   reference_foot3d deck FOOT SHOEING MESH STEM              STEM.inp and STEM.json (what to read)
//   reference_foot3d sagittal FOOT SHOEING AHEAD CB [DENSITY] one line of JSON
//   reference_foot3d axisymmetric FOOT SHOEING [DENSITY]      one line of JSON
//
// tests/reference/foot3d_study.py drives it.
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <fstream>
#include <iostream>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "materials/catalogue.hpp"
#include "scenarios/build_model.hpp"
#include "tests/reference/foot3d_case.hpp"
#include "tests/reference/foot3d_deck.hpp"
#include "tests/reference/foot3d_sagittal.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;
using nlohmann::json;

void write(const std::string& path, const std::string& text) {
  std::ofstream out(path);
  out << text;
  if (!out) throw std::runtime_error("could not write " + path);
}

const Level& level_named(const std::string& name) {
  for (const Level& level : levels())
    if (level.name == name) return level;
  throw std::invalid_argument("no mesh '" + name + "'");
}

void deck(const std::string& foot, const std::string& shoeing, const std::string& level, const std::string& stem) {
  const scenarios::Case run = comparison_case(foot, shoeing);
  const materials::Catalogue catalogue = materials::load_catalogue();
  const Deck d = foot_deck(run, scenarios::CaseMaterials(catalogue, run), level_named(level));
  write(stem + ".inp", d.text);
  json j{{"facts", d.facts}, {"force", kForce}, {"ahead", kForward}};
  for (const auto& [name, r] : d.readings) {
    json terms = json::array();
    for (const auto& t : r.terms) terms.push_back({t.id, t.component, t.weight});
    j["readings"][name] = {{"of", r.of}, {"terms", terms}};
  }
  write(stem + ".json", j.dump());
}

int run(const std::vector<std::string>& a) {
  const auto number = [&](std::size_t k, double otherwise) {
    return a.size() > k ? std::atof(a[k].c_str()) : otherwise;
  };
  if (a.size() == 1 && a[0] == "list") {
    json names{{"feet", foot_names()}, {"shoeings", shoeing_names()}, {"cb", scenarios::kWhiteLineConstant}};
    for (const Level& level : levels()) names["meshes"].push_back(level.name);
    std::cout << names.dump() << "\n";
  } else if (a.size() == 5 && a[0] == "deck") {
    deck(a[1], a[2], a[3], a[4]);
  } else if (a.size() >= 5 && a[0] == "sagittal") {
    std::cout << json(sagittal_at(comparison_case(a[1], a[2]), number(3, 0), number(5, 1), number(4, 0))).dump()
              << "\n";
  } else if (a.size() >= 3 && a[0] == "axisymmetric") {
    std::cout << json(axisymmetric_at(comparison_case(a[1], a[2]), number(3, 1))).dump() << "\n";
  } else {
    std::cerr << "usage: see the head of tests/reference/foot3d.cpp\n";
    return 2;
  }
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run({argv + 1, argv + argc});
  } catch (const std::exception& e) {
    std::cerr << "reference_foot3d: " << e.what() << "\n";
    return 1;
  }
}
