// A short run of the fuzzer (tests/fuzz/case_fuzz.cpp does the long one): no crash, no broken promise of the reader.
#include "tests/fuzz/case_door.hpp"
#include "tests/fuzz/case_mutator.hpp"
#include "tests/scenarios/case_fixture.hpp"

#include <gtest/gtest.h>

namespace hoofload::scenarios {
namespace {

TEST(CaseFuzz, mutated_cases_never_break_the_door) {
  const auto seeds = fuzz::seed_cases();
  fuzz::Mutator mutator{std::mt19937_64(11)};
  int good = 0;
  for (int k = 0; k < 5000; ++k) {
    const std::string text = mutator.mutated(seeds);
    ASSERT_NO_THROW(good += fuzz::through_the_door(text, catalogue_words()) ? 1 : 0) << text;
  }
  EXPECT_GT(good, 50) << "the mutations should leave some cases good, or they test only the parser";
  EXPECT_LT(good, 4500);
}

TEST(CaseFuzz, the_same_seed_gives_the_same_cases) {
  const auto seeds = fuzz::seed_cases();
  fuzz::Mutator a{std::mt19937_64(3)};
  fuzz::Mutator b{std::mt19937_64(3)};
  for (int k = 0; k < 100; ++k) EXPECT_EQ(a.mutated(seeds), b.mutated(seeds));
}

}  // namespace
}  // namespace hoofload::scenarios
