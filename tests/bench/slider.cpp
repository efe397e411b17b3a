// What a move of a slider costs, part by part: the case's text, the models, their warm solves, the answer.
//
//   build/tests/bench_slider [REPEATS]
//
// For each move the smallest of several repeats, each from an empty shelf that holds the state before the move alone, in ms.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <nlohmann/json.hpp>

#include "scenarios/page_answer.hpp"
#include "scenarios/warm_start.hpp"

namespace {

using namespace hoofload::scenarios;
using Clock = std::chrono::steady_clock;

double since(Clock::time_point start) { return 1000 * std::chrono::duration<double>(Clock::now() - start).count(); }

struct Move {
  const char* name;
  Phase phase;
  std::vector<Setting> common, before, after;  ///< before, after: of the option
};

PageRequest request_of(const Move& move, const std::vector<Setting>& option, bool is_common) {
  PageRequest request;
  request.phase = move.phase;
  request.common = {{"horse.mass", "\"520 kg\""},
                    {"foot.sole_depth_tip", "\"11 mm\""},
                    {"foot.toe_angle", "\"48 deg\""},
                    {"foot.palmar_angle", "\"2 deg\""},
                    {"load.gait", "\"walk\""}};
  if (is_common) request.common.insert(request.common.end(), move.common.begin(), move.common.end());
  request.runs = {{"open steel shoe", {}}, {"option", option}};
  return request;
}

struct Times {
  double read = 1e9, solve = 1e9, answer = 1e9, all = 1e9, warm = 0;
  std::size_t solved = 0, bytes = 0;
  std::string warm_runs;
};

/// The solver's own part: the option's models from their state before the move, both built before the clock starts.
double warm_time(const PageResult& before, const PageResult& page, const hoofload::materials::Catalogue& catalogue) {
  double sum = 0;
  const RunResult& option = page.runs.back();
  for (const ModelResult& anchor : before.runs.back().models) {
    if (anchor.phases.empty() || !anchor.phases.front().solved) continue;
    ModelResult built = build_run(option.run, anchor.kind, catalogue, option.run.study.density);
    TendonSlack slack;
    for (const ModelResult& m : option.models)
      if (m.kind == anchor.kind && !m.phases.empty() && m.phases.front().solution.loading.cable)
        slack.length.emplace_back(m.phases.front().phase, m.phases.front().solution.loading.cable->slack_length);
    const auto start = Clock::now();
    TendonSlack used = slack;
    const auto solved = solve_warm(*anchor.built, anchor.phases.front().solution, *built.built, option.run, used);
    if (solved) sum += since(start);
  }
  return sum;
}

Times timed(const Move& move, const hoofload::materials::Catalogue& catalogue, const MaterialWords& words) {
  Times t;
  Shelf shelf;
  PageResult last;
  const auto solve = [&](const PageRequest& request, bool is_timed) {
    const auto start = Clock::now();
    const CaseReading reading = read_case(page_case_text(request, {{request.phase}, kPageDensity, false}), "b", words);
    if (!reading.errors.empty()) std::abort();
    const double read = since(start);
    const auto second = Clock::now();
    const PageResult page = solve_for_page(reading.runs, catalogue, shelf, {}, is_timed);
    const double solved = since(second);
    const auto third = Clock::now();
    const std::string text = answer_json(request, page, reading.warnings).dump();
    if (!is_timed) {
      last = page;
      return;
    }
    t.answer = since(third), t.read = read, t.solve = solved, t.all = since(start), t.bytes = text.size();
    t.solved = page.solved;
    for (const auto& [kind, is_warm] : page.warm.back()) t.warm_runs += is_warm ? 'w' : 'c';
    t.warm = warm_time(last, page, catalogue);
  };
  solve(request_of(move, move.before, false), false);
  solve(request_of(move, move.after, true), true);
  return t;
}

}  // namespace

int main(int argc, char** argv) {
  const int repeats = argc > 1 ? std::atoi(argv[1]) : 5;
  const auto catalogue = hoofload::materials::load_catalogue();
  const MaterialWords words = material_words(catalogue);
  const std::vector<Setting> packed{{"shoe.type", "\"full plate\""},         {"shoe.material", "\"polyurethane A90\""},
                                    {"packing.region", "\"full sole\""},     {"packing.material", "\"silicone A30\""},
                                    {"packing.order", "\"before nailing\""}, {"packing.proud", "\"1 mm\""}};
  const auto with = [](std::vector<Setting> list, const char* key, const char* value) {
    std::erase_if(list, [&](const Setting& s) { return s.first == key; });
    list.emplace_back(key, value);
    return list;
  };
  const std::vector<Setting> set_back{{"shoe.setback", "\"1.5875 mm\""}}, further{{"shoe.setback", "\"3.175 mm\""}};
  const std::vector<Move> moves{
      {"setback, swing", Phase::swing, {}, set_back, further},
      {"setback, standing", Phase::standing, {}, set_back, further},
      {"setback, mid-stance", Phase::midstance, {}, set_back, further},
      {"setback, breakover", Phase::breakover, {}, set_back, further},
      {"setback, other columns",
       Phase::standing,
       {},
       {{"shoe.setback", "\"4.7625 mm\""}},
       {{"shoe.setback", "\"6.35 mm\""}}},
      {"elevation, standing",
       Phase::standing,
       {},
       {{"shoe.elevation", "\"3 deg\""}},
       {{"shoe.elevation", "\"3.5 deg\""}}},
      {"elevation, breakover",
       Phase::breakover,
       {},
       {{"shoe.elevation", "\"3 deg\""}},
       {{"shoe.elevation", "\"3.5 deg\""}}},
      {"proud, swing", Phase::swing, {}, packed, with(packed, "packing.proud", "\"1.25 mm\"")},
      {"proud, standing", Phase::standing, {}, packed, with(packed, "packing.proud", "\"1.25 mm\"")},
      {"hardness, standing", Phase::standing, {}, packed, with(packed, "packing.hardness", "\"40 ShoreA\"")},
      {"sole depth, standing", Phase::standing, {{"foot.sole_cup", "\"8.5 mm\""}}, set_back, set_back},
      {"place in the stance", Phase::midstance, {{"load.midstance_at", "\"52.5 %\""}}, set_back, set_back}};
  std::printf("%-24s%8s%8s%8s%8s%10s%8s%8s%8s\n", "move", "read", "solve", "answer", "all", "warm alone", "solved",
              "warm?", "kB");
  for (const Move& move : moves) {
    Times best;
    for (int k = 0; k < repeats; ++k)
      if (Times t = timed(move, catalogue, words); t.all < best.all) best = t;
    std::printf("%-24s%8.1f%8.1f%8.1f%8.1f%10.1f%8zu%8s%8zu\n", move.name, best.read, best.solve, best.answer, best.all,
                best.warm, best.solved, best.warm_runs.c_str(), best.bytes / 1000);
  }
}
