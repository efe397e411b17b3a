// A random foot, shoe and packing as a case file, for studies over many feet.
//
// Common practice, no source. Ranges of the foot: docs/reference-foot.md; of the materials: the catalogue's own.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <ostream>
#include <random>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "tests/support/shod_foot.hpp"

namespace hoofload::tests {

class Draw {
 public:
  explicit Draw(std::uint64_t seed) : engine_(seed) {}
  /// Uniform in [low, high), the same on every platform.
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_() >> 11) * 0x1.0p-53;
  }
  const std::string& one_of(const std::vector<std::string>& words) {
    return words[std::min(words.size() - 1, static_cast<std::size_t>(between(0, static_cast<double>(words.size()))))];
  }
  bool chance(double p) { return between(0, 1) < p; }

 private:
  std::mt19937_64 engine_;
};

/// The catalogue's entries that serve as this, but nothing that only holds a shoe on.
inline std::vector<std::string> ids_of(materials::Kind kind) {
  std::vector<std::string> ids;
  for (const auto& entry : catalogue().entries) {
    const bool is_fastener = entry.id.ends_with("glue") || entry.id == "nail steel";
    if (!is_fastener && std::find(entry.kinds.begin(), entry.kinds.end(), kind) != entry.kinds.end())
      ids.push_back(entry.id);
  }
  return ids;
}

inline void add_foot(Draw& draw, std::ostream& out) {
  const double length = draw.between(110, 145);
  out << "[horse]\nmass = \"" << draw.between(400, 650) << " kg\"\n[foot]\n";
  out << "toe_angle = \"" << draw.between(46, 55) << " deg\"\npalmar_angle = \"" << draw.between(1, 8) << " deg\"\n";
  out << "sole_depth_tip = \"" << draw.between(8, 20) << " mm\"\nsole_cup = \"" << draw.between(5, 13) << " mm\"\n";
  out << "bearing_length = \"" << length << " mm\"\nbearing_width = \"" << length * draw.between(0.92, 1.02)
      << " mm\"\n";
  out << "hl_proximal = \"" << draw.between(14.5, 18) << " mm\"\nwall_thickness_toe = \"" << draw.between(8.5, 11)
      << " mm\"\n";
}

inline void add_shoeing(Draw& draw, std::ostream& out) {
  static const auto shoes = ids_of(materials::Kind::shoe), pads = ids_of(materials::Kind::pad),
                    fillings = ids_of(materials::Kind::packing);
  const std::string type = draw.one_of({"bare", "open", "straight bar", "egg bar", "heart bar", "full plate"});
  out << "[shoe]\ntype = \"" << type << "\"\n";
  if (type == "bare") return;
  const double thickness = draw.between(8, 12);
  out << "material = \"" << draw.one_of(shoes) << "\"\nweb = \"" << draw.between(18, 26) << " mm\"\nthickness = \""
      << thickness << " mm\"\n";
  if (draw.chance(0.5)) out << "setback = \"" << draw.between(0, 12) << " mm\"\n";
  if (draw.chance(0.5)) out << "toe = \"" << draw.one_of({"rolled", "rocker", "square"}) << "\"\n";
  if (draw.chance(0.4)) out << "elevation = \"" << draw.between(0, 6) << " deg\"\n";
  out << "attachment = \"" << draw.one_of({"nailed", "nailed", "glued", "taped"}) << "\"\n";
  if (type == "full plate") out << "plate_thickness = \"" << draw.between(3, thickness) << " mm\"\n";
  const bool has_pad = draw.chance(0.3);
  if (has_pad)
    out << "[pad]\ntype = \"" << draw.one_of({"full", "rim"}) << "\"\nmaterial = \"" << draw.one_of(pads)
        << "\"\nthickness = \"" << draw.between(2, 6) << " mm\"\n";
  if (!draw.chance(0.6)) return;
  const std::string order = draw.one_of({"before nailing", "after nailing"});
  out << "[packing]\nregion = \"" << draw.one_of({"full sole", "dorsal half", "palmar two thirds", "frog rear"})
      << "\"\nmaterial = \"" << draw.one_of(fillings) << "\"\norder = \"" << order << "\"\nbond = \""
      << draw.one_of({"bonded", "frictional", "free"}) << "\"\n";
  if (order == "before nailing") out << "proud = \"" << draw.between(0, 2) << " mm\"\n";
}

/// Moduli of the tissues, each log-uniform over its own range in the catalogue.
inline void add_materials(Draw& draw, std::ostream& out) {
  static const std::vector<std::pair<std::string, std::string>> varied{{"wall", "E"},
                                                                       {"sole horn", "E"},
                                                                       {"frog horn", "E"},
                                                                       {"sole corium", "E"},
                                                                       {"lamellae", "C10"},
                                                                       {"lamellae", "C20"},
                                                                       {"digital cushion palmar", "E"}};
  out << "[materials]\n";
  for (const auto& [id, key] : varied) {
    const auto& p = materials::find(catalogue(), id)->parameters.at(key);
    out << '"' << id << "\"." << key << " = \"" << p.low * std::pow(p.high / p.low, draw.between(0, 1)) << ' ' << p.unit
        << "\"\n";
  }
}

/// A case file's text: foot, shoeing and tissues drawn by the seed, phases swing to breakover, no bars. Same text on every
/// platform. The reader may refuse it (a filling without room, say): then it is no case.
inline std::string random_case(std::uint64_t seed, double density) {
  Draw draw(seed);
  std::ostringstream out;
  out << "schema = 1\ntitle = \"random foot\"\n";
  add_foot(draw, out);
  add_shoeing(draw, out);
  out << "[load]\ngait = \"" << draw.one_of({"walk", "trot"})
      << "\"\nphases = [\"swing\", \"standing\", \"midstance\", \"breakover\"]\n[study]\nbars = false\ndensity = "
      << density << "\n";
  add_materials(draw, out);
  return out.str();
}

}  // namespace hoofload::tests
