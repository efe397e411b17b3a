#include "scenarios/sweep_plan.hpp"

#include "scenarios/nearest.hpp"
#include "scenarios/sweep_vary.hpp"
#include "scenarios/units.hpp"

#include <algorithm>
#include <array>
#include <cstdio>
#include <filesystem>

namespace hoofload::scenarios {

namespace {

constexpr std::array<std::string_view, 6> kMethods = {"grid", "latin hypercube", "sobol",
                                                      "list", "sobol indices",   "one at a time"};
constexpr std::array<std::string_view, 6> kKeys = {"base", "title", "method", "samples", "seed", "vary"};
constexpr std::int64_t kMostRuns = 10'000'000, kLargestSeed = 9007199254740991;

struct PlanReader {
  const std::string& file;
  const MaterialWords& materials;
  CaseErrors& errors;
  SweepPlan plan{};

  void fail(Location at, std::string key, std::string problem, std::string value, std::string allowed,
            std::string nearest = {}) {
    errors.push_back(
        {file, at, std::move(key), std::move(problem), std::move(value), std::move(allowed), std::move(nearest)});
  }
};

std::string listed_names(std::span<const std::string_view> names) {
  std::string text;
  for (const std::string_view n : names) text += (text.empty() ? "" : ", ") + std::string(n);
  return text;
}

bool takes_samples(SweepMethod method) { return is_drawn(method) && method != SweepMethod::one_at_a_time; }

const Member* find_member(const Table& table, std::string_view key) {
  for (const Member& m : table)
    if (m.key == key) return &m;
  return nullptr;
}

std::string read_text(PlanReader& r, const Table& root, std::string_view key, bool is_needed) {
  const Member* m = find_member(root, key);
  if (m == nullptr) {
    if (is_needed) r.fail({1, 1}, std::string(key), "missing value", "", std::string(key) + " = \"...\"");
    return {};
  }
  const auto* text = std::get_if<std::string>(&m->value.content);
  if (text == nullptr || text->empty()) {
    r.fail(m->value.at, m->key, "expected text", written(m->value), std::string(key) + " = \"...\"");
    return {};
  }
  return *text;
}

std::int64_t read_integer(PlanReader& r, const Table& root, std::string_view key, std::int64_t low, std::int64_t high,
                          std::int64_t otherwise) {
  const Member* m = find_member(root, key);
  if (m == nullptr) return otherwise;
  const auto* number = std::get_if<std::int64_t>(&m->value.content);
  if (number == nullptr || *number < low || *number > high) {
    r.fail(m->value.at, m->key, number == nullptr ? "expected a whole number" : "out of range", written(m->value),
           std::to_string(low) + " to " + std::to_string(high));
    return otherwise;
  }
  return *number;
}

bool read_method(PlanReader& r, const Table& root) {
  const std::string text = plain_words(read_text(r, root, "method", true));
  if (text.empty()) return false;
  const auto it = std::find(kMethods.begin(), kMethods.end(), text);
  if (it == kMethods.end()) {
    const Member* m = find_member(root, "method");
    r.fail(m->value.at, "method", "unknown word", written(m->value), listed_names(kMethods),
           nearest_name(text, kMethods));
    return false;
  }
  r.plan.method = static_cast<SweepMethod>(it - kMethods.begin());
  return true;
}

void read_samples(PlanReader& r, const Table& root) {
  const Member* m = find_member(root, "samples");
  if (takes_samples(r.plan.method) && m == nullptr)
    r.fail({1, 1}, "samples", "missing value", "", "samples = 1 to " + std::to_string(kMostRuns));
  if (!takes_samples(r.plan.method)) {
    for (const char* key : {"samples", "seed"})
      if (const Member* idle = find_member(root, key))
        r.fail(idle->at, key, "contradictory: no effect, the values of [vary] make the runs", written(idle->value), "");
    return;
  }
  r.plan.samples = read_integer(r, root, "samples", 1, kMostRuns, 1);
  r.plan.seed = read_integer(r, root, "seed", 0, kLargestSeed, 1);
}

void read_line(PlanReader& r, const std::string& name, const Member& m) {
  const auto input = find_input(name, r.materials);
  if (!input) {
    std::vector<std::string_view> names;
    for (const Key& key : case_keys()) names.push_back(key.name);
    const bool is_fixed = find_key(name) != nullptr;
    r.fail(m.at, name, is_fixed ? "cannot vary" : "unknown key", "",
           "a number, a choice or a material of the case (hoofload explain), or materials.NAME.PARAMETER",
           is_fixed ? "" : nearest_name(name, names));
    return;
  }
  if (input->key != nullptr && input->key->scope == Scope::whole_case) {
    r.fail(m.at, name, "holds for the whole sweep", written(m.value), "set it in the base case");
    return;
  }
  for (const Variation& v : r.plan.variations)
    if (v.input.name == input->name) r.fail(m.at, name, "duplicate: already varied above", "", "once");
  auto read = read_variation(*input, m.value, r.plan.method, r.materials);
  if (auto* wrong = std::get_if<VaryProblem>(&read))
    r.fail(wrong->at, name, wrong->problem.problem, wrong->value, wrong->problem.allowed, wrong->problem.nearest);
  else
    r.plan.variations.push_back(std::move(std::get<Variation>(read)));
}

/// "shoe.setback" in quotes, and shoe.setback without, which TOML reads as a table in a table.
void read_lines(PlanReader& r, const Table& table, const std::string& before, int depth) {
  for (const Member& m : table) {
    const std::string name = before + m.key;
    const auto* inside = std::get_if<Table>(&m.value.content);
    const bool is_section = inside != nullptr && !find_input(name, r.materials) && depth < 2;
    if (is_section)
      read_lines(r, *inside, name + ".", depth + 1);
    else
      read_line(r, name, m);
  }
}

void check_lengths(PlanReader& r, const Member& vary) {
  if (r.plan.variations.empty()) {
    if (r.errors.empty()) r.fail(vary.at, "vary", "nothing varies", "", "\"shoe.setback\" = [\"0 mm\", \"9 mm\"]");
    return;
  }
  const std::size_t first = r.plan.variations.front().values.size();
  double runs = 1;
  for (const Variation& v : r.plan.variations) {
    runs *= r.plan.method == SweepMethod::grid ? static_cast<double>(v.values.size()) : 1;
    if (r.plan.method == SweepMethod::list && v.values.size() != first)
      r.fail(vary.at, v.input.name, "a list of runs needs as many values of every key", std::to_string(v.values.size()),
             std::to_string(first));
  }
  if (r.plan.method == SweepMethod::sobol_indices)
    runs = static_cast<double>(r.plan.samples) * static_cast<double>(r.plan.variations.size() + 2);
  if (runs > static_cast<double>(kMostRuns))
    r.fail(vary.at, "vary", "too many runs", number_text(runs), "at most " + std::to_string(kMostRuns));
}

void read_root(PlanReader& r, const Table& root) {
  for (const Member& m : root)
    if (std::find(kKeys.begin(), kKeys.end(), m.key) == kKeys.end())
      r.fail(m.at, m.key, "unknown key", "", listed_names(kKeys), nearest_name(m.key, kKeys));
  r.plan.title = read_text(r, root, "title", false);
  const std::string base = read_text(r, root, "base", true);
  if (!base.empty()) r.plan.base = (std::filesystem::path(r.file).parent_path() / base).string();
  if (!read_method(r, root)) return;
  read_samples(r, root);
  const Member* vary = find_member(root, "vary");
  const Table* lines = vary == nullptr ? nullptr : std::get_if<Table>(&vary->value.content);
  if (lines == nullptr) {
    r.fail(vary == nullptr ? Location{1, 1} : vary->at, "vary", "missing section", "", "[vary] and the keys that vary");
    return;
  }
  read_lines(r, *lines, "", 0);
  check_lengths(r, *vary);
}

std::string nine_figures(double x) {
  std::array<char, 40> text{};
  std::snprintf(text.data(), text.size(), "%.9g", x);
  return number_text(parse_number(text.data()).value_or(x));
}

std::string drawn_value(const Variation& v, double u) {
  if (v.distribution) return nine_figures(quantile(*v.distribution, u));
  const auto n = static_cast<double>(v.values.size());
  return v.values[std::min(v.values.size() - 1, static_cast<std::size_t>(u * n))];
}

/// Share of its distribution at which input d stands in a run, Eq. (104) for the indices.
double share_of(const SweepPlan& plan, std::size_t run, std::size_t d) {
  const std::size_t inputs = plan.variations.size();
  if (plan.method == SweepMethod::one_at_a_time) return run == 2 * d + 1 ? 0.05 : run == 2 * d + 2 ? 0.95 : 0.5;
  if (plan.method != SweepMethod::sobol_indices) return plan.points.at(run, d);
  const auto samples = static_cast<std::size_t>(plan.samples);
  const std::size_t block = run / samples;
  const bool is_of_b = block == 1 || block == d + 2;
  return plan.points.at(run % samples, is_of_b ? inputs + d : d);
}

UnitPoints points_of(const SweepPlan& plan) {
  const auto count = static_cast<std::size_t>(plan.samples);
  const auto seed = static_cast<std::uint64_t>(plan.seed);
  const std::size_t inputs = plan.variations.size();
  if (plan.method == SweepMethod::sobol) return sobol_points(count, inputs, seed);
  if (plan.method == SweepMethod::sobol_indices) return sobol_points(count, 2 * inputs, seed);
  if (plan.method == SweepMethod::latin_hypercube) return latin_hypercube_points(count, inputs, seed);
  return {};
}

}  // namespace

PlanReading read_sweep_plan(std::string_view text, const std::string& file, const MaterialWords& materials) {
  PlanReading reading;
  const CaseText tree = parse_case_text(text, file);
  reading.errors = tree.errors;
  if (!tree.complete) return reading;
  PlanReader reader{file, materials, reading.errors, {}};
  reader.plan.file = file;
  read_root(reader, tree.root);
  std::stable_sort(reading.errors.begin(), reading.errors.end(),
                   [](const CaseError& a, const CaseError& b) { return a.at < b.at; });
  reading.plan = std::move(reader.plan);
  if (!reading.errors.empty()) return reading;
  reading.plan.points = points_of(reading.plan);
  return reading;
}

bool is_drawn(SweepMethod method) { return method != SweepMethod::grid && method != SweepMethod::list; }

std::size_t run_count(const SweepPlan& plan) {
  const std::size_t inputs = plan.variations.size();
  if (plan.method == SweepMethod::one_at_a_time) return 2 * inputs + 1;
  if (plan.method == SweepMethod::sobol_indices) return static_cast<std::size_t>(plan.samples) * (inputs + 2);
  if (is_drawn(plan.method)) return static_cast<std::size_t>(plan.samples);
  if (plan.method == SweepMethod::list) return plan.variations.front().values.size();
  std::size_t runs = 1;
  for (const Variation& v : plan.variations) runs *= v.values.size();
  return runs;
}

std::vector<InputValue> settings_of(const SweepPlan& plan, std::size_t run) {
  std::vector<InputValue> settings;
  std::size_t repeat = run_count(plan);  // of a grid the last key varies fastest
  for (std::size_t d = 0; d < plan.variations.size(); ++d) {
    const Variation& v = plan.variations[d];
    if (is_drawn(plan.method)) {
      settings.push_back({v.input, drawn_value(v, share_of(plan, run, d))});
    } else if (plan.method == SweepMethod::list) {
      settings.push_back({v.input, v.values[run]});
    } else {
      repeat /= v.values.size();
      settings.push_back({v.input, v.values[run / repeat % v.values.size()]});
    }
  }
  return settings;
}

std::string_view name_of(SweepMethod method) { return kMethods[static_cast<std::size_t>(method)]; }

}  // namespace hoofload::scenarios
