#include "scenarios/comparison.hpp"

#include <algorithm>

#include "scenarios/bars.hpp"
#include "scenarios/case_words.hpp"
#include "scenarios/nothing.hpp"

namespace hoofload::scenarios {

namespace {

constexpr double kSolverTolerance = 1e-6;  ///< relative: Newton stops at 1e-9 of the force, cancellation costs the rest

bool is_zero(const Reading& r) { return std::abs(r.value) < kNothing || (r.has_bar && std::abs(r.value) <= r.bar); }

Difference difference(const Case& option, const PhaseResult& phase, const QuantityKey& key, const Reading& base,
                      const Reading& now) {
  Difference d;
  d.option = option.name;
  d.phase = phase.phase;
  d.model = phase.model;
  d.quantity = &key;
  d.baseline = base.value;
  d.value = now.value;
  d.change = now.value - base.value;
  if (!is_zero(base)) d.percent = 100 * d.change / std::abs(base.value);
  d.has_bar = base.has_bar && now.has_bar;
  if (d.has_bar)
    d.bar = bar_of_change({base.value, base.twin, base.size}, {now.value, now.twin, now.size},
                          bar_factor(option.study.density, is_of_the_whole(key.key)));
  const double noise = std::max(kNothing, kSolverTolerance * std::max(std::abs(base.value), std::abs(now.value)));
  d.is_distinguishable = std::abs(d.change) > std::max(d.bar, noise);
  d.verdict = verdict_of(d);
  return d;
}

const Reading* find_reading(const PhaseResult* phase, std::string_view key) {
  if (phase == nullptr) return nullptr;
  const auto it = phase->values.find(key);
  return it == phase->values.end() || !std::isfinite(it->second.value) ? nullptr : &it->second;
}

void add_differences(const RunResult& baseline, const RunResult& option, std::vector<Difference>& out) {
  for (const ModelResult& model : option.models)
    for (const PhaseResult& phase : model.phases) {
      if (!phase.solved) continue;
      const PhaseResult* base_phase = find_phase(baseline, model.kind, phase.phase);
      for (const QuantityKey& key : quantity_catalogue()) {
        const Reading* now = find_reading(&phase, key.key);
        const Reading* base = find_reading(base_phase, key.key);
        if (now != nullptr && base != nullptr) out.push_back(difference(option.run, phase, key, *base, *now));
      }
    }
}

void add_form_errors(const RunResult& run, std::vector<FormError>& out) {
  for (const Phase phase : run.run.load.phases) {
    const PhaseResult* ring = find_phase(run, ModelKind::axisymmetric, phase);
    const PhaseResult* side = find_phase(run, ModelKind::sagittal, phase);
    for (const QuantityKey& key : quantity_catalogue()) {
      if (leading_model(key) != ModelKind::axisymmetric) continue;
      const Reading* a = find_reading(ring, key.key);
      const Reading* s = find_reading(side, key.key);
      if (a != nullptr && s != nullptr) out.push_back({run.run.name, phase, &key, a->value, s->value});
    }
  }
}

}  // namespace

Verdict verdict_of(const Difference& d) {
  const double rise = d.quantity->worse_sign * d.change;
  if (!d.is_distinguishable || rise == 0) return Verdict::neither;
  return rise > 0 ? Verdict::worse : Verdict::better;
}

Comparison compare(const std::vector<RunResult>& results) {
  Comparison c;
  for (std::size_t k = 1; k < results.size(); ++k) add_differences(results.front(), results[k], c.differences);
  for (const RunResult& run : results) add_form_errors(run, c.form_errors);
  return c;
}

std::string_view name_of(Phase phase) { return words::kPhase[static_cast<std::size_t>(phase)]; }
std::string_view name_of(ModelKind model) { return words::kModel[static_cast<std::size_t>(model)]; }

const PhaseResult* find_phase(const RunResult& run, ModelKind model, Phase phase) {
  for (const ModelResult& m : run.models) {
    if (m.kind != model) continue;
    for (const PhaseResult& p : m.phases)
      if (p.phase == phase && p.solved) return &p;
  }
  return nullptr;
}

ModelKind leading_model(const QuantityKey& quantity) {
  const bool of_the_sole = quantity.key.find("sole_") != std::string_view::npos || quantity.key.starts_with("corium_");
  return quantity.model == Given::axisymmetric || (quantity.model == Given::both && of_the_sole)
             ? ModelKind::axisymmetric
             : ModelKind::sagittal;
}

}  // namespace hoofload::scenarios
