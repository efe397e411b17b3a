// Slender and thick bodies bent to large rotations: the elastica (Bisshopp & Drucker 1945), the beam rolled by an end moment,
// and a rubber block bent to a circular arc (Rivlin 1949).
#include "tests/support/edge_loads.hpp"
#include "tests/support/equilibrium.hpp"
#include "tests/support/record.hpp"
#include "tests/support/single_block.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

constexpr double pi = std::numbers::pi;

/// Springs that keep the nodes of an end on a plane of normal n through their mean place, or through the origin, stiff in
/// effect: the measure n . x is linear once n is given. Their forces make up the end's moment.
SpringGroup end_plane(const Model& model, const std::vector<int>& nodes, const Vec2& n, double k, bool through_origin) {
  SpringGroup group{"end", {}};
  const double share = 1.0 / static_cast<double>(nodes.size());
  Vec2 centre = Vec2::Zero();
  for (int node : nodes) centre += share * model.X[static_cast<std::size_t>(node)];
  if (through_origin) centre.setZero();
  for (int node : nodes) {
    Spring spring;
    spring.offset = n.dot(model.X[static_cast<std::size_t>(node)] - centre);
    for (int c = 0; c < 2; ++c) spring.measure.push_back({plane_dof(node, c), n[c]});
    if (!through_origin)
      for (int other : nodes)
        for (int c = 0; c < 2; ++c) spring.measure.push_back({plane_dof(other, c), -share * n[c]});
    spring.law = TwoSided{k, 0};
    group.springs.push_back(spring);
  }
  return group;
}

/// Moment of the springs' forces about their mean place, or about the origin.
double end_moment(const Solved& s, const std::vector<int>& nodes, const Vec2& n, bool about_origin) {
  const Model& model = s.system->model();
  Vec2 centre = Vec2::Zero();
  const auto place = [&](int node) { return Vec2(model.X[static_cast<std::size_t>(node)] + s.u(node)); };
  if (!about_origin)
    for (int node : nodes) centre += place(node) / static_cast<double>(nodes.size());
  double M = 0;
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    const Spring& spring = model.springs[0].springs[i];
    const double f = evaluate(spring, elongation(spring, s.x), 1).force;
    const Vec2 arm = place(nodes[i]) - centre;
    M += f * (arm.x() * n.y() - arm.y() * n.x());
  }
  return M;
}

struct Cantilever {
  BlockModel block;
  double L = 100, h = 1, E = 1.2e5, EI = 1e4;  // nu = 0: no plane-strain ambiguity
};
Cantilever cantilever() {
  Cantilever c;
  c.block = one_block({60, 1, rectangle(0, c.L, -c.h / 2, c.h / 2), 1}, Symmetry::plane_strain,
                      materials::SaintVenantKirchhoff{c.E, 0}, Formulation::displacement);
  fix(c.block.model, c.block.left(), 0);
  fix(c.block.model, c.block.left(), 1);
  return c;
}

// Tip deflection v and approach u over L under a dead end load P L^2 / EI = 1, 2, 5, 10 (elliptic integrals; Mattiasson 1981 the same to
// print). 0.3 % on 60 x 1 cells, L / h = 100: shear and stretch add (h/L)^2.
TEST(Elastica, a_cantilever_under_a_dead_end_load_follows_the_elliptic_integrals) {
  for (const auto& [load, v, u] :
       {std::tuple{1.0, 0.3017207738, 0.05643323628}, std::tuple{2.0, 0.4934574804, 0.1606417208},
        std::tuple{5.0, 0.7137915236, 0.3876283607}, std::tuple{10.0, 0.8106090249, 0.5549955978}}) {
    Cantilever c = cantilever();
    const double P = load * c.EI / (c.L * c.L);
    add_traction(c.block.model, chain(c.block.right()), [&](const Vec2&, const Vec2&) { return Vec2(0, P / c.h); });
    const Solved s = equilibrium(c.block.model, no_ground(), static_cast<int>(4 * load) + 4);
    ASSERT_TRUE(s.converged()) << load << ": " << describe(s.report.outcome);
    const Vec2 tip = s.u(c.block.right()[1]) / c.L;
    std::printf("Elastica %.0f: v/L %.6f (%+.3f %%), u/L %.6f (%+.3f %%), %d iterations\n", load, tip.y(),
                100 * (tip.y() / v - 1), -tip.x(), 100 * (-tip.x() / u - 1), s.iterations);
    record({"elastica, tip deflection over length, L/h 100", "Bisshopp & Drucker 1945; Mattiasson 1981", "60 x 1"},
           text("P L2/EI %g", load), v, tip.y());
    EXPECT_NEAR(tip.y(), v, 3e-3 * v);
    EXPECT_NEAR(-tip.x(), u, 3e-3 * u);
  }
}

// An end turned by a quarter turn, free to move otherwise: a circular arc, tip at (2/pi, 2/pi) L, moment (pi/2) EI / L. 0.3 %.
TEST(Elastica, an_end_turned_by_ninety_degrees_rolls_the_beam_to_a_quarter_circle) {
  Cantilever c = cantilever();
  Solved s;
  const int steps = 24;
  Vec2 n;
  for (int k = 1; k <= steps; ++k) {
    const double angle = pi / 2 * k / steps;
    n = {std::cos(angle), std::sin(angle)};
    Model model = c.block.model;
    model.springs = {end_plane(model, c.block.right(), n, 1e7, false)};
    const State before = s.state;
    s.system = std::make_shared<System>(model);
    s.state = k == 1 ? s.system->rest_state(0, 0) : before;
    Newton newton(*s.system);
    s.report = newton.solve(s.state, no_ground());
    ASSERT_TRUE(s.converged()) << k << ": " << describe(s.report.outcome);
  }
  s.x = s.system->displacements(s.state);
  const int tip = c.block.right()[1];
  const Vec2 place = (c.block.model.X[static_cast<std::size_t>(tip)] + s.u(tip)) / c.L;
  const double M = end_moment(s, c.block.right(), n, false);
  std::printf("Quarter circle: tip (%.6f, %.6f) of 0.636620, M L / EI %.6f of %.6f\n", place.x(), place.y(),
              std::abs(M) * c.L / c.EI, pi / 2);
  const Claim claim{"an end turned by 90 degrees rolls the beam to a quarter circle", "geometry", "60 x 1"};
  record(claim, "tip x", 2 / pi, place.x());
  record(claim, "y", 2 / pi, place.y());
  record(claim, "M L/EI", pi / 2, std::abs(M) * c.L / c.EI);
  EXPECT_NEAR(place.x(), 2 / pi, 3e-3 * 2 / pi);
  EXPECT_NEAR(place.y(), 2 / pi, 3e-3 * 2 / pi);
  EXPECT_NEAR(std::abs(M) * c.L / c.EI, pi / 2, 3e-3 * pi / 2);
}

// A block 1 thick of incompressible neo-Hookean rubber bent so that planes stay planes: r = sqrt(2 X / al + be), theta = al Y, both
// curved faces free: r_i r_o = 1 / al^2. Run at nu = 0.4999 with ends that slide on their turned planes. 0.5 %.
// be = (r_i^2 + r_o^2) / 2 with X from -1/2 to 1/2, since r_o^2 - r_i^2 = 2 / al.
TEST(RivlinFlexure, a_rubber_block_bends_to_an_arc_with_free_faces) {
  for (const auto& [al, r_i, r_o, M] :
       {std::tuple{0.1, 9.51308342, 10.5118389, 0.0332338656}, std::tuple{0.5, 1.57230276, 2.5440393, 0.155610339},
        std::tuple{1.0, 0.643594253, 1.55377397, 0.266419988}}) {
    const double Y = 0.8;  // height: half of it above the middle plane theta = 0, where u_y = 0
    auto b = one_block({6, 5, rectangle(-0.5, 0.5, 0, Y), 1}, Symmetry::plane_strain,
                       materials::NeoHooke{1, 2 * 0.4999 / (1 - 2 * 0.4999) + 2.0 / 3}, Formulation::mixed);
    // The centre of bending is the origin: X is moved there by the middle radius, about 1 / al.
    for (auto& X : b.mesh.X) X.x() += 1 / al;
    b.model.X = b.mesh.X;
    b.model.solids[0] = make_solid_block(b.mesh, b.mesh.blocks[0], Symmetry::plane_strain, b.model.solids[0].material,
                                         Formulation::mixed);
    fix(b.model, b.bottom(), 1);
    Solved s;
    Vec2 n;
    const int steps = 10;
    for (int k = 1; k <= steps; ++k) {
      // The plane turns about the centre that the final arc has; on the way its place is that of a smaller curvature.
      const double now = al * k / steps, angle = now * Y;
      n = {-std::sin(angle), std::cos(angle)};
      Model model = b.model;
      model.springs = {end_plane(model, b.top(), n, 1e5, true)};
      const Vec2 centre(1 / al - 1 / now, 0);
      for (auto& spring : model.springs[0].springs) spring.offset -= n.dot(centre);
      const State before = s.state;
      s.system = std::make_shared<System>(model);
      s.state = k == 1 ? s.system->rest_state(0, 0) : before;
      Newton newton(*s.system);
      s.report = newton.solve(s.state, no_ground());
      ASSERT_TRUE(s.converged()) << "alpha " << al << ", step " << k << ": " << describe(s.report.outcome);
    }
    s.x = s.system->displacements(s.state);
    const auto radius = [&](const std::vector<int>& nodes) {
      double r = 0;
      for (int node : nodes)
        r += (b.model.X[static_cast<std::size_t>(node)] + s.u(node)).norm() / static_cast<double>(nodes.size());
      return r;
    };
    double force = 0;
    for (const auto& spring : s.system->model().springs[0].springs)
      force += evaluate(spring, elongation(spring, s.x), 1).force;
    const double m = std::abs(end_moment(s, b.top(), n, true)), inner = radius(b.left()), outer = radius(b.right());
    std::printf("Rivlin alpha %.1f: thickness %.6f of %.6f, r_i %.6f of %.6f, M %.7f (%+.3f %%), end force %.1e\n", al,
                outer - inner, r_o - r_i, inner, r_i, m, 100 * (m / M - 1), force);
    EXPECT_NEAR(outer - inner, r_o - r_i, 5e-3 * (r_o - r_i));
    record({"rubber block bent to an arc, moment", "Rivlin 1949", "6 x 5"}, text("alpha %g", al), M, m);
    EXPECT_NEAR(m, M, 5e-3 * M);
    EXPECT_LT(std::abs(force), 5e-3 * M);  // faces free: a couple and no force
  }
}

}  // namespace
