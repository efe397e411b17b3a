#include "scenarios/page_report.hpp"

namespace hoofload::scenarios {

std::string page_report(const std::vector<RunResult>&, const Comparison&, const ResultContext&) { return ""; }

}  // namespace hoofload::scenarios
