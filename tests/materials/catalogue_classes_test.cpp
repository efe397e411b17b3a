// A slip of a unit (kPa for MPa, GPa for MPa) moves a modulus by a factor of a thousand, and the range that stands beside it
// in the same unit moves along. Classes of materials span less than that.
//
// Source of the classes' bounds: Ashby 2011 (Materials Selection in Mechanical Design, property charts: metals, elastomers,
// polymers, composites, wood, leather, foams, concrete), Currey 2002 (bone, tendon), Hinterhofer et al. 1998 (horn), handbooks
// of soil mechanics (sand, subgrades); all from memory, in round numbers, each wider than its source.
#include <gtest/gtest.h>

#include "materials/catalogue.hpp"

namespace hoofload::materials::test {
namespace {

/// Young's modulus, or that along and across the fibre [MPa]; entries whose id contains one of the words.
struct Class {
  std::vector<std::string_view> words;
  double low, high;
};

const std::vector<Class>& classes() {
  static const std::vector<Class> all{
      {{"steel", "aluminium", "titanium"}, 45000, 220000},
      {{"carbon fibre"}, 20000, 150000},
      {{"concrete", "asphalt", "nylon"}, 1000, 50000},
      {{"wood"}, 300, 20000},
      {{"phalanx", "bone"}, 1000, 25000},
      {{"tendon"}, 200, 2000},
      {{"wall", "sole horn", "white line"}, 50, 2000},
      {{"acrylic glue", "epoxy glue"}, 500, 5000},
      {{"polyurethane D", "polyurethane glue"}, 20, 2000},
      {{"compacted base", "sand"}, 5, 200},
      {{"ligament"}, 10, 500},
      {{"leather", "frog horn", "heel bulb", "cartilage"}, 1, 100},
      {{"silicone", "polyurethane A", "natural rubber", "rubber mat"}, 0.2, 100},
      {{"foam", "polystyrene board", "oakum"}, 0.2, 20},
      {{"track", "arena", "turf"}, 0.5, 50},
      {{"corium", "lamellae"}, 0.1, 20},
      {{"digital cushion"}, 0.01, 5},
  };
  return all;
}

const Class* class_of(const std::string& id) {
  for (const Class& c : classes())
    for (const std::string_view word : c.words)
      if (id.find(word) != std::string::npos) return &c;
  return nullptr;
}

/// Young's moduli of an entry [MPa]; a Yeoh law's is 6 C10, incompressible.
std::vector<double> moduli(const Entry& entry) {
  std::vector<double> found;
  for (const char* key : {"E", "E_L", "E_T"})
    if (const auto it = entry.parameters.find(key); it != entry.parameters.end()) found.push_back(it->second.value);
  if (const auto it = entry.parameters.find("C10"); it != entry.parameters.end()) found.push_back(6 * it->second.value);
  return found;
}

TEST(CatalogueClasses, span_less_than_a_slip_of_a_unit) {
  for (const Class& c : classes()) EXPECT_LT(c.high / c.low, 1000) << c.words.front();
}

TEST(CatalogueClasses, hold_every_modulus) {
  for (const Entry& entry : load_catalogue().entries) {
    if (!is_solid(entry)) continue;
    const Class* c = class_of(entry.id);
    ASSERT_NE(c, nullptr) << entry.id << " belongs to no class";
    const std::vector<double> values = moduli(entry);
    EXPECT_FALSE(values.empty()) << entry.id;
    for (const double E : values) {
      EXPECT_GE(E, c->low) << entry.id;
      EXPECT_LE(E, c->high) << entry.id;
    }
  }
}

// Elastomers and swollen rubbers: 1 to 3 GPa (Ashby 2011; Holownia 1974 measured 1 to 2.5 for filled rubber), from memory.
TEST(CatalogueClasses, bulk_moduli_of_elastomers_are_those_of_a_liquid) {
  for (const Entry& entry : load_catalogue().entries) {
    const auto kappa = entry.parameters.find("kappa");
    if (kappa == entry.parameters.end() || serves(entry, Kind::tissue)) continue;
    EXPECT_GE(kappa->second.value, 800) << entry.id;
    EXPECT_LE(kappa->second.value, 3000) << entry.id;
  }
}

}  // namespace
}  // namespace hoofload::materials::test
