// A sweep's results as columns: what each run set, and each quantity over the runs. Indices and plots read these.
#pragma once

#include "scenarios/sweep_file.hpp"

#include <optional>
#include <string>
#include <vector>

namespace hoofload::scenarios {

/// One quantity of one option, model and phase over the runs; empty where a run has no such value.
struct SweepColumn {
  std::string option, model, phase, quantity, unit;
  std::vector<std::optional<double>> values, mesh_bars;  ///< by run
};

struct SweepColumns {
  std::vector<std::string> inputs, units;          ///< what varies
  std::vector<std::vector<std::string>> settings;  ///< by run, then by input; empty for a run that is not there
  std::vector<SweepColumn> columns;                ///< in the order of the first run that has them
  std::string baseline;                            ///< name of the first option
};

[[nodiscard]] SweepColumns read_columns(const SweepFile& file);

/// Which columns are asked for; an empty text asks for all.
struct ColumnChoice {
  std::string quantity, option, model, phase;
};

/// The columns that are asked for. A word that no column has is an error with what there is and the nearest
/// (std::invalid_argument).
[[nodiscard]] std::vector<const SweepColumn*> chosen_columns(const SweepColumns& all, const ColumnChoice& choice);

/// Values of the option less those of the baseline, run by run, Eq. (102); null if the baseline has no such column.
[[nodiscard]] std::optional<SweepColumn> change_of(const SweepColumns& all, const SweepColumn& column);

/// An input's numbers by run; empty where it is a word.
[[nodiscard]] std::vector<std::optional<double>> numbers_of_input(const SweepColumns& all, std::size_t input);

/// Place of an input; an error with what there is and the nearest otherwise (std::invalid_argument).
[[nodiscard]] std::size_t find_input_column(const SweepColumns& all, const std::string& name);

/// "standing, axisymmetric, set back"
[[nodiscard]] std::string place_of(const SweepColumn& column);

}  // namespace hoofload::scenarios
