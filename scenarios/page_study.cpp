// Intervals on the page: the draws of what is uncertain, in the shown phase alone.
#include <cmath>
#include <nlohmann/json.hpp>

#include "scenarios/interval_text.hpp"
#include "scenarios/page_record.hpp"
#include "viz/cautions.hpp"

namespace hoofload::scenarios {

namespace {

using nlohmann::json;

json number(double value) { return std::isfinite(value) ? json(value) : json(nullptr); }

json drawn_json(const Difference& d) {
  return {{"run", d.option},
          {"key", d.quantity->key},
          {"model", name_of(d.model)},
          {"baseline", number(d.baseline)},
          {"change", number(d.change)},
          {"mesh_bar", d.has_bar ? number(d.bar) : json(nullptr)},
          {"low", number(d.interval->low)},
          {"median", number(d.interval->median)},
          {"high", number(d.interval->high)},
          {"draws", d.interval->draws},
          {"p_better", d.p_better ? number(*d.p_better) : json(nullptr)},
          {"distinguishable", d.is_distinguishable},
          {"remark", interval_verdict(d)}};
}

}  // namespace

Reply study_reply(Workshop& shop, const PageRequest& request, const std::function<void()>& wanted) {
  const std::string text = page_case_text(request, {{request.phase}, 1, true, request.draws});
  const CaseReading reading = read_case(text, kPageCaseFile, shop.words);
  if (!reading.errors.empty()) return json_reply(problems_json(reading.errors), 422);
  const Recorded record = solve_for_record(shop, text, reading, reporter(shop, request.client + " study", wanted));
  json differences = json::array();
  for (const Difference& d : record.comparison.differences)
    if (d.interval && moves(d)) differences.push_back(drawn_json(d));
  return json_reply({{"phase", name_of(request.phase)},
                     {"draws", request.draws},
                     {"differences", differences},
                     {"notes", study_notes(*record.study, reading.runs.front().study.seed)},
                     {"caution", viz::caution_text}});
}

}  // namespace hoofload::scenarios
