// A soft core in a stiff ring, and ring in ring: bonded, sliding and touching, against closed forms of Lame and Michell.
// The packed foot's analogue: what confines a nearly incompressible filling decides what it carries.
#include "tests/support/nested_rings.hpp"
#include "tests/support/record.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

Formulation suited(double nu) { return nu > 0.4 ? Formulation::mixed : Formulation::displacement; }

struct Filled {
  double core_E, core_nu, ring_E, ring_nu, b;
};

/// Radial stress s of core and ring of generalised plane strain, axial strain e, and what follows, solved from u = A r + B / r.
struct FilledExact {
  double s = 0, u = 0, core = 0, ring = 0, share = 0;
};
FilledExact lame(const Filled& c, double e) {
  const auto moduli = [](double E, double nu) { return std::pair{E * nu / (1 + nu) / (1 - 2 * nu), E / 2 / (1 + nu)}; };
  const auto [l1, m1] = moduli(c.core_E, c.core_nu);
  const auto [l2, m2] = moduli(c.ring_E, c.ring_nu);
  // Unknowns A1; A2, B2: A1 = A2 + B2; (2(l1+m1) A1 + l1 e) = 2(l2+m2) A2 - 2 m2 B2 + l2 e; free outer face.
  Eigen::Matrix3d M;
  M << 1, -1, -1, 2 * (l1 + m1), -2 * (l2 + m2), 2 * m2, 0, 2 * (l2 + m2), -2 * m2 / (c.b * c.b);
  const Eigen::Vector3d x = M.partialPivLu().solve(Eigen::Vector3d(0, (l2 - l1) * e, -l2 * e));
  FilledExact f;
  f.u = x[0];
  f.s = 2 * (l1 + m1) * x[0] + l1 * e;
  f.core = 2 * l1 * x[0] + (l1 + 2 * m1) * e;
  f.ring = 2 * l2 * x[1] + (l2 + 2 * m2) * e;
  f.share = f.core / (f.core + f.ring * (c.b * c.b - 1));
  return f;
}

/// Core and ring of height 0.5 squeezed by 1 % between rigid frictionless plates.
Fit squeezed(const Filled& c, Bond bond) {
  Fit f = rings({4, 2, rectangle(0, 1, 0, 0.5), 1}, {4, 2, rectangle(1, c.b, 0, 0.5), 1}, Symmetry::axisymmetric,
                {materials::LinearIsotropic{c.core_E, c.core_nu}, suited(c.core_nu)},
                {materials::LinearIsotropic{c.ring_E, c.ring_nu}, suited(c.ring_nu)}, 0);
  f.model.pairs[0].bond = bond;
  fix(f.model, column_nodes(f.inner, f.first_inner, false), 0);
  hold_line(f, false, 1);
  hold_line(f, true, 1, -0.005);
  return f;
}

// The table's four rows, bonded and in frictionless contact (the core bulges into the ring, so nothing parts): 0.2 %.
TEST(CoreAndRing, a_squeezed_core_is_confined_by_its_ring_as_lame_says) {
  const std::vector<std::pair<Filled, std::array<double, 3>>> rows{
      {{1, 0.49, 100, 0.3, 2}, {3.74133697e-3, -0.0388813097, 0.0159032276}},
      {{1, 0.4999, 100, 0.3, 2}, {4.96803646e-3, -0.103218695, 0.0370987061}},
      {{1, 0.49, 100, 0.3, 1.25}, {4.14662921e-3, -0.0252808989, 0.0597403851}},
      {{10, 0.45, 500, 0.3, 1.25}, {3.57726030e-3, -0.0636372207, 0.0536478280}}};
  for (const auto& [c, table] : rows) {
    const FilledExact exact = lame(c, -0.01);
    EXPECT_NEAR(exact.u, table[0], 1e-7 * table[0]);
    EXPECT_NEAR(exact.s, table[1], 1e-7 * std::abs(table[1]));
    EXPECT_NEAR(exact.share, table[2], 1e-7 * table[2]);
    for (Bond bond : {Bond::tied, Bond::contact}) {
      const Fit f = squeezed(c, bond);
      const Solved s =
          equilibrium(f.model, no_ground(), 1, {}, 0, bond == Bond::contact ? Start::touching : Start::open);
      ASSERT_TRUE(s.converged()) << describe(s.report.outcome);
      const double u = s.u(f.master()[2]).x();
      const Eigen::VectorXd inside = s.system->region_forces(s.state, "inner"),
                            all = s.system->internal_forces(s.state, s.loading);
      double core = 0, whole = 0;
      for (int node : row_nodes(f.inner, f.first_inner, true))
        core += inside[plane_dof(node, 1)], whole += all[plane_dof(node, 1)];
      for (int node : row_nodes(f.outer, f.first_outer, true)) whole += all[plane_dof(node, 1)];
      std::printf("Core nu %.4f in ring b %.2f, %s: u %+.4f %%, share %.6f (%+.4f %%)\n", c.core_nu, c.b,
                  bond == Bond::tied ? "bonded" : "touching", 100 * (u / exact.u - 1), core / whole,
                  100 * (core / whole / exact.share - 1));
      record({"core in a ring squeezed by 1 %: the core's share of the load", "Lame", "4 + 4 radial"},
             text("nu %g b %g %s", c.core_nu, c.b, bond == Bond::tied ? "bonded" : "touching"), exact.share,
             core / whole);
      EXPECT_NEAR(u, exact.u, 2e-3 * exact.u);
      EXPECT_NEAR(core / whole, exact.share, 2e-3 * exact.share);
      if (bond != Bond::contact) continue;
      for (double p : pressure_profile(f.model.X, chain(f.slave()), Symmetry::axisymmetric, contact_forces(s)).pressure)
        EXPECT_NEAR(p, -exact.s, 2e-3 * std::abs(exact.s));
    }
  }
}

// A tie along a cut changes nothing: the lines conform, so the tied ring is the whole ring but for the
// diagonals of its cells (common practice, no source).
TEST(NestedRings, a_ring_cut_and_tied_is_the_ring) {
  for (double nu : {0.3, 0.4999}) {
    const materials::LinearIsotropic hooke{1000, nu};
    Fit f = rings({3, 8, polar(1, 1.5), 1}, {3, 8, polar(1.5, 2), 1}, Symmetry::plane_strain, {hooke, suited(nu)},
                  {hooke, suited(nu)}, 0);
    f.model.pairs[0].bond = Bond::tied;
    hold_line(f, false, 1);
    hold_line(f, true, 0);
    add_pressure(f.model, chain(reversed(column_nodes(f.inner, f.first_inner, false))), 1);
    const Solved cut = equilibrium(f.model, no_ground());
    ASSERT_TRUE(cut.converged());
    mesh::PlaneMesh mesh;
    const Grid grid{6, 8, polar(1, 2), 1};
    add_grid(mesh, "ring", grid, true);
    snap_to_axes(mesh);
    Model whole;
    whole.X = mesh.X;
    whole.solids.push_back(make_solid_block(mesh, mesh.blocks[0], Symmetry::plane_strain, hooke, suited(nu)));
    fix(whole, row_nodes(grid, 0, false), 1);
    fix(whole, row_nodes(grid, 0, true), 0);
    add_pressure(whole, chain(reversed(column_nodes(grid, 0, false))), 1);
    const Solved one = equilibrium(whole, no_ground());
    ASSERT_TRUE(one.converged());
    // Diagonals alternate from the cut on, so meshes differ there: Lame's own error on both, 0.1 % of u(a).
    const double u_cut = cut.u(column_nodes(f.inner, f.first_inner, false).front()).x(), u = one.u(0).x();
    const double exact = (1 + nu) / 3000 * ((1 - 2 * nu) + 4);
    std::printf("Tied cut nu %.4f: u(a) %+.4f %% of the whole ring's, %+.4f %% of Lame's\n", nu, 100 * (u_cut / u - 1),
                100 * (u_cut / exact - 1));
    record({"a ring cut and tied is the ring, u(a)", "common practice, no source", "3 + 3 radial"}, text("nu %g", nu),
           u, u_cut);
    EXPECT_NEAR(u_cut, u, 1e-3 * u);
    EXPECT_NEAR(u_cut, exact, 1.5e-3 * exact);
  }
}

// Limits: a filling of no stiffness carries nothing and leaves the ring its uniaxial load; one of great stiffness carries all;
// between, its share lies above that of free sides (springs in parallel, E1 A1 : E2 A2) and below that of rigid confinement,
// and rises with its Poisson ratio. 1 % at ratios of 1e4.
TEST(CoreAndRing, the_filling_s_share_goes_from_nothing_to_all_between_its_bounds) {
  const auto share = [](const Filled& c) {
    const Fit f = squeezed(c, Bond::contact);
    const Solved s = equilibrium(f.model, no_ground(), 1, {}, 0, Start::touching);
    EXPECT_TRUE(s.converged()) << describe(s.report.outcome);
    const Eigen::VectorXd all = s.system->internal_forces(s.state, s.loading);
    double core = 0, ring = 0;
    for (int node : row_nodes(f.inner, f.first_inner, true)) core -= all[plane_dof(node, 1)];
    for (int node : row_nodes(f.outer, f.first_outer, true)) ring -= all[plane_dof(node, 1)];
    return std::pair{core / (core + ring), ring};
  };
  const double b = 1.2, ring_area = std::numbers::pi * (b * b - 1), E = 500;
  const auto [nothing, left] = share({E * 1e-4, 0.3, E, 0.3, b});
  EXPECT_LT(nothing, 5e-4);
  EXPECT_NEAR(left, 0.01 * E * ring_area, 0.01 * 0.01 * E * ring_area);
  EXPECT_GT(share({E * 1e4, 0.3, E, 0.3, b}).first, 0.999);
  double before = 0;
  for (double nu : {0.3, 0.45, 0.49, 0.499}) {
    const double E2 = 5, parallel = E2 / (E2 + E * (b * b - 1));
    const double M = E2 * (1 - nu) / (1 + nu) / (1 - 2 * nu), confined = M / (M + E * (b * b - 1));
    const double ours = share({E2, nu, E, 0.3, b}).first;
    std::printf("Filling nu %.3f: share %.5f between %.5f and %.5f\n", nu, ours, parallel, confined);
    record_finding(
        {"a filling's share lies between free and rigid sides", "springs in parallel; oedometer", "4 + 4 radial"},
        text("nu %g", nu), text("%.4f to %.4f", parallel, confined), text("%.4f", ours));
    EXPECT_GT(ours, std::max(parallel, before));
    EXPECT_LT(ours, confined);
    before = ours;
  }
}

// Rings 0.2-0.6 and 0.6-1.0 under the pressure 10 + cos 2t outside, frictionless between (Michell 1899): contact pressure
// 9.25925926 + 1.3571791 cos 2t; outside u_r = -8e-3 - 2.24027397e-3 cos 2t, inside -4e-3 - 1.61232877e-3 cos 2t (E = 1000,
// nu = 0.2); with an outer ring ten times stiffer and nu = 0.3: 2.38494601 + 0.552577636 cos 2t. Pressure 0.3 %, u 0.1 %.
TEST(NestedRings, an_oval_pressure_passes_a_sliding_line_as_michell_s_solution) {
  for (const auto& [E, nu, mean, wave] :
       {std::tuple{1000.0, 0.2, 9.25925926, 1.3571791}, std::tuple{1e4, 0.3, 2.38494601, 0.552577636}}) {
    Fit f = rings({5, 12, polar(0.2, 0.6), 1}, {5, 12, polar(0.6, 1), 1}, Symmetry::plane_strain,
                  {materials::LinearIsotropic{1000, 0.2}, Formulation::displacement},
                  {materials::LinearIsotropic{E, nu}, Formulation::displacement}, 0);
    hold_line(f, false, 1);
    hold_line(f, true, 0);
    const auto outside = column_nodes(f.outer, f.first_outer, true);
    const auto cos2 = [](const Vec2& X) { return (X.x() * X.x() - X.y() * X.y()) / X.squaredNorm(); };
    add_traction(f.model, chain(outside), [&](const Vec2& X, const Vec2& n) { return Vec2(-(10 + cos2(X)) * n); });
    const Solved s = equilibrium(f.model, no_ground(), 1, {}, 0, Start::touching);
    ASSERT_TRUE(s.converged()) << describe(s.report.outcome);
    const auto profile = pressure_profile(f.model.X, chain(f.slave()), Symmetry::plane_strain, contact_forces(s));
    double worst = 0;
    for (std::size_t c = 0; c < profile.pressure.size(); ++c) {
      const double p = mean + wave * cos2(f.model.X[static_cast<std::size_t>(profile.node[c])]);
      worst = std::max(worst, std::abs(profile.pressure[c] / p - 1));
    }
    std::printf("Oval rings E %.0f: pressure within %.4f %%", E, 100 * worst);
    record_field({"oval pressure through nested sliding rings", "Michell 1899", "5 x 12 each"},
                 E == 1000 ? "equal" : "10 x stiffer outside", 100 * worst, "p");
    EXPECT_LT(worst, 3e-3);
    if (E == 1000) {
      const double out = s.u(outside.front()).x(), in = s.u(column_nodes(f.inner, f.first_inner, false).front()).x();
      std::printf(", u_r outside %+.4f %%, inside %+.4f %%", 100 * (out / -1.024027397e-2 - 1),
                  100 * (in / -5.61232877e-3 - 1));
      EXPECT_NEAR(out, -1.024027397e-2, 1e-3 * 1.024e-2);
      EXPECT_NEAR(in, -5.61232877e-3, 1e-3 * 5.6e-3);
    }
    std::printf("\n");
  }
}

}  // namespace
