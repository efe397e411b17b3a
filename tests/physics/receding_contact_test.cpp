// Receding contact: a layer that lies on its base without weight, pressed by a load over |x| < a0. It keeps contact over a
// half-width b that does not depend on the load (Keer, Dundurs & Tsai 1972). Reference values: the integral equation of that
// problem solved to eight digits by an independent program; thickness h = 1, line load Q, frictionless.
#include "tests/support/edge_loads.hpp"
#include "tests/support/equilibrium.hpp"
#include "tests/support/hats.hpp"
#include "tests/support/record.hpp"
#include "tests/support/single_block.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

constexpr double E = 1000, nu = 0.3, cell = 1.0 / 16, length = 6;
constexpr int fine = 40, coarse = 10, deep = 12;

/// Stations along the layer: cells of 1/16 up to 2.5, then growing to `length`; beyond (for the base) growing further.
double station(double k) {
  if (k <= fine) return k * cell;
  const double g = 1.2835;  // ten cells from 1/16 x g to reach 6
  return fine * cell + cell * g * (std::pow(g, k - fine) - 1) / (g - 1) * (length - fine * cell) /
                           (cell * g * (std::pow(g, coarse) - 1) / (g - 1));
}

void press_middle(Model& model, const std::vector<int>& top, double a0, double Q) {
  std::vector<int> loaded;
  for (int node : top)
    if (model.X[static_cast<std::size_t>(node)].x() < a0 + 1e-9) loaded.push_back(node);
  add_pressure(model, chain(reversed(loaded)), Q / (2 * a0));
}

struct Receding {
  double peak = 0, b = 0;
};
Receding read(const Solved& s, const std::vector<int>& line, double Q) {
  EXPECT_TRUE(s.converged()) << describe(s.report.outcome);
  const auto& X = s.system->model().X;
  const auto profile = pressure_profile(X, chain(line), Symmetry::plane_strain, contact_forces(s));
  Receding r;
  r.peak = profile.pressure[0] / Q;
  for (std::size_t c = 0; c < profile.pressure.size(); ++c)
    if (profile.pressure[c] > 1e-3 * Q) r.b = X[static_cast<std::size_t>(profile.node[c])].x();
  double force = 0;
  for (double f : contact_forces(s)) force += f;
  EXPECT_NEAR(force, Q / 2, 1e-8 * Q);
  return r;
}

Receding on_ground(double a0, double Q) {
  const auto place = [](double u, double v) { return Vec2{station(u * (fine + coarse)), v}; };
  auto b = one_block({fine + coarse, deep, place, 1}, Symmetry::plane_strain, materials::LinearIsotropic{E, nu},
                     Formulation::displacement);
  b.model.ground.nodes = b.bottom();
  auto axis = b.left();
  axis.erase(axis.begin());
  fix(b.model, axis, 0);
  b.model.supports.push_back({plane_dof(b.bottom().front(), 1), 0});
  press_middle(b.model, b.top(), a0, Q);
  return read(equilibrium(b.model, no_ground(), 1, {}, 0, Start::touching), b.bottom(), Q);
}

// p(0) h / Q 0.5 %; b to one edge, 1/16 h. Twice the load: the same b, and the same p / Q to the solver's tolerance.
TEST(RecedingContact, a_layer_on_the_rigid_ground_keeps_the_same_width_whatever_the_load) {
  for (const auto& [a0, b, p] : {std::tuple{0.25, 0.89538499, 0.91080138}, std::tuple{0.5, 1.00778240, 0.78958816},
                                 std::tuple{1.0, 1.40215901, 0.52338925}}) {
    const Receding one = on_ground(a0, 1), two = on_ground(a0, 2);
    std::printf("Receding layer on ground a0 %.2f: p(0) %.5f of %.5f (%+.3f %%), b %.4f of %.4f\n", a0, one.peak, p,
                100 * (one.peak / p - 1), one.b, b);
    const Claim claim{"receding layer on the ground, p(0) h/Q", "Keer, Dundurs & Tsai 1972; [N]", "1/16 h"};
    record(claim, text("a0/h %g", a0), p, one.peak);
    record({"receding layer on the ground, half-width of contact b/h, to one edge", claim.source, claim.mesh},
           text("a0/h %g", a0), b, one.b);
    EXPECT_NEAR(one.peak, p, 5e-3 * p);
    EXPECT_NEAR(one.b, b, cell);
    EXPECT_EQ(one.b, two.b);
    EXPECT_NEAR(one.peak, two.peak, 1e-6 * p);
  }
}

// The same layer on a half-plane of its own stiffness (a block 24 h wide and deep), across a duplicated line.
TEST(RecedingContact, a_layer_on_an_equal_half_plane_recedes_as_the_integral_equation_says) {
  const int outside = 8;
  const double wide = 24;
  const auto along = [=](double k) {
    if (k <= fine + coarse) return station(k);
    const double t = (k - fine - coarse) / outside;
    return length * std::pow(wide / length, t);
  };
  const auto below = [=](double v) { return -wide * (std::exp(5.5 * v) - 1) / (std::exp(5.5) - 1); };
  mesh::PlaneMesh mesh;
  const Grid base{fine + coarse + outside, 20,
                  [=](double u, double v) {
                    return Vec2{along(u * (fine + coarse + outside)), below(1 - v)};
                  },
                  1};
  const Grid layer{fine + coarse, deep, [=](double u, double v) { return Vec2{along(u * (fine + coarse)), v}; }, 1};
  const int first_base = add_grid(mesh, "base", base), first_layer = add_grid(mesh, "layer", layer);
  Model model;
  model.X = mesh.X;
  for (const auto& block : mesh.blocks)
    model.solids.push_back(make_solid_block(mesh, block, Symmetry::plane_strain, materials::LinearIsotropic{E, nu},
                                            Formulation::displacement));
  PairContact pair;
  pair.name = "line";
  pair.slave = row_nodes(layer, first_layer, false);
  pair.master = row_nodes(base, first_base, true);
  pair.master.resize(pair.slave.size());
  pair.normal.assign(pair.slave.size(), Vec2(0, 1));
  pair.gap.assign(pair.slave.size(), 0);
  pair.interference.assign(pair.slave.size(), 0);
  model.pairs.push_back(pair);
  fix(model, row_nodes(base, first_base, false), 0);
  fix(model, row_nodes(base, first_base, false), 1);
  fix(model, column_nodes(base, first_base, false), 0);
  auto axis = column_nodes(layer, first_layer, false);
  model.supports.push_back({plane_dof(axis.front(), 1), 0});
  axis.erase(axis.begin());
  fix(model, axis, 0);
  for (const auto& [a0, b, p] : {std::tuple{0.5, 1.43104929, 0.61828341}, std::tuple{1.0, 1.72475156, 0.45917458}}) {
    Model loaded = model;
    press_middle(loaded, row_nodes(layer, first_layer, true), a0, 1);
    const Receding r =
        read(equilibrium(loaded, no_ground(), 1, {}, 0, Start::touching), row_nodes(layer, first_layer, false), 1);
    std::printf("Receding layer on its like a0 %.2f: p(0) %.5f of %.5f (%+.3f %%), b %.4f of %.4f\n", a0, r.peak, p,
                100 * (r.peak / p - 1), r.b, b);
    record({"receding layer on its like, p(0) h/Q", "Keer, Dundurs & Tsai 1972; [N]", "1/16 h"}, text("a0/h %g", a0), p,
           r.peak);
    EXPECT_NEAR(r.peak, p, 5e-3 * p);
    EXPECT_NEAR(r.b, b, cell);
  }
}

}  // namespace
