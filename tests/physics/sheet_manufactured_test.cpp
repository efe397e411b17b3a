// Sheets whose breadth varies, Eqs. (3) and (6), against manufactured solutions: no other program has this model.
//
// The strong form of a sheet under Eq. (8) is Div(b P) + b f = 0 with F_33 = 1 (derived here from Eq. (6) by parts). Orders
// to expect: displacement 3, its gradient 2 (quadratic triangles; Ciarlet 1978, from memory), observed within 0.15.
#include "mesh/tri_shapes.hpp"
#include "tests/support/edge_loads.hpp"
#include "tests/support/equilibrium.hpp"
#include "tests/support/record.hpp"
#include "tests/support/single_block.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::tests;
using materials::PlaneComponents;

constexpr double pi = std::numbers::pi;

using Field = std::function<Vec2(const Vec2&)>;
using Breadth = std::function<double(const Vec2&)>;
using Plane = Eigen::Matrix2d;

/// A breadth that narrows and widens by a factor of two over the unit square.
double waisted(const Vec2& X) { return 60 + 25 * std::sin(2.3 * X.x() + 0.4) + 18 * X.y() * X.y(); }

/// In-plane part of the first Piola stress at an in-plane gradient H, F_33 = 1.
Plane piola(const materials::Material& material, const Plane& H) {
  Mat3 F = Mat3::Identity();
  F.topLeftCorner<2, 2>() += H;
  return std::visit(
      [&](const auto& law) {
        const auto P = materials::respond<PlaneComponents>(law, F).P;
        return Plane{{P[0], P[1]}, {P[2], P[3]}};
      },
      material);
}

/// Smooth, of 5 % of the square's side, with shear and volume change everywhere.
Vec2 wave(const Vec2& X) {
  return 0.05 * Vec2{std::sin(pi * X.x()) * std::cos(pi * X.y() / 2), std::cos(pi * X.x() / 2) * std::sin(pi * X.y())};
}
Plane wave_gradient(const Vec2& X) {
  const double x = X.x(), y = X.y();
  return 0.05 * pi *
         Plane{{std::cos(pi * x) * std::cos(pi * y / 2), -0.5 * std::sin(pi * x) * std::sin(pi * y / 2)},
               {-0.5 * std::sin(pi * x / 2) * std::sin(pi * y), std::cos(pi * x / 2) * std::cos(pi * y)}};
}

/// - Div(b P): force per area of the plane that keeps the wave in equilibrium; central differences, error 1e-9.
Vec2 force_of_wave(const materials::Material& material, const Breadth& b, const Vec2& X) {
  constexpr double step = 1e-5;
  Vec2 f = Vec2::Zero();
  for (int k = 0; k < 2; ++k) {
    const Vec2 d = step * Vec2::Unit(k);
    f -= (b(X + d) * piola(material, wave_gradient(X + d)) - b(X - d) * piola(material, wave_gradient(X - d))).col(k) /
         (2 * step);
  }
  return f;
}

BlockModel sheet(int n, const materials::Material& material, Formulation formulation, const Breadth& breadth) {
  BlockModel s;
  s.grid = {n, n, rectangle(0, 1, 0, 1, 0.15), 1};
  s.first = add_grid(s.mesh, "sheet", s.grid);
  mesh::Block& block = s.mesh.blocks[0];
  for (std::size_t e = 0; e < block.tri.size(); ++e)
    for (std::size_t a = 0; a < 6; ++a)
      block.breadth[e][a] = breadth(s.mesh.X[static_cast<std::size_t>(block.tri[e][a])]);
  s.model.symmetry = Symmetry::plane_strain;
  s.model.X = s.mesh.X;
  s.model.solids.push_back(make_solid_block(s.mesh, block, s.model.symmetry, material, formulation));
  return s;
}

struct AtPoint {
  Vec2 X;
  mesh::Tri6::Values N;
  mesh::Tri6::Gradients dN;
  double dA;
};

/// Calls visit(nodes, point) at the twelve-point rule of every element.
template <class Visit>
void each_point(const BlockModel& s, Visit&& visit) {
  for (const auto& nodes : s.mesh.blocks[0].tri)
    for (const auto& q : mesh::triangle_rule<12>) {
      AtPoint at{Vec2::Zero(), mesh::Tri6::N(q.xi, q.eta), mesh::Tri6::dN(q.xi, q.eta), 0};
      Plane J = Plane::Zero();
      for (int a = 0; a < 6; ++a) {
        const Vec2& X = s.model.X[static_cast<std::size_t>(nodes[static_cast<std::size_t>(a)])];
        at.X += at.N[a] * X;
        J += X * at.dN.row(a);
      }
      at.dN = at.dN * J.inverse();
      at.dA = q.weight * J.determinant();
      visit(nodes, at);
    }
}

void add_body_force(BlockModel& s, const Field& f) {
  each_point(s, [&](const auto& nodes, const AtPoint& at) {
    const Vec2 force = f(at.X) * at.dA;
    for (int a = 0; a < 6; ++a)
      for (int c = 0; c < 2; ++c)
        s.model.dead_loads.push_back({plane_dof(nodes[static_cast<std::size_t>(a)], c), at.N[a] * force[c]});
  });
}

struct Errors {
  double place, gradient;  ///< root mean square over the sheet
};

Errors errors_of(const BlockModel& s, const Solved& solved, const Field& u,
                 const std::function<Plane(const Vec2&)>& H) {
  Errors e{0, 0};
  double area = 0;
  each_point(s, [&](const auto& nodes, const AtPoint& at) {
    Vec2 uh = Vec2::Zero();
    Plane Hh = Plane::Zero();
    for (int a = 0; a < 6; ++a) {
      const Vec2 ua = solved.u(nodes[static_cast<std::size_t>(a)]);
      uh += at.N[a] * ua;
      Hh += ua * at.dN.row(a);
    }
    e.place += (uh - u(at.X)).squaredNorm() * at.dA;
    e.gradient += (Hh - H(at.X)).squaredNorm() * at.dA;
    area += at.dA;
  });
  return {std::sqrt(e.place / area), std::sqrt(e.gradient / area)};
}

/// The wave on an n x n sheet, under the forces of a sheet with breadth `loaded`.
Errors wave_errors(int n, const materials::Material& material, const Breadth& loaded) {
  BlockModel s = sheet(n, material, Formulation::displacement, waisted);
  hold(s.model, s.outline(), wave);
  add_body_force(s, [&](const Vec2& X) { return force_of_wave(material, loaded, X); });
  const Solved solved = equilibrium(s.model, no_ground());
  EXPECT_TRUE(solved.converged()) << describe(solved.report.outcome);
  return errors_of(s, solved, wave, wave_gradient);
}

struct SheetLaw {
  const char* name;
  materials::Material material;
};

class ManufacturedSheet : public ::testing::TestWithParam<SheetLaw> {};

TEST_P(ManufacturedSheet, with_breadth_converges_at_order_3_and_its_gradient_at_2) {
  const Errors coarse = wave_errors(8, GetParam().material, waisted),
               fine = wave_errors(16, GetParam().material, waisted);
  const double order = std::log2(coarse.place / fine.place), slope = std::log2(coarse.gradient / fine.gradient);
  std::printf("Sheet %s: error %.3e, order %.2f; gradient %.3e, order %.2f\n", GetParam().name, fine.place, order,
              fine.gradient, slope);
  const Claim claim{"sheet whose breadth varies by a factor of two: order of displacement",
                    "manufactured, finite strain", "8, 16"};
  record_difference(claim, GetParam().name, 3, order);
  record_difference({"sheet whose breadth varies by a factor of two: order of the gradient", claim.source, claim.mesh},
                    GetParam().name, 2, slope);
  EXPECT_NEAR(order, 3, 0.15);
  EXPECT_NEAR(slope, 2, 0.15);
}

// The check itself must notice breadth: forces of an evenly broad sheet leave an error that no mesh removes.
TEST_P(ManufacturedSheet, is_missed_by_the_forces_of_a_sheet_of_even_breadth) {
  const auto even = [](const Vec2&) { return 60.0; };
  const Errors right = wave_errors(8, GetParam().material, waisted), wrong = wave_errors(8, GetParam().material, even);
  EXPECT_GT(wrong.place, 100 * right.place);
}

INSTANTIATE_TEST_SUITE_P(Laws, ManufacturedSheet,
                         ::testing::Values(SheetLaw{"linear", materials::LinearIsotropic{2.5, 0.3}},
                                           SheetLaw{"Saint-Venant-Kirchhoff",
                                                    materials::SaintVenantKirchhoff{2.5, 0.3}},
                                           SheetLaw{"neo-Hooke A", materials::NeoHooke{1, 2}},
                                           SheetLaw{"neo-Hooke B", materials::CompressibleNeoHooke{1, 2}}),
                         [](const auto& law) {
                           std::string name = law.param.name;
                           std::replace_if(
                               name.begin(), name.end(), [](char c) { return c == ' ' || c == '-'; }, '_');
                           return name;
                         });

// Without body force, so that the element with a bubble (which no load reaches) is tested too: where breadth depends on x alone,
// displacements of x alone with b(x) P e_x = T constant are in equilibrium.
class Taper {
 public:
  Taper(const materials::Material& material, const Vec2& traction) : material_(material), T_(traction) {
    u_.push_back(Vec2::Zero());
    for (int k = 0; k < cells; ++k) {
      Vec2 sum = Vec2::Zero();
      for (const auto& q : mesh::line_rule<3>) sum += 0.5 * q.weight / cells * slope((k + 0.5 + 0.5 * q.s) / cells);
      u_.push_back(u_.back() + sum);
    }
  }
  static double breadth(double x) { return 60 + 25 * std::sin(2.3 * x + 0.4); }

  /// du/dx from P(F) e_x = T / b by Newton with differences.
  [[nodiscard]] Vec2 slope(double x) const {
    Vec2 s = Vec2::Zero();
    const Vec2 t = T_ / breadth(x);
    const auto rest = [&](const Vec2& v) {
      Plane H = Plane::Zero();
      H.col(0) = v;
      return Vec2(piola(material_, H).col(0) - t);
    };
    for (int it = 0; it < 30; ++it) {
      const Vec2 r = rest(s);
      Plane K;
      for (int k = 0; k < 2; ++k) K.col(k) = (rest(s + 1e-7 * Vec2::Unit(k)) - rest(s - 1e-7 * Vec2::Unit(k))) / 2e-7;
      s -= K.inverse() * r;
    }
    return s;
  }
  [[nodiscard]] Vec2 u(double x) const {
    const int k = std::clamp(static_cast<int>(x * cells), 0, cells - 1);
    const double from = static_cast<double>(k) / cells;
    Vec2 sum = u_[static_cast<std::size_t>(k)];
    for (const auto& q : mesh::line_rule<3>)
      sum += 0.5 * q.weight * (x - from) * slope(from + (0.5 + 0.5 * q.s) * (x - from));
    return sum;
  }

 private:
  static constexpr int cells = 64;
  materials::Material material_;
  Vec2 T_;
  std::vector<Vec2> u_;
};

Errors taper_errors(int n, const materials::Material& material, Formulation formulation, const Taper& exact) {
  BlockModel s = sheet(n, material, formulation, [](const Vec2& X) { return Taper::breadth(X.x()); });
  hold(s.model, s.outline(), [&](const Vec2& X) { return exact.u(X.x()); });
  const Solved solved = equilibrium(s.model, no_ground());
  EXPECT_TRUE(solved.converged()) << describe(solved.report.outcome);
  return errors_of(
      s, solved, [&](const Vec2& X) { return exact.u(X.x()); },
      [&](const Vec2& X) {
        Plane H = Plane::Zero();
        H.col(0) = exact.slope(X.x());
        return H;
      });
}

// A rubber at kappa / mu = 1000 sheared by some 20 % and pressed by some 5 % of kappa: without a breadth that varies the state
// would be homogeneous and exact on every mesh.
TEST(TaperedSheet, of_nearly_incompressible_rubber_converges_at_order_3) {
  const materials::Material rubber = materials::NeoHooke{1, 1000};
  const Taper exact(rubber, {-3000, 12});
  const Errors coarse = taper_errors(8, rubber, Formulation::mixed, exact),
               fine = taper_errors(16, rubber, Formulation::mixed, exact);
  const double order = std::log2(coarse.place / fine.place);
  std::printf("Tapered sheet: slopes %.4f %.4f at 0, %.4f %.4f at 1; error %.3e, order %.2f\n", exact.slope(0).x(),
              exact.slope(0).y(), exact.slope(1).x(), exact.slope(1).y(), fine.place, order);
  record_difference(
      {"tapering sheet of rubber, kappa/mu 1000, mixed: order of displacement", "b(x) P e_x constant", "8, 16"},
      "neo-Hooke", 3, order);
  EXPECT_NEAR(order, 3, 0.15);
}

}  // namespace
