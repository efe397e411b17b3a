#include "scenarios/page_work.hpp"

#include <nlohmann/json.hpp>

#include "scenarios/drawings.hpp"
#include "scenarios/page_lesson.hpp"
#include "scenarios/page_record.hpp"
#include "scenarios/report.hpp"
#include "scenarios/result_csv.hpp"
#include "scenarios/result_json.hpp"
#include "scenarios/result_table.hpp"

namespace hoofload::scenarios {

namespace {

/// The shown phase of one run, on the default mesh and from the unloaded foot.
Reply picture_reply(Workshop& shop, const PageRequest& request, const std::function<void()>& wanted) {
  const CaseReading reading =
      read_case(page_case_text(request, {{request.phase}, 1, false}), kPageCaseFile, shop.words);
  if (!reading.errors.empty()) return json_reply(problems_json(reading.errors), 422);
  const auto results = solve_runs(reading.runs, shop.catalogue, reporter(shop, request.client + " export", wanted));
  if (request.model == ModelKind::sagittal) {
    for (const SideDrawing& d : side_drawings(results, request.phase))
      if (d.drawn.run == request.run) return {200, viz::side_view_figure(d.view), "image/svg+xml"};
  } else {
    for (const RingDrawing& d : ring_drawings(results, request.phase))
      if (d.drawn.run == request.run) return {200, viz::axisymmetric_figure(d.view), "image/svg+xml"};
  }
  return {422, R"({"problem":"this run was not solved in that phase and model"})"};
}

Reply answer_as(const PageRequest& request, const Recorded& record) {
  const auto& [results, comparison, context, study] = record;
  if (request.wanted == "csv") return {200, result_csv(results, comparison, context.warnings), "text/csv"};
  if (request.wanted == "json") return {200, result_json(results, comparison, context).dump(1), "application/json"};
  return {200, viz::html_report(comparison_report(results, comparison, context, {.date = today()})), "text/html"};
}

}  // namespace

void ProgressBoard::set(const std::string& client, const RunProgress& progress) {
  const std::lock_guard lock(mutex_);
  if (of_.size() > 256) of_.clear();
  of_[client] = progress;
}

RunProgress ProgressBoard::of(const std::string& client) const {
  const std::lock_guard lock(mutex_);
  const auto it = of_.find(client);
  return it == of_.end() ? RunProgress{} : it->second;
}

Reply solve_reply(Workshop& shop, const PageRequest& request, const std::function<void()>& wanted) {
  const std::string text = page_case_text(request, {{request.phase}, kPageDensity, false});
  const CaseReading reading = read_case(text, kPageCaseFile, shop.words);
  if (!reading.errors.empty()) return json_reply(problems_json(reading.errors), 422);
  const PageResult result =
      solve_for_page(reading.runs, shop.catalogue, shop.shelf, reporter(shop, request.client, wanted), request.moving);
  return json_reply(answer_json(request, result, reading.warnings));
}

Reply export_reply(Workshop& shop, const PageRequest& request, const std::function<void()>& wanted) {
  if (request.wanted == "picture") return picture_reply(shop, request, wanted);
  const std::string text = page_case_text(request, {record_phases(), 1, true, request.draws});
  const CaseReading reading = read_case(text, kPageCaseFile, shop.words);
  if (!reading.errors.empty()) return json_reply(problems_json(reading.errors), 422);
  if (request.wanted == "case") return {200, text, "application/toml"};
  return answer_as(request, solve_for_record(shop, text, reading, reporter(shop, request.client + " export", wanted)));
}

Reply lesson_reply(Workshop& shop, const std::string& client, std::size_t question,
                   const std::function<void()>& wanted) {
  const CaseReading reading = lesson_question_runs(question, shop.words);
  if (reading.runs.size() != 2) return {404, R"({"problem":"no such question"})"};
  const auto results = solve_runs(reading.runs, shop.catalogue, reporter(shop, client + " lesson", wanted));
  return json_reply(lesson_answer_json(question, results));
}

}  // namespace hoofload::scenarios
