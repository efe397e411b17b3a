// Readings kept as text, variant by variant as they are solved: a study that was stopped goes on, and is judged as often as wanted.
#pragma once

#include <filesystem>
#include <fstream>
#include <iomanip>
#include <stdexcept>
#include <string>

#include "tests/support/bar_readings.hpp"

namespace hoofload::tests {

inline std::ostream& operator<<(std::ostream& out, const MeshReadings& m) {
  return out << m.twin << ' ' << m.milder << ' ' << m.value << ' ' << m.between << ' ' << m.finer << ' ' << m.size;
}
inline std::istream& operator>>(std::istream& in, MeshReadings& m) {
  return in >> m.twin >> m.milder >> m.value >> m.between >> m.finer >> m.size;
}

/// Adds what was solved at the end of the file: "variant SEED PHASES LOST", then its readings.
inline void keep_variant(const VariantReadings& variant, const std::string& path) {
  std::ofstream out(path, std::ios::app);
  out << std::setprecision(12) << "variant " << variant.last_seed << ' ' << variant.phases << ' ' << variant.phases_lost
      << ' ' << variant.all.size() << '\n';
  for (const VariantReading& r : variant.all)
    out << r.seed << ' ' << static_cast<int>(r.model) << ' ' << static_cast<int>(r.phase) << ' ' << r.key << ' '
        << r.drawn << ' ' << r.is_paired << ' ' << r.set_back << '\n';
  if (!out) throw std::runtime_error("cannot write " + path);
}

inline void add(const VariantReadings& variant, VariantReadings& readings) {
  readings.all.insert(readings.all.end(), variant.all.begin(), variant.all.end());
  readings.last_seed = variant.last_seed, readings.variants += variant.variants;
  readings.phases += variant.phases, readings.phases_lost += variant.phases_lost;
}

inline VariantReading read_line(std::istream& in, const std::string& path) {
  VariantReading r;
  int model = 0, phase = 0;
  if (!(in >> r.seed >> model >> phase >> r.key >> r.drawn >> r.is_paired >> r.set_back))
    throw std::runtime_error(path + " ends in the middle of a variant: remove its last \"variant\" and what follows");
  r.model = static_cast<ModelKind>(model), r.phase = static_cast<Phase>(phase);
  return r;
}

/// None if there is no such file. Throws std::runtime_error for a file that is not one of these.
inline VariantReadings kept_readings(const std::string& path) {
  std::ifstream in(path);
  VariantReadings readings;
  std::string word;
  while (in >> word) {
    VariantReadings one{{}, 0, 1, 0, 0};
    std::size_t lines = 0;
    if (word != "variant" || !(in >> one.last_seed >> one.phases >> one.phases_lost >> lines))
      throw std::runtime_error(path + " holds no readings");
    while (one.all.size() < lines) one.all.push_back(read_line(in, path));
    add(one, readings);
  }
  return readings;
}

}  // namespace hoofload::tests
