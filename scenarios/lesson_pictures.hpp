// One overview of a lesson beside the pictures of its states: curves over what is swept, bars over what is chosen.
#pragma once

#include <vector>

#include "scenarios/lesson.hpp"
#include "scenarios/pictures.hpp"

namespace hoofload::scenarios {

/// Overviews of what was solved; none of a quantity that no run has.
[[nodiscard]] std::vector<Picture> lesson_overviews(const LessonPlan& plan, const std::vector<RunResult>& results);

/// The runs that get pictures of their states, in order.
[[nodiscard]] std::vector<RunResult> shown_runs(const LessonPlan& plan, const std::vector<RunResult>& results);

}  // namespace hoofload::scenarios
