// The table of a sweep as CSV (RFC 4180): one row a run, option, model, phase and quantity, sorted so, numbers with
// all their digits. The same results give the same bytes, whoever solved them in what order.
#pragma once

#include "scenarios/sweep_file.hpp"

#include <iosfwd>
#include <string>
#include <vector>

namespace hoofload::scenarios {

/// Columns: run, one for each input that varies ("shoe.setback [mm]"), option, model, phase, quantity, unit, value,
/// mesh_bar, outcome, reason, case, plan, program (the first twelve digits of the fingerprints).
void write_sweep_csv(const SweepFile& file, std::ostream& out);

/// A field, in quotes where it needs them.
[[nodiscard]] std::string csv_field(const std::string& text);

/// Puts the runs of the parts into `whole`. A part of another plan or program, or a run that two parts have with other
/// values, is refused (SweepFileError).
void merge_sweeps(const std::vector<std::filesystem::path>& parts, const std::filesystem::path& whole);

/// The runs that a plan has and the file has not, as "3, 7, 10-14".
[[nodiscard]] std::string missing_runs(const SweepFile& file);

}  // namespace hoofload::scenarios
