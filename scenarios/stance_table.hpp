// The table of a stance of the user's own (load.curve): comma-separated, names, units, then one row an instant.
//
//   time,normal,tangential,pastern
//   s,N,N,deg
//   0.000,12,-3,46.5
//   ...
//
// time in s, ms or %, strictly rising, the first row touch-down and the last lift-off; normal (on the foot, up) and tangential
// (forward positive) both in N or both in N/kg; pastern, the middle phalanx against the ground, in deg or rad.
#pragma once

#include <string>
#include <string_view>

#include "scenarios/case.hpp"

namespace hoofload::scenarios {

struct TableReading {
  LoadTable table;    ///< empty exactly when there are errors
  CaseErrors errors;  ///< every bad row, each with its line; `file` is only quoted
};

/// Never throws on any input.
[[nodiscard]] TableReading read_load_table(std::string_view text, const std::string& file);

/// True for the text of a table, false for the name of a file that holds one.
[[nodiscard]] bool is_table_text(std::string_view value);

/// Replaces a file's name in load.curve, relative to the case file, by its text, and reads the table. Errors of the file as a
/// whole stand at `at` in the case.
[[nodiscard]] CaseErrors load_table_of(Case& run, const std::string& case_file, Location at);

}  // namespace hoofload::scenarios
