#include "scenarios/derivatives.hpp"

#include "scenarios/comparison.hpp"
#include "scenarios/nearest.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace hoofload::scenarios {

namespace {

constexpr double kStepOfSpread = 0.01, kStepOfValue = 1e-3, kStepOfRange = 1e-4;
constexpr int kShorterSteps = 2;  ///< tenfold each, where a contact would change within the step

SlopeInput input_of(const Uncertainty& u, const Case& run, const MaterialWords& words) {
  const double sd = standard_deviation(u.distribution);
  SlopeInput input{u.name, u.unit, 0, sd, kStepOfSpread * sd, u.effect, u.moved};
  if (u.effect == Effect::scale) input.unit = "of the value";
  if (u.effect == Effect::replace) input.now = number_of(find_input(u.moved.front().input, words).value(), run, words);
  return input;
}

std::invalid_argument no_number(const std::string& name, const MaterialWords& words) {
  const auto found = find_input(name, words);
  if (found) return std::invalid_argument("--by " + name + ": not a number that can move by a little");
  std::vector<std::string_view> names;
  for (const Key& key : case_keys()) names.push_back(key.name);
  const std::string near = nearest_name(name, names);
  return std::invalid_argument("--by " + name + ": unknown key" + (near.empty() ? "" : "; nearest: " + near) +
                               "; a material's value is called materials.NAME.PARAMETER");
}

SlopeInput input_of(const std::string& name, const Case& run, const MaterialWords& words) {
  const auto found = find_input(name, words);
  const bool is_number = found && (found->key == nullptr || std::holds_alternative<NumberAt>(found->key->binding)) &&
                         (found->key == nullptr || found->key->scope == Scope::any_run);
  if (!is_number) throw no_number(name, words);
  SlopeInput input{found->name, found->unit, number_of(*found, run, words), 0, 0, Effect::replace, {{found->name, 1}}};
  input.step = kStepOfValue * std::abs(input.now);
  if (input.step == 0 && found->key != nullptr) {
    const auto& number = std::get<NumberAt>(found->key->binding);
    input.step = kStepOfRange * (number.high - number.low);
  }
  return input;
}

/// Two or three neighbours and how they make a derivative, Eq. (113): f(x) at offsets `at` with weights, over the step.
struct Stencil {
  std::vector<double> at, weight;
  double of_value = 0;  ///< weight of the anchor itself
};
const Stencil kCentral{{1, -1}, {0.5, -0.5}, 0};
const Stencil kUpwards{{1, 2}, {2, -0.5}, -1.5}, kDownwards{{-1, -2}, {-2, 0.5}, 1.5};

/// Neighbours of baseline and, for an option, of the option with the baseline's slack.
class Neighbourhood {
 public:
  Neighbourhood(const AnchoredRun& baseline, const AnchoredRun& run, const materials::Catalogue& catalogue,
                const MaterialWords& words)
      : baseline_(baseline), run_(run), catalogue_(catalogue), words_(words) {}

  [[nodiscard]] Neighbour at(const SlopeInput& input, double by) const {
    const ShiftedCase moved = moved_case(run_.run, input, by, words_);
    if (!moved.why.empty()) return {{}, {}, moved.why};
    if (run_.is_baseline) return neighbour_of(run_, moved.run, catalogue_, {});
    if (is_own(input, run_.run)) return neighbour_of(run_, moved.run, catalogue_, baseline_.slack);
    const ShiftedCase base = moved_case(baseline_.run, input, by, words_);
    if (!base.why.empty()) return {{}, {}, "baseline: " + base.why};
    const Neighbour set = neighbour_of(baseline_, base.run, catalogue_, {});
    if (!set.why.empty()) return {{}, {}, "baseline: " + set.why};
    return neighbour_of(run_, moved.run, catalogue_, set.slack);
  }

 private:
  const AnchoredRun &baseline_, &run_;
  const materials::Catalogue& catalogue_;
  const MaterialWords& words_;
};

std::string joined(const std::set<std::string>& texts) {
  std::string all;
  for (const std::string& t : texts) all += (all.empty() ? "" : "; ") + t;
  return all;
}

/// Neighbours of one stencil, all of them found, or why not.
struct Found {
  const Stencil* stencil = nullptr;
  double step = 0;
  std::vector<Neighbour> at;
  std::string why;
};

Found find_all(const Neighbourhood& around, const SlopeInput& input, const Stencil& stencil, double step) {
  Found found{&stencil, step, {}, ""};
  for (const double offset : stencil.at) {
    found.at.push_back(around.at(input, offset * step));
    if (found.why.empty()) found.why = found.at.back().why;
    if (!found.why.empty()) break;
  }
  return found;
}

std::set<std::string> changes_in(const Found& found, std::size_t phase) {
  std::set<std::string> all;
  for (const Neighbour& n : found.at) all.insert(n.phases[phase].changes.begin(), n.phases[phase].changes.end());
  return all;
}

bool has_values(const Found& found, std::size_t phase) {
  return std::all_of(found.at.begin(), found.at.end(), [&](const Neighbour& n) { return n.phases[phase].why.empty(); });
}

bool is_clean(const Found& found, std::size_t phase) {
  return found.why.empty() && has_values(found, phase) && changes_in(found, phase).empty();
}

/// The attempts for one input: central with the step and shorter ones, then each side alone.
std::vector<Found> attempts(const Neighbourhood& around, const SlopeInput& input, std::size_t phases) {
  std::vector<Found> list;
  const auto all_clean = [&] {
    for (std::size_t p = 0; p < phases; ++p)
      if (std::none_of(list.begin(), list.end(), [&](const Found& f) { return is_clean(f, p); })) return false;
    return true;
  };
  double step = input.step;
  for (int k = 0; k <= kShorterSteps; ++k, step /= 10) {
    list.push_back(find_all(around, input, kCentral, step));
    if (all_clean() || !list.back().why.empty()) break;
  }
  if (all_clean()) return list;
  for (const Stencil* side : {&kUpwards, &kDownwards}) list.push_back(find_all(around, input, *side, input.step / 10));
  return list;
}

std::string remark_of(const Found& found, std::size_t phase) {
  std::string text = found.stencil == &kUpwards ? "upwards only" : found.stencil == &kDownwards ? "downwards only" : "";
  if (const auto changes = changes_in(found, phase); !changes.empty())
    text += (text.empty() ? "" : ", ") + ("across a kink: " + joined(changes));
  return text;
}

void add_slopes(const Found& found, std::size_t phase, std::size_t input, SlopeTable& table) {
  const Stencil& s = *found.stencil;
  const std::string remark = remark_of(found, phase);
  for (const auto& [key, here] : table.values) {
    double sum = s.of_value * here;
    bool is_there = true;
    for (std::size_t k = 0; k < s.at.size(); ++k) {
      const auto it = found.at[k].phases[phase].values.find(key);
      is_there = is_there && it != found.at[k].phases[phase].values.end();
      if (is_there) sum += s.weight[k] * it->second;
    }
    if (is_there) table.slopes[key].push_back({input, sum / found.step, found.step, remark});
  }
}

/// The best attempt for the phase: one that crosses no kink, else one that does, else nothing.
const Found* best_of(const std::vector<Found>& list, std::size_t phase) {
  for (const Found& f : list)
    if (is_clean(f, phase)) return &f;
  for (const Found& f : list)
    if (f.why.empty() && has_values(f, phase)) return &f;
  return nullptr;
}

std::string why_none(const std::vector<Found>& list, std::size_t phase) {
  const Found& first = list.front();
  if (!first.why.empty()) return first.why;
  for (const Neighbour& n : first.at)
    if (!n.phases[phase].why.empty()) return n.phases[phase].why;
  return "not found";
}

RunSlopes slopes_of_run(const AnchoredRun& baseline, const AnchoredRun& run, ModelKind kind,
                        const std::vector<SlopeInput>& inputs, const materials::Catalogue& catalogue,
                        const MaterialWords& words, const std::function<void()>& before) {
  RunSlopes result{run.run.name, kind, {}, {}, {}, run.factorisations};
  if (!run.built || !run.fitted) {
    result.unsolved.push_back(run.why);
    return result;
  }
  for (const AnchoredPhase& phase : run.phases) {
    result.phases.push_back({phase.solution.phase, phase.values, {}});
    if (!phase.anchor) result.unsolved.push_back(std::string(name_of(phase.solution.phase)) + ": " + phase.why);
  }
  const Neighbourhood around(baseline, run, catalogue, words);
  for (std::size_t d = 0; d < inputs.size(); ++d) {
    before();
    const std::vector<Found> list = attempts(around, inputs[d], run.phases.size());
    for (std::size_t p = 0; p < run.phases.size(); ++p) {
      if (!run.phases[p].anchor) continue;
      if (const Found* best = best_of(list, p))
        add_slopes(*best, p, d, result.phases[p]);
      else
        result.missing.push_back({d, std::string(name_of(run.phases[p].solution.phase)), why_none(list, p)});
    }
  }
  return result;
}

}  // namespace

std::vector<SlopeInput> slope_inputs(const std::vector<Case>& runs, const materials::Catalogue& catalogue,
                                     const std::vector<std::string>& by, std::size_t of) {
  const MaterialWords words = material_words(catalogue);
  std::vector<SlopeInput> known;
  for (const Uncertainty& u : uncertainties(runs, catalogue)) known.push_back(input_of(u, runs[of], words));
  if (by.empty()) return known;
  std::vector<SlopeInput> asked;
  for (const std::string& name : by) {
    const auto found = find_input(name, words);
    const auto it = std::find_if(known.begin(), known.end(), [&](const SlopeInput& i) {
      return i.name == name ||
             (found && i.moved.size() == 1 && i.moved.front().input == found->name && i.effect != Effect::scale);
    });
    asked.push_back(it != known.end() ? *it : input_of(name, runs[of], words));
  }
  return asked;
}

double Slope::size(const std::vector<SlopeInput>& inputs) const {
  const SlopeInput& i = inputs[input];
  return std::abs(value) * (i.sd > 0 ? i.sd : i.now != 0 ? 0.1 * std::abs(i.now) : 1);
}

bool is_own(const SlopeInput& input, const Case& option) {
  return std::any_of(input.moved.begin(), input.moved.end(), [&](const Moved& m) {
    return std::find(option.changed.begin(), option.changed.end(), m.input) != option.changed.end();
  });
}

ShiftedCase moved_case(const Case& run, const SlopeInput& input, double by, const MaterialWords& words) {
  std::vector<Shift> shifts;
  for (const Moved& m : input.moved) {
    Shift shift{find_input(m.input, words).value(), m.weight * by};
    if (input.effect == Effect::scale) shift.by *= number_of(shift.input, run, words);
    shifts.push_back(std::move(shift));
  }
  return shifted_case(run, shifts, words);
}

std::vector<RunSlopes> slopes_of(const std::vector<Case>& runs, const std::vector<std::string>& options,
                                 const std::vector<SlopeInput>& inputs, const materials::Catalogue& catalogue,
                                 const std::function<void(const RunProgress&)>& report) {
  const MaterialWords words = material_words(catalogue);
  std::vector<RunSlopes> results;
  RunProgress progress{0, runs.front().study.models.size() * options.size() * inputs.size(), ""};
  for (const ModelKind kind : runs.front().study.models) {
    const AnchoredRun baseline = anchored_run(runs.front(), kind, catalogue, {}, true);
    for (const Case& run : runs) {
      if (std::find(options.begin(), options.end(), run.name) == options.end()) continue;
      const bool is_first = &run == &runs.front();
      const AnchoredRun other = is_first ? AnchoredRun{} : anchored_run(run, kind, catalogue, baseline.slack, false);
      results.push_back(slopes_of_run(baseline, is_first ? baseline : other, kind, inputs, catalogue, words, [&] {
        progress.what = run.name;
        if (report) report(progress);
        ++progress.done;
      }));
    }
  }
  return results;
}

}  // namespace hoofload::scenarios
