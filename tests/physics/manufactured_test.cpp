// Manufactured solutions: a smooth field is prescribed on the outline, the body force that it needs is put on the nodes, and
// the error must fall as theory says on a sequence of meshes: quadratic triangles, displacement order 3, stress order 2
// (Ciarlet 1978, from memory). Fields of the harmonic kind (Papkovich & Neuber) need no body force, so they also serve the
// mixed element, whose bubble takes none; its own pressure then has order 2 (Crouzeix & Raviart 1973).
#include "tests/support/exact_field.hpp"
#include "tests/support/record.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;

constexpr double pi = std::numbers::pi;
constexpr Symmetry pe = Symmetry::plane_strain, ax = Symmetry::axisymmetric;

/// Finite strain up to 16 % in the plane, 15 % about an axis.
ExactField waves(Symmetry symmetry) {
  ExactField f;
  if (symmetry == pe) {
    f.u = [](const Vec2& X) {
      return Vec2(0.05 * std::sin(pi * X.x()) * std::cos(pi * X.y() / 2),
                  0.05 * std::cos(pi * X.x() / 2) * std::sin(pi * X.y()));
    };
  } else {
    f.u = [](const Vec2& X) {
      const double c = 0.1 * (1 - X.x() * X.x() / 4);
      return Vec2(c * X.x() * std::sin(pi * X.y() / 2), c * std::cos(pi * X.y() / 2));
    };
    f.measure = [](const Vec2& X) { return X.x(); };
  }
  f.F = gradient_of(f.u, symmetry);
  return f;
}

/// 2 mu u = grad(phi + y psi) - 4 (1 - nu) psi e_y with phi, psi harmonic; div u = -(1 - 2 nu) / mu dpsi/dy, so the pressure
/// stays finite as nu goes to one half.
ExactField harmonic(Symmetry symmetry, double mu, double nu, double size) {
  const double k = 1.7;
  const auto radial = [=](double x) {
    return symmetry == pe ? std::cos(k * x) : std::cyl_bessel_j(0.0, k * std::abs(x));
  };
  const auto slope = [=](double x) {
    return symmetry == pe ? -k * std::sin(k * x) : -k * std::copysign(std::cyl_bessel_j(1.0, k * std::abs(x)), x);
  };
  ExactField f;
  f.u = [=](const Vec2& X) {
    const double x = X.x(), y = X.y(), c = radial(x), cx = slope(x);
    const double phi_x = cx * std::sinh(k * y), phi_y = k * c * std::cosh(k * y);
    const double psi = c * std::exp(k * y), psi_x = cx * std::exp(k * y), psi_y = k * psi;
    return Vec2(size / (2 * mu) * Vec2(phi_x + y * psi_x, phi_y + psi + y * psi_y - 4 * (1 - nu) * psi));
  };
  if (symmetry == ax) f.measure = [](const Vec2& X) { return X.x(); };
  f.F = gradient_of(f.u, symmetry);
  return f;
}

/// Unit square (or cylinder) whose inner lines are bent smoothly.
FieldErrors solve_on(int n, const ExactField& field, Symmetry symmetry, const Material& material,
                     Formulation formulation, bool loaded, int steps) {
  auto b = one_block({n, n, rectangle(0, 1, 0, 1, 0.06), 1}, symmetry, material, formulation);
  hold_outline(b, field);
  if (loaded) add_body_force(b, field);
  const Solved solved = equilibrium(b.model, no_ground(), steps);
  EXPECT_TRUE(solved.converged()) << describe(solved.report.outcome);
  return field_errors(b, solved, field);
}

/// Last observed order on 4, 8 and 16 cells, each at least theory's less 0.1.
void expect_orders(const Claim& claim, const std::string& name, const std::function<FieldErrors(int)>& errors,
                   bool pressure) {
  std::array<FieldErrors, 3> e;
  for (std::size_t k = 0; k < 3; ++k) e[k] = errors(4 << k);
  const double u = std::log2(e[1].u / e[2].u), P = std::log2(e[1].P / e[2].P);
  std::printf("Order %s: u %.2e %.2e %.2e, order %.2f; P %.2e, order %.2f", name.c_str(), e[0].u, e[1].u, e[2].u, u,
              e[2].P, P);
  const auto order_of = [&](const char* field) {
    return Claim{claim.claim + ": order of " + field, claim.source, claim.mesh};
  };
  record_difference(order_of("displacement"), name, 3, u);
  record_difference(order_of("stress"), name, 2, P);
  EXPECT_GT(u, 2.9) << name;
  EXPECT_GT(P, 1.9) << name;
  if (pressure) {
    const double p = std::log2(e[1].p / e[2].p);
    std::printf("; p %.2e, order %.2f", e[2].p, p);
    record_difference(order_of("pressure"), name, 2, p);
    EXPECT_GT(p, 1.9) << name;
  }
  std::printf("\n");
}

// The body force itself against values worked out by hand-differentiated expressions in an independent program, at (0.3, 0.4),
// mu = 1: kappa = 2 for the isochoric split A, lambda = 2 for the ln J form B. 1e-6: difference quotients.
TEST(Manufactured, body_force_is_the_divergence_of_the_stress) {
  const Vec2 X(0.3, 0.4);
  struct Row {
    Symmetry symmetry;
    Material material;
    double x, y;
  };
  const std::vector<Row> rows{{pe, materials::NeoHooke{1, 2}, 1.318976308, 1.851396504},
                              {pe, materials::CompressibleNeoHooke{1, 2}, 1.323270992, 1.843164513},
                              {pe, materials::NeoHooke{1, 1000}, 416.3083335, 597.7723270},
                              {ax, materials::NeoHooke{1, 2}, 0.1081190369, 0.2773242373},
                              {ax, materials::CompressibleNeoHooke{1, 2}, 0.1198033344, 0.2276069029},
                              {ax, materials::NeoHooke{1, 1000}, 14.65751140, -16.49372923}};
  for (const auto& row : rows) {
    const Vec2 B = body_force(waves(row.symmetry), row.material, row.symmetry, X);
    EXPECT_LT((B - Vec2(row.x, row.y)).norm(), 1e-6 * Vec2(row.x, row.y).norm());
    record_exact({"the body force used is the stress' divergence", "[N]", "a point"},
                 row.symmetry == pe ? "plane strain" : "axisymmetry",
                 (B - Vec2(row.x, row.y)).norm() / Vec2(row.x, row.y).norm(), 1e-6);
  }
}

TEST(Manufactured, the_triangle_converges_at_order_3_at_finite_strain_in_both_symmetries) {
  for (Symmetry symmetry : {pe, ax})
    for (const auto& [name, material] :
         {std::pair<const char*, Material>{"A", materials::NeoHooke{1, 2}},
          std::pair<const char*, Material>{"B", materials::CompressibleNeoHooke{1, 2}},
          std::pair<const char*, Material>{"Hooke", materials::LinearIsotropic{2.5, 0.25}},
          std::pair<const char*, Material>{"Saint-Venant", materials::SaintVenantKirchhoff{2.5, 0.25}}})
      expect_orders(
          {"triangle, finite strain, manufactured", "Ciarlet 1978, from memory", "4, 8, 16 distorted"},
          std::string(symmetry == pe ? "pe " : "ax ") + name,
          [&, &material = material](int n) {
            return solve_on(n, waves(symmetry), symmetry, material, Formulation::displacement, true, 1);
          },
          false);
}

// A sheet whose breadth varies: no solid has this field, but the sheet's own equations, Eqs. (3), (6), do.
TEST(Manufactured, a_sheet_of_varying_breadth_converges_at_order_3) {
  ExactField field = waves(pe);
  field.measure = [](const Vec2& X) { return 1 + 0.5 * X.x() + 0.4 * X.x() * X.y() - 0.3 * X.y() * X.y(); };
  const Material material = materials::NeoHooke{1, 2};
  expect_orders(
      {"sheet of varying breadth, finite strain, manufactured", "Eqs. (3), (6); Ciarlet 1978", "4, 8, 16 distorted"},
      "law A",
      [&](int n) {
        auto b = one_block({n, n, rectangle(0, 1, 0, 1, 0.06), 1}, pe, material, Formulation::displacement);
        auto& block = b.mesh.blocks[0];
        for (std::size_t e = 0; e < block.tri.size(); ++e)
          for (std::size_t a = 0; a < 6; ++a)
            block.breadth[e][a] = field.measure(b.mesh.X[static_cast<std::size_t>(block.tri[e][a])]);
        b.model.solids[0] = make_solid_block(b.mesh, block, pe, material, Formulation::displacement);
        hold_outline(b, field);
        add_body_force(b, field);
        const Solved solved = equilibrium(b.model, no_ground());
        EXPECT_TRUE(solved.converged()) << describe(solved.report.outcome);
        return field_errors(b, solved, field);
      },
      false);
}

TEST(Manufactured, the_mixed_element_has_displacement_order_3_and_pressure_order_2_at_every_poisson_ratio) {
  for (Symmetry symmetry : {pe, ax})
    for (double nu : {0.3, 0.4999}) {
      const double mu = 1, E = 2 * mu * (1 + nu);
      const ExactField field = harmonic(symmetry, mu, nu, 0.1);
      EXPECT_LT(body_force(field, materials::LinearIsotropic{E, nu}, symmetry, {0.3, 0.4}).norm(), 1e-6 / (1 - 2 * nu));
      char name[64];
      std::snprintf(name, sizeof name, "%s nu %g", symmetry == pe ? "pe" : "ax", nu);
      expect_orders(
          {"mixed element, linear, manufactured", "Crouzeix & Raviart 1973", "4, 8, 16 distorted"}, name,
          [&](int n) {
            return solve_on(n, field, symmetry, materials::LinearIsotropic{E, nu}, Formulation::mixed, false, 1);
          },
          true);
    }
}

// A quadratic field with its body force is in the space of straight-sided six-node triangles: exact, on a distorted mesh.
TEST(Manufactured, a_quadratic_field_is_exact_on_straight_sided_triangles) {
  ExactField field;
  field.u = [](const Vec2& X) {
    return Vec2(1e-3 * (X.x() * X.x() - 0.4 * X.x() * X.y() + 0.2 * X.y()),
                1e-3 * (0.7 * X.y() * X.y() + X.x() * X.y()));
  };
  field.F = gradient_of(field.u, pe);
  const FieldErrors e =
      solve_on(4, field, pe, materials::LinearIsotropic{1000, 0.3}, Formulation::displacement, true, 1);
  std::printf("Quadratic patch: u %.1e\n", e.u);
  EXPECT_LT(e.u, 1e-9);
  record_exact({"a quadratic field is exact on straight-sided triangles", "theory", "4 x 4 distorted"}, "displacement",
               e.u, 1e-9);
}

}  // namespace
