// Beams and plates on a bed of springs (Winkler 1867; Hetenyi 1946), bonded and tensionless (Weitsman 1970, from memory). Beams are
// solid strips with nu = 0, h = 1, E = 3000: EI = 250; where Euler's beam is meant the bed is so soft that shear adds 0.1 %.
#include "solver/contact_pressure.hpp"
#include "tests/support/edge_loads.hpp"
#include "tests/support/equilibrium.hpp"
#include "tests/support/record.hpp"
#include "tests/support/single_block.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

constexpr double pi = std::numbers::pi, E = 3000, h = 1, EI = 250;

/// Half a beam from x = 0 (symmetry) to `length`, each cell `cell` long.
BlockModel half_beam(double length, double cell) {
  auto b = one_block({static_cast<int>(std::lround(length / cell)), 2, rectangle(0, length, 0, h), 1},
                     Symmetry::plane_strain, materials::LinearIsotropic{E, 0}, Formulation::displacement);
  fix(b.model, b.left(), 0);
  return b;
}

/// A spring under every node of a line, k per area, by the line's own weights.
template <class Law>
void lay_on_bed(Model& model, const mesh::EdgeSet& line, double k) {
  std::vector<double> area(model.X.size(), 0.0);
  for (const auto& edge : line.edges) {
    const auto w = edge_weights(model.X, edge, {1, 1, 1}, model.symmetry);
    area[static_cast<std::size_t>(edge.a)] += w[0];
    area[static_cast<std::size_t>(edge.b)] += w[1];
    area[static_cast<std::size_t>(edge.mid)] += w[2];
  }
  SpringGroup bed{"bed", {}};
  for (std::size_t i = 0; i < area.size(); ++i)
    if (area[i] > 0) {
      Spring spring;
      spring.measure = {{plane_dof(static_cast<int>(i), 1), 1.0}};
      spring.law = Law{k * area[i]};
      bed.springs.push_back(spring);
    }
  model.springs.push_back(bed);
}

/// P spread over the width h about the middle (half of it here), on top.
void load_middle(BlockModel& b, double P) {
  std::vector<int> top;
  for (int node : b.top())
    if (b.model.X[static_cast<std::size_t>(node)].x() < 0.5 * h + 1e-9) top.push_back(node);
  add_pressure(b.model, chain(reversed(top)), P / h);
}

double sink(const BlockModel& b, const Solved& s) { return -s.u(b.left()[static_cast<std::size_t>(b.grid.ny)]).y(); }
/// Bending moment at x = 0 from the reactions of the held face (half of it is the other side's).
double middle_moment(const BlockModel& b, const Solved& s) {
  double M = 0;
  for (int node : b.left())
    M += s.reactions[plane_dof(node, 0)] * (b.model.X[static_cast<std::size_t>(node)].y() - h / 2);
  return std::abs(M);
}

// Timoshenko's beam on springs, q = sqrt(k/EI), p = k/2GA, GA = 5/6 G h: w0 = P / (2 EI sqrt(2 (q + p))) (1/q + EI/GA). 0.3 %; the load
// is spread over h, which the closed form is not: 0.5 % where 1/lambda is only 5 h.
TEST(Winkler, a_long_beam_sinks_under_a_point_load_as_timoshenko_s_beam) {
  for (double k : {1.0, 0.1, 0.01}) {
    const double lambda = std::pow(k / (4 * EI), 0.25), length = std::ceil(2.2 * pi / lambda), GA = 5.0 / 6 * E / 2 * h;
    auto b = half_beam(length, 0.5);
    lay_on_bed<TwoSided>(b.model, chain(b.bottom()), k);
    load_middle(b, 1);
    const Solved s = equilibrium(b.model, no_ground());
    ASSERT_TRUE(s.converged());
    const double q = std::sqrt(k / EI), p = k / (2 * GA);
    const double w0 = 1 / (2 * EI * std::sqrt(2 * (q + p))) * (1 / q + EI / GA);
    std::printf("Winkler beam k %.2f: w0 %.6f of %.6f (%+.3f %%)\n", k, sink(b, s), w0, 100 * (sink(b, s) / w0 - 1));
    record(
        {"beam on springs under a point load, w0", "Timoshenko's beam; Hetenyi 1946", "cells h/2; load spread over h"},
        text("k %g", k), w0, sink(b, s));
    EXPECT_NEAR(sink(b, s), w0, (k > 0.5 ? 5e-3 : 3e-3) * w0);
  }
}

// Finite free beams loaded in the middle, lambda l = 1.778, 3.557, 7.113 (Hetenyi 1946): w_c k / P lambda = 0.627711, 0.544335, 0.501576,
// w_end k / P lambda = 0.464976, -0.073331 (of the first two); and a half-infinite one loaded at its end: 2. Euler's, so k is soft.
TEST(Winkler, finite_beams_and_a_beam_s_end_sink_as_hetenyi_s) {
  const double k = 0.01, lambda = std::pow(k / (4 * EI), 0.25);
  for (const auto& [l, centre, end] :
       {std::tuple{1.77827941, 0.111624616, 0.0826855679}, std::tuple{3.55655882, 0.0967978384, -0.0130402841},
        std::tuple{7.11311764, 0.0891942634, 0.0}}) {
    const double unit =
        0.177827941;  // the tabulated beam has k = 1, EI = 250, P = 1: w lambda there over lambda / k here
    const int cells = static_cast<int>(std::lround(l / lambda));  // of about 0.5
    auto b = one_block({cells, 2, rectangle(0, 0.5 * l / lambda, 0, h), 1}, Symmetry::plane_strain,
                       materials::LinearIsotropic{E, 0}, Formulation::displacement);
    fix(b.model, b.left(), 0);
    lay_on_bed<TwoSided>(b.model, chain(b.bottom()), k);
    const auto top = b.top();
    const std::vector<int> first(top.begin(), top.begin() + 3);
    const double width = b.model.X[static_cast<std::size_t>(first.back())].x();
    add_pressure(b.model, chain(reversed(first)), 0.5 / width);
    const Solved s = equilibrium(b.model, no_ground());
    ASSERT_TRUE(s.converged());
    const double to_unit = k / lambda * unit, w = sink(b, s) * to_unit, tip = -s.u(b.right()[2]).y() * to_unit;
    std::printf("Finite beam lambda l %.3f: centre %.6f (%+.3f %%), end %.6f of %.6f\n", l, w, 100 * (w / centre - 1),
                tip, end);
    record({"finite beams on springs, centre", "Hetenyi 1946", "cells h/2"}, text("lambda l %.2f", l), centre, w);
    EXPECT_NEAR(w, centre, 3e-3 * centre);
    if (end != 0) {
      EXPECT_NEAR(tip, end, 3e-3 * centre);
    }
  }
  auto b = half_beam(std::ceil(2.2 * pi / lambda), 0.5);
  std::erase_if(b.model.supports, [](const Support&) { return true; });
  fix(b.model, {b.right()[2]}, 0);
  lay_on_bed<TwoSided>(b.model, chain(b.bottom()), k);
  const auto top = b.top();
  const std::vector<int> first(top.begin(), top.begin() + 3);
  add_pressure(b.model, chain(reversed(first)), 1 / 0.5);
  const Solved s = equilibrium(b.model, no_ground());
  ASSERT_TRUE(s.converged());
  const double w0 =
      2 * lambda / k * (1 - 0.25 * lambda);  // the load's middle lies 0.25 from the end: w falls with e^-x cos x there
  std::printf("Loaded end: w0 %.5f of %.5f (%+.3f %%)\n", sink(b, s), w0, 100 * (sink(b, s) / w0 - 1));
  record({"beam on springs loaded at its end, w0", "Hetenyi 1946", "cells h/2"}, "half-infinite", w0, sink(b, s));
  EXPECT_NEAR(sink(b, s), w0, 5e-3 * w0);
}

// Tensionless: the beam keeps contact over lambda c = pi / 2 on either side whatever the load; w0 = 0.5451657054 P lambda / k against
// 0.5 bonded, M0 = 0.2725828527 P / lambda against 0.25. By springs that cannot pull and by the solver's bed of columns.
TEST(Winkler, a_weightless_beam_that_may_lift_keeps_the_same_contact_under_any_load) {
  const double k = 0.01, lambda = std::pow(k / (4 * EI), 0.25), cell = 0.5, length = 80;
  const auto contact = [&](const BlockModel& b, const Solved& s) {
    double c = 0;
    for (int node : b.bottom())
      if (s.u(node).y() < 0) c = std::max(c, b.model.X[static_cast<std::size_t>(node)].x());
    return c;
  };
  std::array<double, 2> edge{}, sunk{};
  for (std::size_t i : {0U, 1U}) {
    const double P = i == 0 ? 1 : 3;
    auto b = half_beam(length, cell);
    lay_on_bed<OneSided>(b.model, chain(b.bottom()), k);
    load_middle(b, P);
    const Solved s = equilibrium(b.model, no_ground());
    ASSERT_TRUE(s.converged()) << describe(s.report.outcome);
    edge[i] = contact(b, s), sunk[i] = sink(b, s) / P;
    const double w0 = 0.5451657054 * lambda / k, M = middle_moment(b, s) / P;
    const double M0 = 0.2725828527 / lambda - h / 8;  // the load's own width takes P h / 8 off the moment
    std::printf("Tensionless springs P %.0f: w0 %+.3f %%, M0 %+.3f %%, lambda c %.4f of %.4f\n", P,
                100 * (sunk[i] / w0 - 1), 100 * (M / M0 - 1), lambda * edge[i], pi / 2);
    const Claim claim{"beam that may lift from its bed: w0, M0, contact length", "Weitsman 1970, from memory",
                      "cells h/2"};
    record(claim, text("P %g: w0", P), w0, sunk[i]);
    record(claim, "M0", M0, M);
    record(claim, "lambda c, to one edge", pi / 2, lambda * edge[i]);
    EXPECT_NEAR(sunk[i], w0, 3e-3 * w0);
    EXPECT_NEAR(M, M0, 3e-3 * M0);
    EXPECT_NEAR(edge[i], pi / 2 / lambda, cell);
  }
  EXPECT_EQ(edge[0], edge[1]);
  EXPECT_NEAR(sunk[0], sunk[1], 1e-7 * sunk[0]);

  auto b = half_beam(length, cell);
  Ground& ground = b.model.ground;
  ground.bed = ColumnBed{k};
  ground.nodes = b.bottom();
  ground.area.assign(ground.nodes.size(), 0.0);
  const auto line = chain(b.bottom());
  for (std::size_t e = 0; e < line.edges.size(); ++e) {
    const auto w = edge_weights(b.model.X, line.edges[e], {1, 1, 1}, Symmetry::plane_strain);
    ground.area[2 * e] += w[0], ground.area[2 * e + 1] += w[2], ground.area[2 * e + 2] += w[1];
  }
  std::erase_if(b.model.supports, [&](const Support& s) { return s.dof == plane_dof(b.bottom().front(), 0); });
  b.model.supports.push_back({plane_dof(b.bottom().front(), 1), 0});
  load_middle(b, 1);
  const Solved s = equilibrium(b.model, no_ground(), 1, {}, 0, Start::touching);
  ASSERT_TRUE(s.converged()) << describe(s.report.outcome);
  std::printf("Tensionless columns: w0 over that of the springs %.9f, edge %.3f and %.3f\n", sink(b, s) / sunk[0],
              contact(b, s), edge[0]);
  record_exact({"beam that may lift, on the solver's bed of columns", "the springs' result", "cells h/2"}, "w0",
               std::abs(sink(b, s) / sunk[0] - 1), 1e-6);
  EXPECT_NEAR(sink(b, s), sunk[0], 1e-6 * sunk[0]);
  EXPECT_EQ(contact(b, s), edge[0]);
}

// A circular plate R = 50, D = 18000, clamped, on springs k under q = 0.5: Kelvin functions (Timoshenko & Woinowsky-Krieger 1959).
// Clamped ends of a solid; h = 1: shear adds 0.2 % where bending rules. 0.5 %.
TEST(Winkler, a_clamped_circular_plate_sinks_into_its_bed_by_kelvin_s_functions) {
  const double R = 50, t = 1, nu = 0.3, Ep = 18000 * 12 * (1 - nu * nu) / (t * t * t);
  for (const auto& [k, w0] : {std::pair{0.001, 2.70330223}, std::pair{0.1, 2.00782726}, std::pair{1.0, 0.557265718},
                              std::pair{10.0, 0.0508370964}}) {
    auto b = one_block({60, 2, rectangle(0, R, 0, t), 1}, Symmetry::axisymmetric, materials::LinearIsotropic{Ep, nu},
                       Formulation::displacement);
    fix(b.model, b.left(), 0);
    fix(b.model, b.right(), 0);
    fix(b.model, b.right(), 1);
    lay_on_bed<TwoSided>(b.model, chain(b.bottom()), k);
    add_pressure(b.model, chain(reversed(b.top())), 0.5);
    const Solved s = equilibrium(b.model, no_ground());
    ASSERT_TRUE(s.converged());
    std::printf("Plate on springs k %.3f: w0 %.6f of %.6f (%+.3f %%)\n", k, sink(b, s), w0,
                100 * (sink(b, s) / w0 - 1));
    record({"clamped circular plate on springs, w0", "Kelvin functions; Timoshenko & Woinowsky-Krieger 1959", "60 x 2"},
           text("k %g", k), w0, sink(b, s));
    EXPECT_NEAR(sink(b, s), w0, 5e-3 * w0);
  }
}

// Springs in parallel, one of them beyond a gap: F = k1 d below the gap, k1 d + k2 (d - g) above; k1 = 1000, k2 = 400, g = 0.5.
TEST(SpringsInParallel, a_second_spring_beyond_a_gap_takes_its_share_once_the_gap_is_closed) {
  for (const auto& [F, d] : {std::pair{400.0, 0.4}, std::pair{500.0, 0.5}, std::pair{1200.0, 1.0}}) {
    auto b = one_block({1, 1, rectangle(0, 1, 0, 1), 1}, Symmetry::plane_strain, materials::LinearIsotropic{1e9, 0},
                       Formulation::displacement);
    fix(b.model, b.left(), 0);
    fix(b.model, b.right(), 0);
    SpringGroup group{"pair", {}};
    for (int node : b.bottom()) {
      Spring first, second;
      first.measure = second.measure = {{plane_dof(node, 1), 1.0}};
      const double share = node == b.bottom()[1] ? 2.0 / 3 : 1.0 / 6;
      first.law = TwoSided{1000 * share};
      second.law = OneSided{400 * share};
      second.offset = 0.5;
      group.springs.push_back(first);
      group.springs.push_back(second);
    }
    b.model.springs = {group};
    add_pressure(b.model, chain(reversed(b.top())), F);
    const Solved s = equilibrium(b.model, no_ground());
    ASSERT_TRUE(s.converged()) << describe(s.report.outcome);
    record_exact({"a second spring beyond a gap takes its share", "statics", "1 x 1"}, text("F %g", F),
                 std::abs(-s.u(b.bottom()[1]).y() / d - 1), 1e-6);
    EXPECT_NEAR(-s.u(b.bottom()[1]).y(), d, 1e-6 * d) << F;  // the block's own squeeze: F / E
  }
}

}  // namespace
