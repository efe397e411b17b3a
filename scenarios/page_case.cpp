#include "scenarios/page_case.hpp"

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "scenarios/case_keys.hpp"
#include "scenarios/case_words.hpp"
#include "scenarios/comparison.hpp"
#include "scenarios/units.hpp"

namespace hoofload::scenarios {

namespace {

using nlohmann::json;

constexpr std::size_t kLongestText = 200;
constexpr std::size_t kMostSettings = 120;
constexpr int kDeepest = 8;
constexpr std::array<std::string_view, 4> kOwn = {"schema", "title", "name", "load.phases"};
constexpr std::array<std::string_view, 5> kWanted = {"case", "csv", "json", "report", "picture"};

/// Why a request cannot be read; it ends as PageReading::problem.
struct Unreadable : std::runtime_error {
  using std::runtime_error::runtime_error;
};

const json& member(const json& object, const char* name, json::value_t type, const std::string& place) {
  static const json none;
  const auto it = object.find(name);
  if (it == object.end()) return none;
  if (it->type() != type) throw Unreadable(place + name + ": expected " + json(type).dump());
  return *it;
}

std::string text_of(const json& value, const std::string& place) {
  if (!value.is_string()) throw Unreadable(place + ": expected a text");
  const auto& text = value.get_ref<const std::string&>();
  if (text.size() > kLongestText) throw Unreadable(place + ": longer than " + std::to_string(kLongestText) + " bytes");
  return text;
}

std::string text_at(const json& object, const char* name, const std::string& otherwise) {
  const auto it = object.find(name);
  return it == object.end() ? otherwise : text_of(*it, name);
}

std::string toml_of(const json& value, const std::string& place) {
  if (value.is_boolean()) return value.get<bool>() ? "true" : "false";
  if (value.is_number_integer() || value.is_number_unsigned()) return value.dump();
  if (value.is_number()) return number_text(value.get<double>());
  return toml_string(text_of(value, place));
}

/// study.* decides how long a solve takes and load.curve may name a file: neither is a page's to set.
void check_key(const std::string& key, const std::string& place) {
  const Key* known = find_key(key);
  if (known == nullptr) throw Unreadable(place + ": unknown key " + json(key).dump(-1, ' ', true));
  const bool own = std::find(kOwn.begin(), kOwn.end(), known->name) != kOwn.end();
  if (own || known->name == "load.curve" || known->name.substr(0, 6) == "study.")
    throw Unreadable(place + ": " + key + " is not the page's to set");
}

std::vector<Setting> settings_of(const json& object, const std::string& place) {
  std::vector<Setting> settings;
  if (object.is_null()) return settings;
  if (object.size() > kMostSettings) throw Unreadable(place + ": too many settings");
  for (const auto& [key, value] : object.items()) {
    check_key(key, place);
    settings.emplace_back(key, toml_of(value, place + "." + key));
  }
  return settings;
}

Phase phase_of(const std::string& word) {
  for (std::size_t k = 0; k < words::kPhase.size(); ++k)
    if (words::kPhase[k] == word) return static_cast<Phase>(k);
  throw Unreadable("phase: unknown word");
}

std::vector<LessonRun> runs_of(const json& list) {
  if (!list.is_array() || list.empty()) throw Unreadable("runs: expected a list of at least one run");
  if (list.size() > kMostPageRuns) throw Unreadable("runs: at most " + std::to_string(kMostPageRuns));
  std::vector<LessonRun> runs;
  for (const json& run : list) {
    const std::string place = "runs[" + std::to_string(runs.size()) + "]";
    if (!run.is_object()) throw Unreadable(place + ": expected an object");
    runs.push_back({text_at(run, "name", "run " + std::to_string(runs.size() + 1)),
                    settings_of(member(run, "settings", json::value_t::object, place + "."), place)});
  }
  return runs;
}

int draws_of(const json& body) {
  const auto it = body.find("draws");
  if (it == body.end() || *it == 0) return 0;
  if (!it->is_number_unsigned() || *it < kFewestPageDraws || *it > kMostPageDraws)
    throw Unreadable("draws: expected 0 or a whole number from " + std::to_string(kFewestPageDraws) + " to " +
                     std::to_string(kMostPageDraws));
  return it->get<int>();
}

PageRequest request_of(const json& body) {
  if (!body.is_object()) throw Unreadable("expected an object");
  PageRequest request;
  request.client = text_at(body, "client", request.client);
  if (const auto it = body.find("number"); it != body.end()) {
    if (!it->is_number_integer()) throw Unreadable("number: expected a whole number");
    request.number = it->get<std::int64_t>();
  }
  request.title = text_at(body, "title", "");
  request.phase = phase_of(text_at(body, "phase", "standing"));
  if (request.phase == Phase::press) throw Unreadable("phase: press is not on the page");
  request.wanted = text_at(body, "wanted", "");
  if (!request.wanted.empty() && std::find(kWanted.begin(), kWanted.end(), request.wanted) == kWanted.end())
    throw Unreadable("wanted: unknown word");
  request.model = text_at(body, "model", "sagittal") == "sagittal" ? ModelKind::sagittal : ModelKind::axisymmetric;
  request.common = settings_of(member(body, "common", json::value_t::object, ""), "common");
  request.runs = runs_of(body.contains("runs") ? body.at("runs") : json());
  if (const auto it = body.find("run"); it != body.end()) {
    if (!it->is_number_unsigned() || it->get<std::size_t>() >= request.runs.size())
      throw Unreadable("run: expected the number of a run");
    request.run = it->get<std::size_t>();
  }
  request.draws = draws_of(body);
  if (const auto it = body.find("moving"); it != body.end()) {
    if (!it->is_boolean()) throw Unreadable("moving: expected true or false");
    request.moving = it->get<bool>();
  }
  return request;
}

std::string line(const std::string& key, const std::string& value) { return key + " = " + value + "\n"; }

std::string lines(const std::vector<Setting>& settings) {
  std::string text;
  for (const auto& [key, value] : settings) text += line(key, value);
  return text;
}

}  // namespace

PageReading read_page_request(std::string_view body) {
  try {
    if (body.size() > kMostPageBytes) return {{}, "the request is too long"};
    // Nesting is bounded before anything is built: the parser's own stack is not.
    const auto shallow = [](int depth, json::parse_event_t, json&) {
      if (depth > kDeepest) throw Unreadable("nested too deeply");
      return true;
    };
    return {request_of(json::parse(body, shallow)), ""};
  } catch (const Unreadable& e) {
    return {{}, e.what()};
  } catch (const json::exception&) {
    return {{}, "not JSON"};
  }
}

std::vector<Phase> record_phases() { return {Phase::swing, Phase::standing, Phase::midstance, Phase::breakover}; }

std::string page_case_text(const PageRequest& request, const PageStudy& study) {
  std::string phases;
  for (const Phase phase : study.phases) phases += (phases.empty() ? "" : ", ") + toml_string(name_of(phase));
  std::string text = line("schema", "1") +
                     line("title", toml_string(request.title.empty() ? "Comparison from the page" : request.title)) +
                     line("name", toml_string(request.runs.front().name)) + line("load.phases", "[" + phases + "]") +
                     line("study.density", number_text(study.density)) +
                     line("study.bars", study.bars ? "true" : "false") +
                     (study.draws > 0 ? line("study.samples", std::to_string(study.draws)) : "") +
                     lines(request.common) + lines(request.runs.front().settings);
  for (std::size_t k = 1; k < request.runs.size(); ++k)
    text += "\n[[option]]\n" + line("name", toml_string(request.runs[k].name)) + lines(request.runs[k].settings);
  return text;
}

}  // namespace hoofload::scenarios
