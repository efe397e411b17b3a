// A page that starts again shows what was shown before without solving it. Own behaviour, no outside source.
#include <gtest/gtest.h>

#include <filesystem>

#include "scenarios/page_solve.hpp"

namespace hoofload::scenarios {
namespace {

std::vector<Case> two_runs() {
  Case baseline;
  baseline.name = "open";
  baseline.load.phases = {Phase::breakover};
  baseline.study.density = 0.3;
  baseline.study.models = {ModelKind::sagittal};
  Case option = baseline;
  option.name = "set back";
  option.shoeing.shoe.setback = 6;
  return {baseline, option};
}

TEST(PageStore, a_new_start_shows_the_same_numbers_without_solving) {
  const materials::Catalogue catalogue = materials::load_catalogue();
  const std::filesystem::path folder = std::filesystem::path(::testing::TempDir()) / "page-store";
  std::filesystem::remove_all(folder);
  const auto page = [&](const std::string& program) {
    Shelf shelf;
    shelf.store = SolutionStore{folder, program};
    return solve_for_page(two_runs(), catalogue, shelf);
  };
  const PageResult first = page("this"), again = page("this"), another = page("another build");
  EXPECT_EQ(first.solved, 2u);
  EXPECT_EQ(again.solved, 0u);
  EXPECT_EQ(another.solved, 2u);
  for (std::size_t run = 0; run < 2; ++run) {
    const auto& a = first.runs[run].models.at(0).phases.at(0);
    const auto& b = again.runs[run].models.at(0).phases.at(0);
    ASSERT_TRUE(a.solved && b.solved);
    ASSERT_FALSE(a.values.empty());
    ASSERT_EQ(a.values.size(), b.values.size());
    for (const auto& [key, reading] : a.values) EXPECT_EQ(reading.value, b.values.at(key).value) << key;
  }
}

}  // namespace
}  // namespace hoofload::scenarios
