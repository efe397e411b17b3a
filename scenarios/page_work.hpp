// What is done for a page's request once it has been let in: solve for a slider, solve for the record, answer a lesson.
#pragma once

#include <map>
#include <mutex>
#include <string>

#include "materials/catalogue.hpp"
#include "scenarios/page_answer.hpp"
#include "scenarios/page_queue.hpp"

namespace hoofload::scenarios {

/// How far the work for each page has come; read by other threads than the one that works.
class ProgressBoard {
 public:
  void set(const std::string& client, const RunProgress& progress);
  [[nodiscard]] RunProgress of(const std::string& client) const;

 private:
  mutable std::mutex mutex_;
  std::map<std::string, RunProgress> of_;
};

struct Workshop {
  materials::Catalogue catalogue;
  MaterialWords words;
  std::string demo_text;  ///< of scenarios/cases/demo.toml
  Shelf shelf;            ///< the queue's worker's
  ProgressBoard board;
};

/// Coarse, without bars, the shown phase alone, from kept solutions; 422 with the problems of a case that cannot be.
[[nodiscard]] Reply solve_reply(Workshop& shop, const PageRequest& request, const std::function<void()>& wanted);

/// For the record: the default mesh with bars, all phases, cold. `request.wanted` says as what.
[[nodiscard]] Reply export_reply(Workshop& shop, const PageRequest& request, const std::function<void()>& wanted);

/// The draws of what is uncertain in the shown phase: for each difference the change on the default mesh with its mesh bar,
/// and apart from it 5, 50 and 95 % of the paired changes and P(better).
[[nodiscard]] Reply study_reply(Workshop& shop, const PageRequest& request, const std::function<void()>& wanted);

/// The stance of all runs as pictures, place by place from 5 to 95 %, all with one scale; where one ends early, why.
[[nodiscard]] Reply stance_reply(Workshop& shop, const PageRequest& request, const std::function<void()>& wanted);

/// Solves the two runs of a question, with bars, and says what came out.
[[nodiscard]] Reply lesson_reply(Workshop& shop, const std::string& client, std::size_t question,
                                 const std::function<void()>& wanted);

}  // namespace hoofload::scenarios
