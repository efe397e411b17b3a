#include "tests/reference/foot3d_case.hpp"

#include <map>
#include <stdexcept>

#include "materials/catalogue.hpp"

namespace hoofload::tests {
namespace {

const std::map<std::string, std::string>& feet() {
  static const std::map<std::string, std::string> lines{
      {"reference", ""},
      {"long toe", "toe_angle = \"46 deg\"\ntoe_length = \"97 mm\"\n"},
      {"thin sole", "sole_depth_tip = \"9 mm\"\n"},
      {"wide flat", "bearing_width = \"142 mm\"\nsole_cup = \"5 mm\"\n"},
      {"upright narrow", "toe_angle = \"55 deg\"\nheel_angle = \"52 deg\"\nbearing_width = \"112 mm\"\n"}};
  return lines;
}

}  // namespace

const std::vector<std::string>& foot_names() {
  static const std::vector<std::string> names{"reference", "long toe", "thin sole", "wide flat", "upright narrow"};
  return names;
}

const std::vector<std::string>& shoeing_names() {
  static const std::vector<std::string> names{"open", "open packed", "plate packed"};
  return names;
}

scenarios::Case comparison_case(const std::string& foot, const std::string& shoeing) {
  const auto it = feet().find(foot);
  if (it == feet().end()) throw std::invalid_argument("no foot '" + foot + "'");
  const std::string text = "schema = 1\ntitle = \"against three dimensions\"\n[foot]\n" + it->second +
                           "[shoe]\ntype = \"open\"\nattachment = \"glued\"\n"
                           "[load]\nphases = [\"press\"]\nforce = \"10 N\"\n[study]\nbars = false\n";
  const auto reading = scenarios::read_case(text, foot, scenarios::material_words(materials::load_catalogue()));
  for (const auto& error : reading.errors) throw std::invalid_argument(scenarios::error_text(error));
  scenarios::Case c = reading.runs.front();
  c.name = foot + ", " + shoeing;
  if (shoeing != "open") {
    c.shoeing.packing.region = mesh::PackingRegion::full_sole;
    c.shoeing.packing.order = mesh::PackingOrder::after_nailing;
    c.material.packing = "silicone A30";
  }
  if (shoeing == "plate packed") c.shoeing.shoe.type = mesh::ShoeType::full_plate;
  if (shoeing != "open" && shoeing != "open packed" && shoeing != "plate packed")
    throw std::invalid_argument("no shoeing '" + shoeing + "'");
  c.overrides = {{"lamellae", "C10", 6 / (4 * (1 + 0.4)), "MPa"},
                 {"lamellae", "C20", 0, "MPa"},
                 {"lamellae", "kappa", 6 / (3 * (1 - 2 * 0.4)), "MPa"},
                 {"silicone A30", "kappa", 169, "MPa"}};
  return c;
}

}  // namespace hoofload::tests
