// What a material point answers: energy, first Piola stress and tangent, in the components that a symmetry keeps.
//
//   P = d psi / dF,   A = dP / dF   (theory: total Lagrangian form; F = dx/dX, 3x3 always)
//
// PlaneComponents serve every plane symmetry (plane strain with breadth, and axisymmetric where (2,2) is the hoop):
// the entries (0,2), (1,2), (2,0), (2,1) of F are zero and the same entries of P vanish. SpaceComponents serve 3D.
// A law never sees which symmetry calls it. Stresses and moduli in MPa, energy in MPa = N mm / mm^3.
#pragma once

#include <Eigen/Core>
#include <array>
#include <limits>
#include <type_traits>
#include <utility>

namespace hoofload::materials {

using Mat3 = Eigen::Matrix3d;
using Vec3 = Eigen::Vector3d;

/// Index pairs (0,0), (0,1), (1,0), (1,1), (2,2).
struct PlaneComponents {
  static constexpr int size = 5;
  static constexpr std::array<int, 5> row{0, 0, 1, 1, 2};
  static constexpr std::array<int, 5> col{0, 1, 0, 1, 2};
};

/// Index pairs (i, J), row by row.
struct SpaceComponents {
  static constexpr int size = 9;
  static constexpr std::array<int, 9> row{0, 0, 0, 1, 1, 1, 2, 2, 2};
  static constexpr std::array<int, 9> col{0, 1, 2, 0, 1, 2, 0, 1, 2};
};

/// Energy psi, P (N) and A (N x N, symmetric) in the order of a component list.
template <int N>
struct Response {
  double psi;
  Eigen::Matrix<double, N, 1> P;
  Eigen::Matrix<double, N, N> A;
};

template <int n>
using Index = std::integral_constant<int, n>;

/// Calls body(Index<p>, Index<q>) for every pair of components with compile-time indices, so that each entry of a tangent folds to
/// the few products it needs (two to three times faster than a run-time loop over the list).
template <class C, class Body>
inline void for_each_pair(const Body& body) {
  [&]<std::size_t... k>(std::index_sequence<k...>) {
    (body(Index<int(k) / C::size>{}, Index<int(k) % C::size>{}), ...);
  }
  (std::make_index_sequence<std::size_t(C::size * C::size)>{});
}

/// Entries of a 3x3 tensor in the order of the component list C.
template <class C>
[[nodiscard]] inline Eigen::Matrix<double, C::size, 1> components(const Mat3& T) {
  Eigen::Matrix<double, C::size, 1> v;
  [&]<std::size_t... k>(std::index_sequence<k...>) {
    ((v[int(k)] = T(C::row[k], C::col[k])), ...);
  }
  (std::make_index_sequence<std::size_t(C::size)>{});
  return v;
}

/// The answer of a finite-strain law to an inverted point (J <= 0 or not a number): infinite energy, so that a line
/// search rejects the step, and finite (zero) stress and tangent, so that nothing else is poisoned.
template <class C>
[[nodiscard]] inline Response<C::size> rejected() {
  return {std::numeric_limits<double>::infinity(), Eigen::Matrix<double, C::size, 1>::Zero(),
          Eigen::Matrix<double, C::size, C::size>::Zero()};
}

/// Cofactor matrix dJ/dF = J F^-T (defined for any F). The plane list skips the products that are zero.
template <class C>
[[nodiscard]] inline Mat3 cofactor(const Mat3& F) {
  Mat3 K;
  if constexpr (C::size == PlaneComponents::size) {
    K << F(1, 1) * F(2, 2), -F(1, 0) * F(2, 2), 0,  //
        -F(0, 1) * F(2, 2), F(0, 0) * F(2, 2), 0,   //
        0, 0, F(0, 0) * F(1, 1) - F(0, 1) * F(1, 0);
  } else {  // written out: a loop would divide for its cyclic indices
    K << F(1, 1) * F(2, 2) - F(1, 2) * F(2, 1), F(1, 2) * F(2, 0) - F(1, 0) * F(2, 2),
        F(1, 0) * F(2, 1) - F(1, 1) * F(2, 0),  //
        F(2, 1) * F(0, 2) - F(2, 2) * F(0, 1), F(2, 2) * F(0, 0) - F(2, 0) * F(0, 2),
        F(2, 0) * F(0, 1) - F(2, 1) * F(0, 0),  //
        F(0, 1) * F(1, 2) - F(0, 2) * F(1, 1), F(0, 2) * F(1, 0) - F(0, 0) * F(1, 2),
        F(0, 0) * F(1, 1) - F(0, 1) * F(1, 0);
  }
  return K;
}

/// J = det F, from row 0 of the cofactor matrix (valid for both component lists).
[[nodiscard]] inline double determinant(const Mat3& F, const Mat3& K) {
  return F(0, 0) * K(0, 0) + F(0, 1) * K(0, 1) + F(0, 2) * K(0, 2);
}

/// J = det F, by the same sums.
[[nodiscard]] inline double determinant(const Mat3& F) {
  return F(0, 0) * (F(1, 1) * F(2, 2) - F(1, 2) * F(2, 1)) + F(0, 1) * (F(1, 2) * F(2, 0) - F(1, 0) * F(2, 2)) +
         F(0, 2) * (F(1, 0) * F(2, 1) - F(1, 1) * F(2, 0));
}

}  // namespace hoofload::materials
