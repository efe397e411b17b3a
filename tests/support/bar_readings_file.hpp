// Readings kept as text, one line each: solved once, judged as often as wanted.
#pragma once

#include <filesystem>
#include <fstream>
#include <iomanip>
#include <set>
#include <stdexcept>
#include <string>

#include "tests/support/bar_readings.hpp"

namespace hoofload::tests {

inline std::ostream& operator<<(std::ostream& out, const MeshReadings& m) {
  return out << m.twin << ' ' << m.milder << ' ' << m.value << ' ' << m.finer << ' ' << m.size;
}
inline std::istream& operator>>(std::istream& in, MeshReadings& m) {
  return in >> m.twin >> m.milder >> m.value >> m.finer >> m.size;
}

inline void keep_readings(const VariantReadings& readings, const std::string& path) {
  std::ofstream out(path);
  out << std::setprecision(12) << readings.variants << ' ' << readings.phases << ' ' << readings.phases_lost << '\n';
  for (const VariantReading& r : readings.all)
    out << r.seed << ' ' << static_cast<int>(r.model) << ' ' << static_cast<int>(r.phase) << ' ' << r.key << ' '
        << r.drawn << ' ' << r.is_paired << ' ' << r.set_back << '\n';
  if (!out) throw std::runtime_error("cannot write " + path);
}

/// Throws std::runtime_error for a file that is not one of these.
inline VariantReadings kept_readings(const std::string& path) {
  std::ifstream in(path);
  VariantReadings readings;
  if (!(in >> readings.variants >> readings.phases >> readings.phases_lost))
    throw std::runtime_error("cannot read " + path);
  VariantReading r;
  int model = 0, phase = 0;
  while (in >> r.seed >> model >> phase >> r.key >> r.drawn >> r.is_paired >> r.set_back) {
    r.model = static_cast<ModelKind>(model), r.phase = static_cast<Phase>(phase);
    readings.all.push_back(r);
  }
  if (!in.eof() || readings.all.empty()) throw std::runtime_error(path + " holds no readings");
  return readings;
}

}  // namespace hoofload::tests
