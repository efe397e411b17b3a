// What every law must satisfy, run over every alternative of Material.
//
// Sources: the requirements (P and A derive from psi, major symmetry, objectivity) are those of hyperelasticity
// (Truesdell & Noll 1965, Sections 82-84); the moduli at the identity are the definition of mu0 and kappa0.
#include <gtest/gtest.h>

#include <Eigen/Geometry>

#include <tuple>

#include "materials/material.hpp"
#include "tests/materials/samples.hpp"

namespace hoofload::materials::test {
namespace {

template <class Law>
constexpr bool is_small_strain = std::is_same_v<Law, LinearIsotropic> || std::is_same_v<Law, LinearTransverse>;

template <class Law>
struct EveryLaw : ::testing::Test {};
template <class Law>
struct FiniteStrainLaw : ::testing::Test {};
template <class Law>
struct SplitLaw : ::testing::Test {};

/// The alternatives of Material that satisfy a condition, so that no law can be added without its tests.
template <class Variant, template <class> class Condition>
struct Those;
template <class... Laws, template <class> class Condition>
struct Those<std::variant<Laws...>, Condition> {
  template <class... Types>
  static ::testing::Types<Types...> list(std::tuple<Types...>);
  using tuple = decltype(std::tuple_cat(
      std::declval<std::conditional_t<Condition<Laws>::value, std::tuple<Laws>, std::tuple<>>>()...));
  using type = decltype(list(std::declval<tuple>()));
};

template <class Law>
using Any = std::true_type;
template <class Law>
using IsFinite = std::bool_constant<!is_small_strain<Law>>;
template <class Law>
using IsSplit = std::bool_constant<HasVolumetricSplit<Law>>;

TYPED_TEST_SUITE(EveryLaw, decltype(Those<Material, Any>::type{}));
TYPED_TEST_SUITE(FiniteStrainLaw, decltype(Those<Material, IsFinite>::type{}));
TYPED_TEST_SUITE(SplitLaw, decltype(Those<Material, IsSplit>::type{}));

static_assert(HasVolumetricSplit<LinearIsotropic> && HasVolumetricSplit<NeoHooke> && HasVolumetricSplit<Yeoh>);
static_assert(!HasVolumetricSplit<SaintVenantKirchhoff> && !HasVolumetricSplit<CompressibleNeoHooke>);

template <class C, class Law>
void expect_derivatives(const Law& law) {
  const double h = 1e-6;
  for (const Mat3& F : deformations<C>()) {
    const auto r = respond<C>(law, F);
    for (int a = 0; a < C::size; ++a) {
      Mat3 plus = F, minus = F;
      plus(C::row[a], C::col[a]) += h;
      minus(C::row[a], C::col[a]) -= h;
      const auto up = respond<C>(law, plus), down = respond<C>(law, minus);
      // Central differences: truncation h^2, round-off eps/h; both below 1e-6 of the largest entry.
      EXPECT_NEAR((up.psi - down.psi) / (2 * h), r.P[a], 1e-6 * (r.P.norm() + r.A.norm() * 1e-3));
      EXPECT_LT(((up.P - down.P) / (2 * h) - r.A.col(a)).norm(), 1e-6 * r.A.norm());
    }
  }
}

TYPED_TEST(EveryLaw, stress_and_tangent_are_derivatives_of_the_energy) {
  expect_derivatives<PlaneComponents>(TypeParam::example());
  expect_derivatives<SpaceComponents>(TypeParam::example());
}

TYPED_TEST(EveryLaw, energy_and_stress_vanish_without_deformation) {
  const auto r = respond<SpaceComponents>(TypeParam::example(), Mat3::Identity());
  EXPECT_NEAR(r.psi, 0, 1e-14 * r.A.norm());
  EXPECT_LT(r.P.norm(), 1e-14 * r.A.norm());
}

TYPED_TEST(EveryLaw, tangent_has_major_symmetry) {
  for (const Mat3& F : deformations<SpaceComponents>()) {
    const auto r = respond<SpaceComponents>(TypeParam::example(), F);
    EXPECT_LT((r.A - r.A.transpose()).norm(), 1e-14 * r.A.norm());
  }
}

TYPED_TEST(EveryLaw, plane_components_are_those_of_space) {
  const TypeParam law = TypeParam::example();
  for (const Mat3& F : deformations<PlaneComponents>()) {
    const auto plane = respond<PlaneComponents>(law, F);
    const auto space = respond<SpaceComponents>(law, F);
    const auto slot = [](int a) { return 3 * PlaneComponents::row[a] + PlaneComponents::col[a]; };
    EXPECT_NEAR(plane.psi, space.psi, 1e-13 * (1 + std::abs(space.psi)));
    for (int a = 0; a < 5; ++a) {
      EXPECT_NEAR(plane.P[a], space.P[slot(a)], 1e-13 * space.A.norm());
      for (int b = 0; b < 5; ++b) EXPECT_NEAR(plane.A(a, b), space.A(slot(a), slot(b)), 1e-13 * space.A.norm());
    }
    for (int absent : {2, 5, 6, 7}) EXPECT_NEAR(space.P[absent], 0, 1e-13 * space.A.norm());
  }
}

TYPED_TEST(EveryLaw, energy_alone_is_the_energy_of_the_response) {
  const TypeParam law = TypeParam::example();
  for (const Mat3& F : deformations<SpaceComponents>()) {
    const double psi = respond<SpaceComponents>(law, F).psi;
    EXPECT_NEAR(energy(law, F), psi, 1e-13 * (1 + std::abs(psi)));
  }
}

TYPED_TEST(EveryLaw, energy_is_positive_away_from_rigid_motion) {
  for (const Mat3& F : deformations<SpaceComponents>()) EXPECT_GT(energy(TypeParam::example(), F), 0);
}

TYPED_TEST(FiniteStrainLaw, energy_and_stress_are_objective) {
  const TypeParam law = TypeParam::example();
  const Mat3 Q = Eigen::AngleAxisd(1.1, Vec3(1, -2, 0.5).normalized()).toRotationMatrix();
  for (const Mat3& F : deformations<SpaceComponents>()) {
    const double psi = energy(law, F);
    const Mat3 turned = Q * F, stress = cauchy(law, F);
    EXPECT_NEAR(energy(law, turned), psi, 1e-12 * (1 + psi));
    EXPECT_LT((cauchy(law, turned) - Q * stress * Q.transpose()).norm(), 1e-12 * (1 + stress.norm()));
  }
}

// Why objectivity is not asked of them: sym(Q - I) is not zero, so a pure rotation stores energy.
TYPED_TEST(EveryLaw, only_small_strain_laws_store_energy_in_a_rotation) {
  const Mat3 Q = Eigen::AngleAxisd(0.5, Vec3::UnitZ()).toRotationMatrix();
  const double scale = respond<SpaceComponents>(TypeParam::example(), Mat3::Identity()).A.norm();
  if (is_small_strain<TypeParam>) {
    EXPECT_GT(energy(TypeParam::example(), Q), 1e-3 * scale);
  } else {
    EXPECT_LT(energy(TypeParam::example(), Q), 1e-14 * scale);
  }
}

TYPED_TEST(FiniteStrainLaw, inverted_point_is_refused_without_a_nan) {
  for (const Mat3& F : {stretches(-0.1, 1, 1), stretches(0, 1, 1), Mat3(Mat3::Constant(std::nan("")))}) {
    const auto r = respond<PlaneComponents>(TypeParam::example(), F);
    EXPECT_EQ(r.psi, std::numeric_limits<double>::infinity());
    EXPECT_TRUE(r.P.allFinite() && r.A.allFinite());
    EXPECT_EQ(energy(TypeParam::example(), F), std::numeric_limits<double>::infinity());
  }
}

TYPED_TEST(EveryLaw, tangent_at_rest_is_hookes_law) {
  const TypeParam law = TypeParam::example();
  const auto A = respond<SpaceComponents>(law, Mat3::Identity()).A;
  if constexpr (requires { mu0(law); }) {
    const double mu = mu0(law), lambda = kappa0(law) - 2 * mu / 3;
    for (int a = 0; a < 9; ++a) {
      for (int b = 0; b < 9; ++b) {
        const int i = a / 3, J = a % 3, k = b / 3, L = b % 3;
        const double hooke = lambda * (i == J && k == L) + mu * ((i == k && J == L) + (i == L && J == k));
        EXPECT_NEAR(A(a, b), hooke, 1e-13 * A.norm());
      }
    }
  } else {
    const LinearTransverse linear{law.E_L, law.E_T, law.nu_LT, law.nu_TT, law.G_LT, law.angle};
    EXPECT_LT((A - respond<SpaceComponents>(linear, Mat3::Identity()).A).norm(), 1e-13 * A.norm());
  }
}

TYPED_TEST(SplitLaw, split_adds_up_to_the_full_law) {
  const TypeParam law = TypeParam::example();
  for (const Mat3& F : deformations<SpaceComponents>()) {
    const auto full = respond<SpaceComponents>(law, F);
    const auto iso = respond_isochoric<SpaceComponents>(law, F);
    const auto vol = volumetric_strain<SpaceComponents>(law, F);
    const double kappa = kappa0(law), th = vol.psi;
    EXPECT_NEAR(full.psi, iso.psi + kappa / 2 * th * th, 1e-12 * kappa);
    EXPECT_LT((full.P - iso.P - kappa * th * vol.P).norm(), 1e-12 * kappa);
    EXPECT_LT((full.A - iso.A - kappa * (vol.P * vol.P.transpose() + th * vol.A)).norm(), 1e-12 * kappa);
    EXPECT_NEAR(energy_isochoric(law, F), iso.psi, 1e-13 * kappa);
    EXPECT_NEAR(theta(law, F), th, 1e-14);
  }
}

TYPED_TEST(SplitLaw, isochoric_part_ignores_a_change_of_volume) {
  const TypeParam law = TypeParam::example();
  for (double s : {0.8, 1.0, 1.3}) EXPECT_NEAR(energy_isochoric(law, stretches(s, s, s)), 0, 1e-13 * kappa0(law));
}

TYPED_TEST(SplitLaw, volumetric_strain_has_exact_derivatives_even_when_inverted) {
  const TypeParam law = TypeParam::example();
  const double h = 1e-5;
  auto tried = deformations<SpaceComponents>();
  tried.push_back(stretches(-0.2, 1, 1.1));
  for (const Mat3& F : tried) {
    const auto r = volumetric_strain<SpaceComponents>(law, F);
    for (int a = 0; a < 9; ++a) {
      Mat3 plus = F, minus = F;
      plus(a / 3, a % 3) += h;
      minus(a / 3, a % 3) -= h;
      const auto up = volumetric_strain<SpaceComponents>(law, plus),
                 down = volumetric_strain<SpaceComponents>(law, minus);
      // det F is multilinear, so central differences are exact to round-off eps/h.
      EXPECT_NEAR((up.psi - down.psi) / (2 * h), r.P[a], 1e-10);
      EXPECT_LT(((up.P - down.P) / (2 * h) - r.A.col(a)).norm(), 1e-10);
    }
  }
}

TYPED_TEST(SplitLaw, plane_components_of_the_split_are_those_of_space) {
  const TypeParam law = TypeParam::example();
  constexpr int slot[5] = {0, 1, 3, 4, 8};
  for (const Mat3& F : deformations<PlaneComponents>()) {
    const auto iso = respond_isochoric<PlaneComponents>(law, F);
    const auto iso3 = respond_isochoric<SpaceComponents>(law, F);
    const auto vol = volumetric_strain<PlaneComponents>(law, F);
    const auto vol3 = volumetric_strain<SpaceComponents>(law, F);
    for (int a = 0; a < 5; ++a) {
      EXPECT_NEAR(iso.P[a], iso3.P[slot[a]], 1e-13 * iso3.A.norm());
      EXPECT_NEAR(vol.P[a], vol3.P[slot[a]], 1e-13);
      for (int b = 0; b < 5; ++b) {
        EXPECT_NEAR(iso.A(a, b), iso3.A(slot[a], slot[b]), 1e-13 * iso3.A.norm());
        EXPECT_NEAR(vol.A(a, b), vol3.A(slot[a], slot[b]), 1e-13);
      }
    }
  }
}

TYPED_TEST(EveryLaw, example_lies_in_its_declared_range_and_a_bad_value_is_named) {
  TypeParam law = TypeParam::example();
  EXPECT_EQ(range_error(law), "");
  const auto& first = TypeParam::parameters.front();
  law.*first.member = -1;
  EXPECT_NE(range_error(law).find(std::string(first.name) + " must lie between"), std::string::npos)
      << range_error(law);
  law.*first.member = std::nan("");
  EXPECT_NE(range_error(law), "");
}

TEST(CompressibleNeoHooke, energy_grows_without_bound_as_the_volume_vanishes) {
  const CompressibleNeoHooke law =
      CompressibleNeoHooke::example();  // (ln J)^2 -> infinity, Bonet & Wood 1997, Eq. 5.28
  double last = 0;
  for (double J : {1e-1, 1e-2, 1e-4, 1e-8, 1e-16}) {
    const double psi = energy(law, stretches(J, 1, 1));
    EXPECT_GT(psi, 1.9 * last);
    last = psi;
  }
  EXPECT_GT(last, 1000 * law.mu);
}

}  // namespace
}  // namespace hoofload::materials::test
