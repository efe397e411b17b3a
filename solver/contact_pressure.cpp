#include "solver/contact_pressure.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/tri_shapes.hpp"

namespace hoofload::solver {

namespace {

const Vec2& place(const std::vector<Vec2>& X, int node) { return X[static_cast<std::size_t>(node)]; }

double edge_length(const std::vector<Vec2>& X, const mesh::Edge& edge) {
  double length = 0;
  for (const auto& q : mesh::line_rule<3>) {
    const auto dN = mesh::Line3::dN(q.s);
    length += q.weight * (dN[0] * place(X, edge.a) + dN[1] * place(X, edge.b) + dN[2] * place(X, edge.mid)).norm();
  }
  return length;
}

/// Pressure and measure at the fraction u in [0, 1] of an edge.
struct Local {
  double pressure, measure;
};
Local local(const PressureProfile& profile, std::size_t e, double u) {
  const auto c = static_cast<std::size_t>(profile.first[e]);
  const auto N = mesh::Line3::N(2 * u - 1);
  const auto& m = profile.measure[e];
  return {(1 - u) * profile.pressure[c] + u * profile.pressure[c + 1], N[0] * m[0] + N[1] * m[1] + N[2] * m[2]};
}

}  // namespace

std::array<double, 3> edge_weights(const std::vector<Vec2>& X, const mesh::Edge& edge,
                                   const std::array<double, 3>& breadth, Symmetry symmetry) {
  std::array<double, 3> w{0, 0, 0};
  const Vec2 &A = place(X, edge.a), &B = place(X, edge.b), &M = place(X, edge.mid);
  for (const auto& q : mesh::line_rule<3>) {
    const auto N = mesh::Line3::N(q.s);
    const auto dN = mesh::Line3::dN(q.s);
    const Vec2 at = N[0] * A + N[1] * B + N[2] * M;
    const double m = measure(symmetry, at, N[0] * breadth[0] + N[1] * breadth[1] + N[2] * breadth[2]);
    const double ds = q.weight * (dN[0] * A + dN[1] * B + dN[2] * M).norm();
    for (std::size_t i = 0; i < 3; ++i) w[i] += N[static_cast<Eigen::Index>(i)] * m * ds;
  }
  return w;
}

PressureProfile pressure_profile(const std::vector<Vec2>& X, const mesh::EdgeSet& chain, Symmetry symmetry,
                                 const std::vector<double>& force) {
  PressureProfile profile;
  std::vector<double> gathered;
  const auto add_corner = [&](int node, double s) {
    profile.node.push_back(node);
    profile.s.push_back(s);
    profile.weight.push_back(0);
    gathered.push_back(force[static_cast<std::size_t>(node)]);
  };
  double s = 0;
  for (std::size_t e = 0; e < chain.edges.size(); ++e) {
    const mesh::Edge& edge = chain.edges[e];
    const std::array<double, 3> breadth = chain.breadth.empty() ? std::array<double, 3>{1, 1, 1} : chain.breadth[e];
    if (profile.node.empty() || profile.node.back() != edge.a) add_corner(edge.a, s);
    const std::size_t a = profile.node.size() - 1;
    profile.first.push_back(static_cast<int>(a));
    profile.measure.push_back({measure(symmetry, place(X, edge.a), breadth[0]),
                               measure(symmetry, place(X, edge.b), breadth[1]),
                               measure(symmetry, place(X, edge.mid), breadth[2])});
    s += edge_length(X, edge);
    add_corner(edge.b, s);
    const auto w = edge_weights(X, edge, breadth, symmetry);
    const double half = 0.5 * force[static_cast<std::size_t>(edge.mid)];
    profile.weight[a] += w[0] + 0.5 * w[2];
    profile.weight[a + 1] += w[1] + 0.5 * w[2];
    gathered[a] += half;
    gathered[a + 1] += half;
  }
  for (std::size_t c = 0; c < gathered.size(); ++c)
    profile.pressure.push_back(profile.weight[c] > 0 ? gathered[c] / profile.weight[c] : 0.0);
  profile.starts_on_axis = symmetry == Symmetry::axisymmetric && !profile.node.empty() &&
                           std::abs(place(X, profile.node.front()).x()) < 1e-9;
  return profile;
}

double patch_mean(const PressureProfile& profile, double centre, double width) {
  double force = 0, area = 0;
  for (std::size_t e = 0; e < profile.first.size(); ++e) {
    const auto c = static_cast<std::size_t>(profile.first[e]);
    const double s0 = profile.s[c], length = profile.s[c + 1] - s0;
    const double from = std::max(s0, centre - width / 2), to = std::min(s0 + length, centre + width / 2);
    if (!(to > from)) continue;
    for (const auto& q : mesh::line_rule<3>) {  // linear x quadratic: exact
      const double at = 0.5 * (from + to) + 0.5 * (to - from) * q.s;
      const Local l = local(profile, e, (at - s0) / length);
      const double w = 0.5 * (to - from) * q.weight * l.measure;
      force += w * l.pressure;
      area += w;
    }
  }
  return area > 0 ? force / area : 0.0;
}

PatchPeak peak_patch_mean(const PressureProfile& profile, double width) {
  if (profile.s.empty()) return {};
  const double end = profile.s.back();
  const double low = profile.starts_on_axis ? 0.0 : width / 2, high = end - width / 2;
  if (!(high > low)) return {patch_mean(profile, end / 2, std::max(width, end)), end / 2};
  // The mean is smooth in the centre; steps of a sixteenth of the patch and of every corner find its peak to a fraction
  // of a percent, and a parabola through the three best points does the rest.
  const int n = std::max(32, static_cast<int>(std::ceil(16 * (high - low) / width)));
  const double step = (high - low) / n;
  PatchPeak best{patch_mean(profile, low, width), low};
  for (int i = 1; i <= n; ++i) {
    const double centre = low + i * step;
    const double mean = patch_mean(profile, centre, width);
    if (mean > best.mean) best = {mean, centre};
  }
  const double a = best.centre - step, b = best.centre + step;
  if (a < low || b > high) return best;
  const double left = patch_mean(profile, a, width), right = patch_mean(profile, b, width);
  const double curvature = left - 2 * best.mean + right;
  if (!(curvature < 0)) return best;
  const double centre = best.centre + 0.5 * step * (left - right) / curvature;
  const double mean = patch_mean(profile, centre, width);
  return mean > best.mean ? PatchPeak{mean, centre} : best;
}

double resultant(const PressureProfile& profile) {
  double sum = 0;
  for (std::size_t c = 0; c < profile.pressure.size(); ++c) sum += profile.pressure[c] * profile.weight[c];
  return sum;
}

double loaded_area(const PressureProfile& profile, double threshold) {
  double area = 0;
  for (std::size_t c = 0; c < profile.pressure.size(); ++c)
    if (profile.pressure[c] > threshold) area += profile.weight[c];
  return area;
}

}  // namespace hoofload::solver
