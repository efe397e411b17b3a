#include "scenarios/page_record.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <thread>

#include "scenarios/result_table.hpp"
#include "scenarios/widening.hpp"

namespace hoofload::scenarios {

namespace {

std::size_t spare_cores() { return std::max(1, static_cast<int>(std::thread::hardware_concurrency()) - 1); }

void add_draws(const std::string& text, const CaseReading& reading, RunProgress progress,
               const std::function<void(const RunProgress&)>& report, Recorded& record) {
  const std::size_t before = progress.done;
  progress.what = "the draws";
  const auto told = [&](std::size_t draws) {
    progress.done = before + draws;
    report(progress);
  };
  told(0);
  record.study = solve_study(text, kPageCaseFile, reading.runs, spare_cores(), told);
  add_intervals(*record.study, record.results, record.comparison);
  add_widening(*record.study, record.results, record.comparison);
}

}  // namespace

Reply json_reply(const nlohmann::json& j, int status) {
  return {status, j.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace)};
}

std::function<void(const RunProgress&)> reporter(Workshop& shop, const std::string& client,
                                                 const std::function<void()>& wanted) {
  return [&shop, client, wanted](const RunProgress& p) {
    shop.board.set(client, p);
    wanted();
  };
}

Recorded solve_for_record(const Workshop& shop, const std::string& text, const CaseReading& reading,
                          const std::function<void(const RunProgress&)>& report) {
  Recorded record;
  RunProgress last;
  const auto draws = static_cast<std::size_t>(reading.runs.front().study.samples);
  const auto told = [&](RunProgress p) {
    p.of += draws;
    last = p;
    report(p);
  };
  record.results = solve_runs(reading.runs, shop.catalogue, told);
  record.comparison = compare(record.results);
  if (draws > 0) add_draws(text, reading, last, report, record);
  record.context = {kPageCaseFile, result_warnings(record.results, record.comparison, reading.warnings)};
  if (record.study)
    for (std::string& note : study_notes(*record.study, reading.runs.front().study.seed))
      record.context.warnings.push_back(std::move(note));
  return record;
}

}  // namespace hoofload::scenarios
