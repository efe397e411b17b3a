// From the tree of a case file to typed runs: names to keys, values to members, then the checks over whole runs.
#include "scenarios/case.hpp"

#include "scenarios/case_checks.hpp"
#include "scenarios/case_geometry.hpp"
#include "scenarios/case_sections.hpp"
#include "scenarios/case_text.hpp"
#include "scenarios/case_value.hpp"
#include "scenarios/foot_pose.hpp"
#include "scenarios/stance_table.hpp"
#include "scenarios/units.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

namespace hoofload::scenarios {
namespace {

constexpr std::size_t kMostOptions = 200;

/// Where and how a run's key was set.
struct Place {
  Location at;
  bool by_option;
  bool good;          ///< the value could be read
  std::string value;  ///< as written
};

struct Run {
  Case c;
  std::map<std::string, Place, std::less<>> places;
  Location header;
};

struct Reader {
  const std::string& file;
  const MaterialWords& materials;
  std::set<CaseError> errors;
  std::set<CaseError> warnings;
};

void report(Reader& reader, Location at, std::string key, const ValueProblem& p, std::string value) {
  reader.errors.insert({reader.file, at, std::move(key), p.problem, std::move(value), p.allowed, p.nearest});
}

/// The admissible range of a catalogue parameter, both ends excluded.
std::string admissible(const ParameterWord& p) {
  const auto end = [&](double x) { return number_text(x) + (p.unit.empty() ? "" : " " + p.unit); };
  return "above " + end(p.above) + ", below " + end(p.below);
}

void set_override(Reader& reader, const Assignment& a, Run& run) {
  const NumberReading read = read_number(*a.value, a.parameter->unit);
  if (!read.value) {
    report(reader, a.value->at, a.written, read.problem, written(*a.value));
    return;
  }
  const ParameterWord& p = *a.parameter;
  if (!(*read.value > p.above && *read.value < p.below)) {
    report(reader, a.value->at, a.written, {"out of range", admissible(p), ""}, written(*a.value));
    return;
  }
  if (*read.value < p.low || *read.value > p.high) {
    reader.warnings.insert({reader.file, a.value->at, a.written, "outside the published range", written(*a.value),
                            number_text(p.low) + " to " + number_text(p.high) + " " + p.unit, ""});
  }
  auto& list = run.c.overrides;
  const auto same = [&](const MaterialOverride& o) { return o.material == a.material->id && o.parameter == p.name; };
  list.erase(std::remove_if(list.begin(), list.end(), same), list.end());
  list.push_back({a.material->id, p.name, *read.value, p.unit});
  std::sort(list.begin(), list.end(), [](const MaterialOverride& x, const MaterialOverride& y) {
    return std::tie(x.material, x.parameter) < std::tie(y.material, y.parameter);
  });
}

void apply(Reader& reader, const std::vector<Assignment>& assignments, bool by_option, Run& run) {
  for (const Assignment& a : assignments) {
    if (a.key == nullptr) {
      set_override(reader, a, run);
      continue;
    }
    if (by_option && a.key->scope == Scope::whole_case) {
      report(reader, a.at, a.written,
             {"holds for the whole case: an option cannot change it", "set it outside [[option]]", ""},
             written(*a.value));
      continue;
    }
    const auto problem = set_value(*a.key, *a.value, reader.materials, run.c);
    if (problem) report(reader, a.value->at, a.written, *problem, written(*a.value));
    run.places.insert_or_assign(std::string(a.key->name), Place{a.value->at, by_option, !problem, written(*a.value)});
  }
}

/// The baseline and then one run for each [[option]].
std::vector<Run> read_runs(Reader& reader, const Table& root) {
  Sections sections{reader.file, reader.materials, {}};
  const SectionReading base = read_root(sections, root);
  std::vector<Run> runs(1);
  apply(reader, base.assignments, false, runs[0]);
  for (const Value* option : base.options) {
    if (runs.size() > kMostOptions) {
      report(reader, option->at, "option", {"too many options", "at most " + std::to_string(kMostOptions), ""}, "");
      break;
    }
    Run run = runs[0];
    run.header = option->at;
    run.c.name.clear();
    run.places.erase("name");
    apply(reader, read_option(sections, std::get<Table>(option->content)), true, run);
    runs.push_back(std::move(run));
  }
  reader.errors.insert(sections.errors.begin(), sections.errors.end());
  return runs;
}

bool all_good(const Run& run, const std::vector<std::string_view>& keys) {
  return std::all_of(keys.begin(), keys.end(), [&](std::string_view key) {
    const auto place = run.places.find(key);
    return place == run.places.end() || place->second.good;
  });
}

/// Puts a clash where the run sets one of its keys, its own option first; else at the run's header.
CaseError located(const Reader& reader, const Run& run, const Clash& clash) {
  CaseError error{reader.file,   run.header, std::string(clash.keys.front()), clash.problem, clash.value,
                  clash.allowed, ""};
  for (const bool by_option : {true, false}) {
    for (const std::string_view key : clash.keys) {
      const auto place = run.places.find(key);
      if (place == run.places.end() || place->second.by_option != by_option) continue;
      error.at = place->second.at;
      error.key = place->first;
      return error;
    }
  }
  return error;
}

// Keys that decide what other keys mean: if one cannot be read, the others are not to be judged by its default.
constexpr std::array<std::string_view, 8> kSwitches = {
    "shoe.type", "shoe.toe",       "shoe.attachment", "shoe.layer_thickness",
    "pad.type",  "packing.region", "ground.type",     "load.phases"};

/// A key is a contradiction if every run that keeps this very setting has no use for it.
void check_contradictions(Reader& reader, const std::vector<Run>& runs) {
  std::map<std::pair<Location, std::string>, std::vector<const Run*>> settings;
  for (const Run& run : runs)
    for (const auto& [key, place] : run.places) settings[{place.at, key}].push_back(&run);
  const std::vector<std::string_view> switches(kSwitches.begin(), kSwitches.end());
  for (const auto& [setting, users] : settings) {
    const std::string& key = setting.second;
    const auto idle = [&](const Run* run) { return all_good(*run, switches) && why_unused(run->c, key).contradiction; };
    if (!std::all_of(users.begin(), users.end(), idle)) continue;
    const std::string reason(why_unused(users[0]->c, key).reason);
    report(reader, setting.first, key, {"contradictory: no effect, " + reason, "", ""}, users[0]->places.at(key).value);
  }
}

void check_followed_range(Reader& reader, const Run& run) {
  for (const std::string& name : run.c.followed) {
    const Key& key = *find_key(name);
    const auto& number = std::get<NumberAt>(key.binding);
    const double factor = find_unit(number.unit)->factor;
    const double value = number.get(run.c).value() / factor;
    if (value >= number.low && value <= number.high) continue;
    const Clash clash{{"foot.palmar_angle", "foot.toe_angle", "foot.hl_distal", "foot.hl_proximal",
                       "foot.sole_depth_tip", "foot.sole_cup", "foot.dorsal_length", "foot.palmar_length"},
                      "impossible geometry: " + name + " follows from the measurements as " +
                          number_text(std::round(value * 10) / 10) + " " + std::string(number.unit),
                      "",
                      name + " " + allowed_text(key)};
    if (all_good(run, clash.keys)) reader.errors.insert(located(reader, run, clash));
  }
}

/// A stance of the user's own takes the place of its file's name.
void read_curve(Reader& reader, Run& run) {
  const auto place = run.places.find("load.curve");
  if (place == run.places.end() || !place->second.good) return;
  const CaseErrors errors = load_table_of(run.c, reader.file, place->second.at);
  reader.errors.insert(errors.begin(), errors.end());
}

void check_run(Reader& reader, Run& run) {
  read_curve(reader, run);
  const auto is_given = [&](std::string_view key) { return run.places.count(key) > 0; };
  run.c.followed = complete_foot(run.c.foot, is_given);
  check_followed_range(reader, run);
  std::vector<Clash> found = clashes(run.c);
  // What is already known to be wrong would only be said again in other words.
  const bool is_good = std::all_of(run.places.begin(), run.places.end(), [](const auto& p) { return p.second.good; });
  if (found.empty() && is_good) found = undrawable(run.c);
  for (const Clash& clash : found)
    if (all_good(run, clash.keys)) reader.errors.insert(located(reader, run, clash));
  for (const Clash& doubt : doubts(run.c))
    if (all_good(run, doubt.keys) && is_given(doubt.keys.front())) reader.warnings.insert(located(reader, run, doubt));
}

/// Every option needs a name of its own.
void check_names(Reader& reader, const std::vector<Run>& runs) {
  std::set<std::string> names;
  for (const Run& run : runs) {
    const auto place = run.places.find("name");
    if (&run != &runs[0] && place == run.places.end()) {
      report(reader, run.header, "option", {"missing value: the option has no name", "name = \"...\"", ""}, "");
      continue;
    }
    if (place != run.places.end() && !place->second.good) continue;
    if (!names.insert(run.c.name).second) {
      report(reader, place == run.places.end() ? run.header : place->second.at, "name",
             {"duplicate: another run has this name", "a name of its own for every run", ""},
             toml_string(shown_text(run.c.name)));
    }
  }
}

/// Fills the lists that say where each value in use came from.
void record_origins(Run& run) {
  const auto followed = [&](std::string_view key) {
    return std::find(run.c.followed.begin(), run.c.followed.end(), key) != run.c.followed.end();
  };
  for (const auto& [key, place] : run.places) {
    run.c.given.push_back(key);
    if (place.by_option) run.c.changed.push_back(key);
  }
  for (const Key& key : case_keys()) {
    const bool known = run.places.count(key.name) > 0 || followed(key.name);
    if (known || toml_value(key, run.c).empty()) continue;
    if (why_unused(run.c, key.name).reason.empty()) run.c.defaulted.emplace_back(key.name);
  }
  std::sort(run.c.defaulted.begin(), run.c.defaulted.end());
}

CaseErrors in_order(CaseErrors errors) {
  std::stable_sort(errors.begin(), errors.end(), [](const CaseError& a, const CaseError& b) { return a.at < b.at; });
  return errors;
}

}  // namespace

CaseReading read_case(std::string_view text, const std::string& file, const MaterialWords& materials) {
  return read_case(parse_case_text(text, file), file, materials);
}

CaseReading read_case(const CaseText& tree, const std::string& file, const MaterialWords& materials) {
  CaseReading reading;
  Reader reader{file, materials, {tree.errors.begin(), tree.errors.end()}, {}};
  if (tree.complete) {
    std::vector<Run> runs = read_runs(reader, tree.root);
    const bool schema_known =
        std::any_of(reader.errors.begin(), reader.errors.end(), [](const CaseError& e) { return e.key == "schema"; });
    if (runs[0].places.count("schema") == 0 && !schema_known)
      report(reader, {1, 1}, "schema", {"missing value", "schema = 1 at the top of the file", ""}, "");
    check_contradictions(reader, runs);
    for (Run& run : runs) check_run(reader, run);
    check_names(reader, runs);
    for (Run& run : runs) {
      record_origins(run);
      reading.runs.push_back(std::move(run.c));
    }
  }
  reading.errors = in_order({reader.errors.begin(), reader.errors.end()});
  reading.warnings = in_order({reader.warnings.begin(), reader.warnings.end()});
  if (!reading.errors.empty()) reading.runs.clear();
  return reading;
}

}  // namespace hoofload::scenarios
