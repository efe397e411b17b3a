// The dense kernels for packets of two, four and eight doubles: one answer.
#include "solver/multifrontal/kernels.hpp"
#include "solver/multifrontal/rounded_panel.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <vector>

namespace {

using namespace hoofload::solver::multifrontal;

/// Panel of a positive definite front: `height` rows, the leading square dominated by its diagonal.
std::vector<double> panel_of(int columns, int height, unsigned seed) {
  std::mt19937 rng(seed);
  std::uniform_real_distribution<double> uniform(-1, 1);
  std::vector<double> panel(static_cast<std::size_t>(columns) * static_cast<std::size_t>(height));
  for (double& x : panel) x = uniform(rng);
  for (int j = 0; j < columns; ++j) panel[static_cast<std::size_t>(j * (height + 1))] += 3 * columns;
  return panel;
}

struct Packets {
  int doubles;
  bool here;  ///< the processor has them
  decltype(&factor_panel_two) factor;
  decltype(&schur_complement_two) schur;
};

std::vector<Packets> wider_packets() {
  return {{4, __builtin_cpu_supports("avx") != 0, factor_panel_four, schur_complement_four},
          {8, __builtin_cpu_supports("avx512f") != 0, factor_panel_eight, schur_complement_eight}};
}

/// Lower parts of column-major matrices are equal, number by number.
void expect_equal(const std::vector<double>& a, const std::vector<double>& b, int columns, int height) {
  for (int j = 0; j < columns; ++j)
    for (int i = j; i < height; ++i) {
      const auto at = static_cast<std::size_t>(j * height + i);
      ASSERT_EQ(a[at], b[at]) << columns << " x " << height << " at " << i << ", " << j;
    }
}

// No source: every entry is the same sum in the same order whatever the packet, so nothing but equality will do. Sizes on both
// sides of a tile (4, 8 and 16 rows) and of a block of columns (64).
TEST(MultifrontalKernels, packets_of_two_four_and_eight_give_the_same_bits) {
  if (__builtin_cpu_supports("avx") == 0) GTEST_SKIP() << "this processor has no packets wider than two";
  for (const Packets& wider : wider_packets()) {
    if (!wider.here) continue;
    for (const auto& [columns, height] :
         {std::pair{4, 4}, {4, 12}, {8, 20}, {8, 36}, {12, 40}, {64, 72}, {68, 132}, {132, 160}, {132, 188}}) {
      const auto given = panel_of(columns, height, static_cast<unsigned>(height));
      auto two = given, more = given;
      ASSERT_TRUE(factor_panel_two(two.data(), columns, height));
      ASSERT_TRUE(wider.factor(more.data(), columns, height));
      const int rows = height - columns;
      std::vector<double> below(static_cast<std::size_t>(rows * rows)), below_more = below;
      schur_complement_two(two.data(), columns, columns, rows, below.data());
      wider.schur(more.data(), columns, columns, rows, below_more.data());
      expect_equal(two, more, columns, height);
      expect_equal(below, below_more, rows, rows);
    }
  }
}

TEST(MultifrontalKernels, all_packets_refuse_a_pivot_that_is_not_positive) {
  for (const int bad : {0, 5, 11}) {
    auto panel = panel_of(12, 20, 7);
    panel[static_cast<std::size_t>(bad * 21)] = -1;
    for (const Packets& wider : wider_packets()) {
      if (!wider.here) continue;
      auto copy = panel;
      EXPECT_FALSE(wider.factor(copy.data(), 12, 20)) << bad << ", " << wider.doubles;
    }
    EXPECT_FALSE(factor_panel_two(panel.data(), 12, 20)) << bad;
  }
}

// No source, as above: four rows are one sum whatever the packet.
TEST(MultifrontalKernels, rounded_panels_are_solved_with_the_same_bits_by_packets_of_two_and_of_four) {
  if (__builtin_cpu_supports("avx") == 0) GTEST_SKIP() << "this processor has no AVX";
  for (const auto& [columns, rows] : {std::pair{1, 1}, {3, 3}, {4, 9}, {5, 20}, {7, 30}, {66, 131}}) {
    const int pivot_rows = (columns + 3) / 4 * 4, height = pivot_rows + (rows - columns + 3) / 4 * 4;
    const auto panel = panel_of(pivot_rows, height, static_cast<unsigned>(rows));
    std::vector<float> trapezoid(trapezoid_entries(columns, rows));
    round_panel(panel.data(), columns, rows - columns, pivot_rows, height, trapezoid.data());
    std::vector<double> two(static_cast<std::size_t>(rows));
    for (std::size_t i = 0; i < two.size(); ++i) two[i] = std::sin(static_cast<double>(i + 1));
    auto four = two;
    forward_two(trapezoid.data(), columns, rows, two.data());
    forward_four(trapezoid.data(), columns, rows, four.data());
    EXPECT_EQ(two, four) << columns << " x " << rows;
    backward_two(trapezoid.data(), columns, rows, two.data());
    backward_four(trapezoid.data(), columns, rows, four.data());
    EXPECT_EQ(two, four) << columns << " x " << rows;
  }
}

}  // namespace
