// The dense kernels for packets of two and of four doubles: one answer.
#include "solver/multifrontal/kernels.hpp"

#include <gtest/gtest.h>

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

// No source: every entry is the same sum in the same order whatever the packet, so nothing but equality will do. Sizes on both
// sides of a tile (4 and 8 rows) and of a block of columns (64).
TEST(MultifrontalKernels, packets_of_two_and_of_four_give_the_same_bits) {
  if (__builtin_cpu_supports("avx") == 0) GTEST_SKIP() << "this processor has no AVX";
  for (const auto& [columns, height] : {std::pair{4, 4}, {4, 12}, {8, 20}, {12, 40}, {64, 72}, {68, 132}, {132, 160}}) {
    const auto given = panel_of(columns, height, static_cast<unsigned>(height));
    auto narrow = given, wide = given;
    ASSERT_TRUE(factor_panel_narrow(narrow.data(), columns, height));
    ASSERT_TRUE(factor_panel_wide(wide.data(), columns, height));
    const int rows = height - columns;
    std::vector<double> below(static_cast<std::size_t>(rows * rows)), below_wide = below;
    schur_complement_narrow(narrow.data(), columns, columns, rows, below.data());
    schur_complement_wide(wide.data(), columns, columns, rows, below_wide.data());
    for (int j = 0; j < columns; ++j)
      for (int i = j; i < height; ++i) {
        const auto at = static_cast<std::size_t>(j * height + i);
        ASSERT_EQ(narrow[at], wide[at]) << columns << " x " << height << " at " << i << ", " << j;
      }
    for (int j = 0; j < rows; ++j)
      for (int i = j; i < rows; ++i) {
        const auto at = static_cast<std::size_t>(j * rows + i);
        ASSERT_EQ(below[at], below_wide[at]) << columns << " x " << height << " below at " << i << ", " << j;
      }
  }
}

TEST(MultifrontalKernels, both_packets_refuse_a_pivot_that_is_not_positive) {
  for (const int bad : {0, 5, 11}) {
    auto panel = panel_of(12, 20, 7);
    panel[static_cast<std::size_t>(bad * 21)] = -1;
    auto wide = panel;
    EXPECT_FALSE(factor_panel_narrow(panel.data(), 12, 20)) << bad;
    if (__builtin_cpu_supports("avx") != 0) {
      EXPECT_FALSE(factor_panel_wide(wide.data(), 12, 20)) << bad;
    }
  }
}

}  // namespace
