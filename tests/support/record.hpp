// Rows of docs/validation.md, recorded where they are asserted: a test says what it claims, after whom and on which mesh, and adds
// value by value. They go into the test's XML output; tests/validation/page.py makes the page of them. Values with the same claim
// in one test (in all its parameters) become one row.
#pragma once

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>

namespace hoofload::tests {

/// `source`: author, year, equation, or "common practice, no source". `goal`: largest error asked for [%, or in the unit of the
/// value], none if negative; beyond it the page counts a miss, whatever the test allows.
struct Claim {
  std::string claim, source, mesh;
  double goal = -1;
};

inline void record_row(const Claim& claim, const std::string& of, nlohmann::json value) {
  value["claim"] = claim.claim;
  value["source"] = claim.source;
  value["mesh"] = claim.mesh;
  value["of"] = of;
  if (claim.goal >= 0) value["goal"] = claim.goal;
  const auto* test = ::testing::UnitTest::GetInstance()->current_test_info();
  ::testing::Test::RecordProperty("row" + std::to_string(test->result()->test_property_count()), value.dump());
}

/// A value against its reference; the error is relative, in percent. `of`: which case.
inline void record(const Claim& claim, const std::string& of, double reference, double ours) {
  record_row(claim, of, {{"kind", "value"}, {"reference", reference}, {"ours", ours}});
}

/// The same, the error being a difference in the value's own unit (an order of convergence, a share in points).
inline void record_difference(const Claim& claim, const std::string& of, double reference, double ours,
                              const std::string& unit = "") {
  record_row(claim, of, {{"kind", "difference"}, {"reference", reference}, {"ours", ours}, {"unit", unit}});
}

/// What is exact but for round-off, with the bound that the test holds it to.
inline void record_exact(const Claim& claim, const std::string& of, double worst, double bound) {
  record_row(claim, of, {{"kind", "exact"}, {"worst", worst}, {"bound", bound}});
}

/// Largest deviation of a field from its reference, in percent of `unit` ("p0").
inline void record_field(const Claim& claim, const std::string& of, double percent, const std::string& unit) {
  record_row(claim, of, {{"kind", "field"}, {"worst", percent}, {"unit", unit}});
}

/// A claim in words: what was expected, what came out.
inline void record_finding(const Claim& claim, const std::string& of, const std::string& expected,
                           const std::string& found, bool missed = false) {
  record_row(claim, of, {{"kind", "finding"}, {"reference", expected}, {"ours", found}, {"missed", missed}});
}

/// printf into a string, for `of` and findings.
template <class... Args>
[[nodiscard]] std::string text(const char* format, Args... args) {
  std::string out(256, '\0');
  out.resize(static_cast<std::size_t>(std::snprintf(out.data(), out.size(), format, args...)));
  return out;
}

}  // namespace hoofload::tests
