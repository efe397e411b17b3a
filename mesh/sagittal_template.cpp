#include "mesh/sagittal_template.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/breadths.hpp"
#include "mesh/layered_grid.hpp"
#include "mesh/section_facts.hpp"

namespace hoofload::mesh {
namespace {

constexpr double apart = 3;  ///< least distance of stations
constexpr double apart_at_tip = 1.5;
constexpr double long_interval = 6;

/// The packing's limit that is not an end of the sole: x as asked for, before stations are kept apart.
double limit_wanted(const SideView& f, const Shoeing& s) {
  const double length = f.white_line - f.sole_end;
  if (s.shoe.type == ShoeType::heart_bar) return f.frog_apex - 15;  // front of its frog plate
  if (s.packing.region == PackingRegion::palmar_two_thirds) return f.white_line - length / 3;
  return f.white_line - length / 2;
}

void set_tip_and_inner_edge(SagittalTemplate& t, const SideView& f, const ShoeView& shoe, bool bare) {
  double inner = bare ? f.tip + 14 : shoe.inner_toe;
  if (bare) inner = std::min(inner, 0.5 * (f.tip + f.white_line));
  if (std::abs(inner - f.tip) < apart_at_tip) inner = f.tip + (inner >= f.tip ? apart_at_tip : -apart_at_tip);
  require(inner < t.x[9] - 2, measured("web", shoe.shoe.web) + " with " + measured("setback", shoe.shoe.setback) +
                                  " leaves the white line uncovered at the toe");
  t.tip = inner > f.tip ? 7 : 8;
  t.inner_toe = 15 - t.tip;
  t.x[static_cast<std::size_t>(t.tip)] = f.tip;
  t.x[static_cast<std::size_t>(t.inner_toe)] = inner;
}

void set_apex_and_limit(SagittalTemplate& t, const SideView& f, const Shoeing& s) {
  require(t.x[7] - t.x[4] > 3 * apart + 1, measured("web", s.shoe.web) + " with " +
                                               measured("setback", s.shoe.setback) +
                                               " reaches back to the middle of the sole");
  const bool front = s.packing.region == PackingRegion::palmar_two_thirds && s.shoe.type != ShoeType::heart_bar;
  t.apex = front ? 5 : 6, t.limit = front ? 6 : 5;
  const double low = t.x[4] + apart, high = t.x[7] - apart;
  const double apex = std::clamp(f.frog_apex, front ? low : low + apart, front ? high - apart : high);
  const double wanted = limit_wanted(f, s);
  t.x[static_cast<std::size_t>(t.apex)] = apex;
  t.x[static_cast<std::size_t>(t.limit)] =
      front ? std::clamp(wanted, apex + apart, high) : std::clamp(wanted, low, apex - apart);
}

void set_columns(SagittalTemplate& t, double density) {
  const bool front = t.apex == 5;
  // Divisions follow the kind of interval between tip and inner edge: long, or short in either order.
  const bool apart_long = t.tip == 7 && t.x[8] - t.x[7] > long_interval;
  for (const int n :
       {6, 5, 2, 13, front ? 12 : 5, front ? 3 : 9, front ? 7 : 10, apart_long ? 9 : 4, apart_long ? 8 : 12})
    t.columns.push_back({divided(n, density), 1});
  t.shoe_columns.assign(t.columns.begin(), t.columns.begin() + t.inner_toe);
  t.shoe_columns.push_back({divided(9, density), 1});
  t.shoe_columns.push_back({std::max(11, divided(12, density)), 1});  // eight edges or more over the last contact
}

double between(const double* x, int last, double s) {
  const int k = std::clamp(static_cast<int>(std::floor(s)), 0, last - 1);
  return x[k] + (s - k) * (x[k + 1] - x[k]);
}

}  // namespace

double SagittalTemplate::at(double s) const { return between(x.data(), 9, s); }

double SagittalTemplate::shoe_at(double s) const {
  if (s <= inner_toe) return at(s);
  const double own[3] = {x[static_cast<std::size_t>(inner_toe)], shoe_bend, shoe_front};
  return between(own, 2, s - inner_toe);
}

SagittalTemplate sagittal_template(const SideView& f, const ShoeView& shoe, const Shoeing& s, double density) {
  const bool bare = s.shoe.type == ShoeType::bare;
  SagittalTemplate t{};
  t.x[1] = f.sole_end;
  t.x[0] = bare ? f.sole_end - 5 : shoe.end;
  require(t.x[0] < t.x[1] - 1, measured("heel_extension", s.shoe.heel_extension) + " and " +
                                   measured("setback", s.shoe.setback) + " leave the shoe shorter than the sole");
  t.x[3] = f.process;
  t.x[2] = f.process + 0.3 * (f.sole_end - f.process);
  t.x[4] = f.tip + 0.59 * (f.process - f.tip);
  t.x[9] = f.white_line - 1;  // the breadth vanishes at the very end
  set_tip_and_inner_edge(t, f, shoe, bare);
  set_apex_and_limit(t, f, s);
  t.shoe_front = shoe.front;
  const double inner = t.x[static_cast<std::size_t>(t.inner_toe)];
  t.shoe_bend = std::max(shoe.front - 1.3 * (shoe.front - shoe.breakover), inner + 0.3 * (shoe.front - inner));
  t.shoe_bend = std::min(t.shoe_bend, shoe.front - 0.15 * (shoe.front - inner));
  set_columns(t, density);
  return t;
}

}  // namespace hoofload::mesh
