// Options against the baseline: change, percent, the bar of the paired difference, and what got worse or better by it.
//
// bar of a change, Eq. (78): |(Q_h - Q_2h) of the option - (Q_h - Q_2h) of the baseline|, where what the two meshes share cancels,
// and measured parts of the change and of the quantity's size. Without twins only the solver's own tolerance stands behind a change.
#pragma once

#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "scenarios/run.hpp"

namespace hoofload::scenarios {

enum class Verdict { neither, worse, better };

/// The uncertainty that widens a change most, and its share of the variance, Eq. (108).
struct Widening {
  std::string input;
  double share = 0;
};

struct Difference {
  std::string option;
  Phase phase = Phase::swing;
  ModelKind model = ModelKind::axisymmetric;
  const QuantityKey* quantity = nullptr;
  double baseline = 0, value = 0, change = 0;  ///< in the quantity's unit
  std::optional<double> percent;               ///< empty where the baseline is zero or within its own bar
  double bar = 0;                              ///< of the change
  bool has_bar = false;
  bool is_distinguishable = false;  ///< |change| above bar and solver tolerance, and no interval that holds zero
  std::optional<Interval> interval = std::nullopt;    ///< of the paired change, when sampled
  std::optional<double> p_better = std::nullopt;      ///< share of the draws in which the option is better
  std::optional<Widening> widened_by = std::nullopt;  ///< when sampled and one stands out from chance
  Verdict verdict = Verdict::neither;  ///< by the quantity's worse_sign; never for an indistinguishable change
};

/// A quantity that both models give in one phase: their distance is a lower bound of the model-form error.
struct FormError {
  std::string run;
  Phase phase = Phase::swing;
  const QuantityKey* quantity = nullptr;
  double axisymmetric = 0, sagittal = 0;
  [[nodiscard]] double bound() const { return std::abs(axisymmetric - sagittal); }
};

struct Comparison {
  std::vector<Difference> differences;  ///< by option, model, phase, then in catalogue order
  std::vector<FormError> form_errors;   ///< by run, phase, then in catalogue order; sole and corium quantities only
};

/// The first run is the baseline. Quantities that one of the two lacks (not solved, not given) have no difference.
[[nodiscard]] Comparison compare(const std::vector<RunResult>& results);

/// By the quantity's worse_sign; neither for a change that is not distinguishable.
[[nodiscard]] Verdict verdict_of(const Difference& difference);

[[nodiscard]] std::string_view name_of(Phase phase);
[[nodiscard]] std::string_view name_of(ModelKind model);

/// The solved phase of a run in a model, or null.
[[nodiscard]] const PhaseResult* find_phase(const RunResult& run, ModelKind model, Phase phase);

/// The model whose value stands first: the axisymmetric one resolves the sole's arching, the sagittal one all else.
[[nodiscard]] ModelKind leading_model(const QuantityKey& quantity);

}  // namespace hoofload::scenarios
