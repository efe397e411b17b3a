// A plane mesh as text, for programs that shall read their mesh as the others do instead of making it: counts and numbers,
// separated by white space; names have none. Numbers are written so that they read back bit for bit.
#pragma once

#include <algorithm>
#include <charconv>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>

#include "mesh/plane_mesh.hpp"

namespace hoofload::reference {

inline void write_mesh(const mesh::PlaneMesh& mesh, const std::string& file) {
  std::ofstream out(file);
  out.precision(17);
  out << mesh.X.size() << '\n';
  for (const auto& x : mesh.X) out << x.x() << ' ' << x.y() << '\n';
  out << mesh.blocks.size() << '\n';
  for (const auto& block : mesh.blocks) {
    out << block.region << ' ' << block.tri.size() << '\n';
    for (std::size_t e = 0; e < block.tri.size(); ++e) {
      for (int node : block.tri[e]) out << node << ' ';
      out << '\n';
    }
  }
  out << mesh.edges.size() << '\n';
  for (const auto& [name, set] : mesh.edges) {
    out << name << ' ' << set.edges.size() << '\n';
    for (const auto& e : set.edges) out << e.a << ' ' << e.b << ' ' << e.mid << '\n';
  }
  out << mesh.pairs.size() << '\n';
  for (const auto& [name, pairs] : mesh.pairs) {
    out << name << ' ' << pairs.size() << '\n';
    for (const auto& [slave, master] : pairs) out << slave << ' ' << master << '\n';
  }
  if (!out.flush()) throw std::runtime_error("cannot write '" + file + "'");
}

/// The words of a text in turn.
class Words {
 public:
  explicit Words(std::string_view text) : rest_(text) {}

  std::string_view word() {
    constexpr std::string_view white = " \n";
    rest_.remove_prefix(std::min(rest_.find_first_not_of(white), rest_.size()));
    const std::string_view found = rest_.substr(0, rest_.find_first_of(white));
    rest_.remove_prefix(found.size());
    return found;
  }
  template <class Number>
  Number number() {
    const std::string_view text = word();
    Number value{};
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size())
      throw std::runtime_error("mesh file: expected a number, not '" + std::string(text) + "'");
    return value;
  }

 private:
  std::string_view rest_;
};

/// An axisymmetric mesh: breadths are 1. Throws std::runtime_error if the file cannot be read.
[[nodiscard]] inline mesh::PlaneMesh read_mesh(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) throw std::runtime_error("cannot read '" + file + "'");
  std::stringstream all;
  all << in.rdbuf();
  const std::string text = all.str();
  Words w(text);
  const auto count = [&] { return w.number<std::size_t>(); };
  const auto id = [&] { return w.number<int>(); };
  mesh::PlaneMesh mesh;
  mesh.X.resize(count());
  for (auto& x : mesh.X) x.x() = w.number<double>(), x.y() = w.number<double>();
  mesh.blocks.resize(count());
  for (auto& block : mesh.blocks) {
    block.region = w.word();
    block.tri.resize(count());
    for (auto& tri : block.tri)
      for (int& node : tri) node = id();
    block.breadth.assign(block.tri.size(), {1, 1, 1, 1, 1, 1});
  }
  for (std::size_t k = count(); k > 0; --k) {
    auto& set = mesh.edges[std::string(w.word())];
    set.edges.resize(count());
    for (auto& e : set.edges) e.a = id(), e.b = id(), e.mid = id();
    set.breadth.assign(set.edges.size(), {1, 1, 1});
  }
  for (std::size_t k = count(); k > 0; --k) {
    auto& pairs = mesh.pairs[std::string(w.word())];
    pairs.resize(count());
    for (auto& p : pairs) p.slave = id(), p.master = id();
  }
  return mesh;
}

}  // namespace hoofload::reference
