#include "mesh/patch_grid.hpp"

#include <cmath>
#include <cstddef>

namespace hoofload::mesh {
namespace {

/// One logical axis: where each interval starts among the half steps (corners even, mid-sides odd), and their places.
struct Axis {
  std::vector<int> first{0};
  std::vector<double> at{0};
};

/// Steps of an interval grow by a constant factor; a mid-side lies half-way between its corners.
void append(Axis& axis, const Interval& part) {
  const int n = part.divisions;
  const double whole = static_cast<double>(axis.first.size()) - 1;
  const double growth = n > 1 ? std::pow(part.ratio, 1.0 / (n - 1)) : 1.0;
  std::vector<double> corner{0};
  double step = 1;
  for (int k = 0; k < n; ++k, step *= growth) corner.push_back(corner.back() + step);
  for (std::size_t k = 0; k + 1 < corner.size(); ++k) {
    if (k > 0) axis.at.push_back(whole + corner[k] / corner.back());
    axis.at.push_back(whole + 0.5 * (corner[k] + corner[k + 1]) / corner.back());
  }
  axis.at.push_back(whole + 1);
  axis.first.push_back(axis.first.back() + 2 * n);
}

Axis axis_of(const std::vector<Interval>& parts) {
  Axis axis;
  for (const Interval& part : parts) append(axis, part);
  return axis;
}

/// Half steps (a, b) of a triangle's corners.
using Corner = std::array<int, 2>;

class Numbering {
 public:
  Numbering(const Axis& x, const Axis& y) : x_(x), y_(y), id_(x.at.size() * y.at.size(), -1) {}

  std::array<int, 6> triangle(const Corner& a, const Corner& b, const Corner& c) {
    const auto between = [](const Corner& f, const Corner& g) { return Corner{(f[0] + g[0]) / 2, (f[1] + g[1]) / 2}; };
    std::array<int, 6> tri{};
    std::size_t k = 0;
    for (const Corner& p : {a, b, c, between(a, b), between(b, c), between(c, a)}) tri[k++] = node(p);
    return tri;
  }

  std::vector<Vec2> q;

 private:
  int node(const Corner& p) {
    const auto i = static_cast<std::size_t>(p[0]), j = static_cast<std::size_t>(p[1]);
    int& id = id_[j * x_.at.size() + i];
    if (id < 0) {
      id = static_cast<int>(q.size());
      q.emplace_back(x_.at[i], y_.at[j]);
    }
    return id;
  }

  const Axis &x_, &y_;
  std::vector<int> id_;
};

}  // namespace

PatchMesh mesh_patches(const PatchGrid& grid) {
  const Axis x = axis_of(grid.columns), y = axis_of(grid.rows);
  Numbering number(x, y);
  PatchMesh out;
  for (const auto& [column, row] : grid.patches) {
    const auto i = static_cast<std::size_t>(column), j = static_cast<std::size_t>(row);
    const int across = grid.columns.at(i).divisions, up = grid.rows.at(j).divisions;
    auto& tri = out.tri.emplace_back();
    for (int a = 0; a < across; ++a)
      for (int b = 0; b < up; ++b) {
        const int l = x.first[i] + 2 * a, r = l + 2, d = y.first[j] + 2 * b, u = d + 2;
        if ((a + b) % 2 == 0) {
          tri.push_back(number.triangle({l, d}, {r, d}, {r, u}));
          tri.push_back(number.triangle({r, u}, {l, u}, {l, d}));
        } else {
          tri.push_back(number.triangle({l, d}, {r, d}, {l, u}));
          tri.push_back(number.triangle({l, u}, {r, d}, {r, u}));
        }
      }
  }
  out.q = std::move(number.q);
  return out;
}

}  // namespace hoofload::mesh
