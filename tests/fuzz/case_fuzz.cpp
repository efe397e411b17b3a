// Fuzzes the case reader: case_fuzz [count] [seed], from the root of the source tree; build it with the sanitizers.
// Prints how many mutated cases were good; ends with an error at the first broken promise and shows that case.
#include "materials/catalogue.hpp"
#include "tests/fuzz/case_door.hpp"
#include "tests/fuzz/case_mutator.hpp"

#include <cstdlib>
#include <iostream>

int main(int argc, char** argv) {
  using namespace hoofload;
  const long count = argc > 1 ? std::atol(argv[1]) : 200000;
  const auto seed = static_cast<std::uint64_t>(argc > 2 ? std::atol(argv[2]) : 1);
  const auto words = scenarios::material_words(materials::load_catalogue());
  const auto seeds = fuzz::seed_cases();
  fuzz::Mutator mutator{std::mt19937_64(seed)};
  long good = 0;
  for (long k = 0; k < count; ++k) {
    const std::string text = mutator.mutated(seeds);
    try {
      good += fuzz::through_the_door(text, words) ? 1 : 0;
    } catch (const std::exception& e) {
      std::cerr << "case " << k << ": " << e.what() << "\n--- the case ---\n" << text << "\n";
      return 1;
    }
  }
  std::cout << count << " mutated cases, " << good << " good, no crash\n";
}
