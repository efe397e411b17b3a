// What the local page asks for, as JSON, and the case file that it stands for. The page's foot is read, checked and
// solved as
// any case file is; nothing of it is hidden from a file that is exported.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "scenarios/lesson.hpp"

namespace hoofload::scenarios {

inline constexpr std::size_t kMostPageRuns = 6;       ///< shown side by side
inline constexpr double kPageDensity = 0.5;           ///< while a slider moves; what is exported takes 1
inline constexpr std::size_t kMostPageBytes = 65536;  ///< of one request
inline constexpr int kFewestPageDraws = 20;           ///< with fewer there is no interval (study.hpp)
inline constexpr int kMostPageDraws = 1000;

/// One request of a page. `settings` of a run: keys of the case with their values as TOML.
struct PageRequest {
  std::string client = "page";  ///< one open page; its newer requests replace its older ones
  std::int64_t number = 0;      ///< rises with every request of that page
  std::string title;
  Phase phase = Phase::standing;
  std::vector<Setting> common;            ///< foot, horse, ground, load
  std::vector<LessonRun> runs;            ///< baseline first
  std::string wanted;                     ///< of an export: case, csv, json, report, picture
  ModelKind model = ModelKind::sagittal;  ///< of a picture
  std::size_t run = 0;                    ///< of a picture
  int draws = 0;                          ///< of what is uncertain, for intervals; 0: none
  bool moving = false;                    ///< a slider is being moved: see page_solve.hpp
};

struct PageReading {
  PageRequest request;
  std::string problem;  ///< empty if the request could be read: one sentence with the place
};

/// Never throws on any input. Refuses keys that name files or belong to the page itself (study.*, load.phases,
/// load.curve).
[[nodiscard]] PageReading read_page_request(std::string_view body);

/// How a case is solved: `phases` of the page's own choice, mesh density, with bars or without.
struct PageStudy {
  std::vector<Phase> phases;
  double density = kPageDensity;
  bool bars = false;
  int draws = 0;
};

/// The case file of a request; read_case says what is wrong with it.
[[nodiscard]] std::string page_case_text(const PageRequest& request, const PageStudy& study);

/// The phases that a comparison for the record solves.
[[nodiscard]] std::vector<Phase> record_phases();

}  // namespace hoofload::scenarios
