// hoofload check-effects: solves the published effects and prints them.
#include <iostream>

#include "scenarios/commands.hpp"
#include "scenarios/effects.hpp"
#include "scenarios/progress.hpp"

namespace hoofload::scenarios {

int effects_command(const EffectsRequest& request) {
  const std::size_t total = 2 * effect_cases().size();
  const Progress bar = start_progress(total, request.quiet ? Talk::quiet : Talk::normal);
  const auto answers = answer_effects({}, request.density.value_or(kEffectsDensity),
                                      [&](const RunProgress& p) { show_progress(bar, p.done, p.what); });
  end_progress(bar);
  std::cout << (request.markdown ? effects_markdown(answers, request.density.value_or(kEffectsDensity))
                                 : effects_text(answers));
  std::cout.flush();
  for (const RowAnswer& answer : answers)
    for (const LineAnswer& line : answer.lines)
      if (line.verdict == EffectVerdict::unsolved) return exit_not_converged;
  return std::cout ? exit_done : exit_system;
}

}  // namespace hoofload::scenarios
