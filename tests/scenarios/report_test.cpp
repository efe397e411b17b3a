// The report of a solved comparison carries what a reader needs to judge it (Erdemir 2012, groups of reporting items)
// and what
// the two sheets need; the PDF comes from a renderer or there is one clear error.
#include "scenarios/report.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "scenarios/pdf.hpp"
#include "scenarios/result_csv.hpp"
#include "scenarios/result_files.hpp"
#include "tests/scenarios/solved_fixture.hpp"
#include "viz/text.hpp"

namespace hoofload::scenarios {
namespace {

namespace fs = std::filesystem;

const viz::Report& small_report() {
  static const viz::Report report =
      comparison_report(small_results(), compare(small_results()), {"small.toml", {"a warning"}}, {});
  return report;
}

const std::string& small_html() {
  static const std::string html = viz::html_report(small_report());
  return html;
}

TEST(ReportContent, has_every_group_of_reporting_items) {
  for (const char* title : {"What was compared", "What came out", "What got worse, and what got better", "Pictures",
                            "Job sheet", "For the owner", "Context of use", "Geometry", "Meshes", "Materials",
                            "Contacts, ties, nails, loads", "Solver and equilibrium", "Verification and validation",
                            "Bars and intervals", "Limits", "Provenance: how to repeat it"}) {
    const bool found = std::any_of(small_report().sections.begin(), small_report().sections.end(),
                                   [&](const auto& s) { return s.title.rfind(title, 0) == 0 && !s.blocks.empty(); });
    EXPECT_TRUE(found) << title;
  }
  EXPECT_NE(small_html().find("a warning"), std::string::npos);
}

TEST(ReportContent, its_numbers_are_the_solvers) {
  const PhaseResult* p = find_phase(small_results()[1], ModelKind::axisymmetric, Phase::swing);
  ASSERT_NE(p, nullptr);
  EXPECT_NE(small_html().find(viz::number_text(p->values.at("swing_sole_pressure").value)), std::string::npos);
}

// The person at the hoof reads words; who writes the case file finds its key beside them.
TEST(ReportContent, what_an_option_sets_is_said_in_words_with_the_key_beside) {
  const auto& table = std::get<viz::ReportTable>(small_report().sections.front().blocks.front());
  EXPECT_NE(table.rows.at(1).at(1).find("proud of the void by 1 mm"), std::string::npos) << table.rows.at(1).at(1);
  EXPECT_NE(table.rows.at(1).at(1).find("[packing.proud]"), std::string::npos) << table.rows.at(1).at(1);
  EXPECT_EQ(table.rows.at(1).at(1).find("packing.proud ="), std::string::npos) << table.rows.at(1).at(1);
}

TEST(ReportContent, materials_come_with_range_grade_and_source) {
  const auto section = std::find_if(small_report().sections.begin(), small_report().sections.end(),
                                    [](const auto& s) { return s.title == "Materials"; });
  const auto& table = std::get<viz::ReportTable>(section->blocks.front());
  const auto has = [&](const char* id) {
    return std::any_of(table.rows.begin(), table.rows.end(), [&](const auto& r) { return r[0] == id; });
  };
  EXPECT_TRUE(has("mild steel"));
  EXPECT_TRUE(has("silicone A30"));
  EXPECT_FALSE(has("turf"));  // not in this case
  for (const auto& row : table.rows) EXPECT_FALSE(row.back().empty()) << row[0] << " " << row[2];
}

Comparison with_intervals(double low, double high) {
  Comparison comparison = compare(small_results());
  for (Difference& d : comparison.differences)
    if (d.quantity->key == "swing_sole_pressure") {
      d.interval = Interval{low, (low + high) / 2, high, 50};
      d.p_better = 0.06;
      if (low <= 0 && high >= 0) d.is_distinguishable = false;
    }
  return comparison;
}

// The mesh's error and the spread of the inputs are two things, each under its own name (ASME V&V 10-2019 keeps numerical and
// input uncertainty apart; from memory).
TEST(ReportContent, intervals_stand_beside_the_mesh_bars_each_in_its_own_column) {
  const auto sections = interval_sections(small_results(), with_intervals(11.25, 93.75));
  ASSERT_EQ(sections.size(), 1U);
  const auto& table = std::get<viz::ReportTable>(sections[0].blocks.at(1));
  const auto column = [&](const std::string& name) {
    return static_cast<std::size_t>(std::find(table.head.begin(), table.head.end(), name) - table.head.begin());
  };
  const std::vector<Difference> all = compare(small_results()).differences;
  const Difference& d = *std::find_if(all.begin(), all.end(),
                                      [](const Difference& x) { return x.quantity->key == "swing_sole_pressure"; });
  const auto& row = table.rows.at(0);
  EXPECT_EQ(row.at(column("5 %")), viz::signed_text(11.25));
  EXPECT_EQ(row.at(column("half")), viz::signed_text(52.5));
  EXPECT_EQ(row.at(column("95 %")), viz::signed_text(93.75));
  EXPECT_EQ(row.at(column("P(better)")), "6 %");
  EXPECT_EQ(row.at(column("mesh bar")), viz::number_text(d.bar, 2));
  EXPECT_EQ(row.at(column("change")), viz::signed_text(d.change));
  const std::string html =
      viz::html_report(comparison_report(small_results(), with_intervals(-11.25, 93.75), {"small.toml", {}}, {}));
  EXPECT_NE(html.find("How sure the changes are"), std::string::npos);
  EXPECT_NE(html.find("not distinguishable: the interval holds zero"), std::string::npos);
}

TEST(ReportContent, without_draws_no_interval_is_claimed) {
  EXPECT_TRUE(interval_sections(small_results(), compare(small_results())).empty());
  EXPECT_EQ(small_html().find("How sure the changes are"), std::string::npos);
  EXPECT_NE(small_html().find("no interval says how much"), std::string::npos);
}

// 1/8 in is 3.175 mm, to a hundredth 3.18, and two sixteenths: arithmetic.
TEST(ReportContent, the_job_sheet_gives_setback_in_mm_and_sixteenths_and_the_order_of_work) {
  const CaseReading reading = read(
      "schema = 1\n[[option]]\nname = \"b\"\nshoe = { type = \"full plate\", material = \"polyurethane A90\", setback "
      "= \"1/8 in\" }\n"
      "packing = { region = \"full sole\", material = \"silicone A30\", order = \"before nailing\", proud = \"1 mm\" "
      "}\n");
  ASSERT_TRUE(reading.errors.empty());
  const viz::ReportSection sheet = job_sheet({{reading.runs[0], {}}, {reading.runs[1], {}}});
  EXPECT_TRUE(sheet.own_page);
  const auto& row = std::get<viz::ReportTable>(sheet.blocks.at(1)).rows.at(1);
  EXPECT_EQ(row[2], "3.18 mm, 2/16 in");
  EXPECT_NE(row[5].find("6, first 35 mm"), std::string::npos) << row[5];
  EXPECT_NE(row[6].find("full sole, silicone A30, before nailing, proud 1 mm"), std::string::npos) << row[6];
}

// Common practice, no source: a lay reader's page has no terms of art.
TEST(ReportContent, the_owners_sheet_speaks_of_parts_of_the_foot_each_once) {
  const viz::ReportSection sheet = owner_sheet(small_results(), compare(small_results()));
  const auto& row = std::get<viz::ReportTable>(sheet.blocks.at(1)).rows.at(0);
  EXPECT_NE(row[1].find("the sole (in the air)"), std::string::npos) << row[1];  // packed before nailing
  for (const char* term : {"corium", "lamella", "energy", "peak", "share", "swing"})
    EXPECT_EQ((row[1] + row[2]).find(term), std::string::npos) << term << ": " << row[1] << " | " << row[2];
  EXPECT_EQ(row[1].find("the sole", row[1].find("the sole") + 1), std::string::npos) << row[1];
}

TEST(ReportContent, a_letter_sheet_is_on_letter_paper) {
  const auto report =
      comparison_report(small_results(), compare(small_results()), {"x", {}}, {.paper = viz::Paper::letter});
  EXPECT_EQ(report.paper, viz::Paper::letter);
}

TEST(Pdf, without_a_renderer_there_is_one_clear_error) {
  const fs::path folder = fs::path(testing::TempDir()) / "pdf-empty";
  fs::create_directories(folder);
  const std::string path = std::getenv("PATH");
  setenv("PATH", folder.c_str(), 1);
  std::string told;
  try {
    write_pdf("a.html", folder / "a.pdf");
  } catch (const std::runtime_error& e) {
    told = e.what();
  }
  setenv("PATH", path.c_str(), 1);
  EXPECT_NE(told.find("no renderer for PDF is installed"), std::string::npos) << told;
  EXPECT_NE(told.find("chromium"), std::string::npos);
}

TEST(Pdf, a_renderer_that_fails_is_an_error_and_no_shell_reads_the_name) {
  const fs::path folder = fs::path(testing::TempDir()) / "pdf-fails";
  fs::create_directories(folder);
  write_file(folder / "chromium", "#!/bin/sh\nexit 3\n");
  fs::permissions(folder / "chromium", fs::perms::owner_all);
  const std::string path = std::getenv("PATH");
  setenv("PATH", folder.c_str(), 1);
  EXPECT_THROW(write_pdf("a; touch broken.html", folder / "a.pdf"), std::runtime_error);
  setenv("PATH", path.c_str(), 1);
  EXPECT_FALSE(fs::exists("broken.html"));
}

// RFC 4180; a cell that begins with "=" would be run by a spreadsheet.
TEST(Csv, has_one_row_a_reading_and_no_formula) {
  std::vector<RunResult> results = small_results();
  results[1].run.name = "=1+1, \"x\"";
  const std::string csv = result_csv(results, compare(results), {"w\nx"});
  std::size_t rows = 0, readings = 0;
  std::istringstream lines(csv);
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind('#', 0) == 0) continue;
    ++rows;
    EXPECT_NE(line[0], '=');
  }
  for (const RunResult& run : results)
    for (const ModelResult& model : run.models)
      for (const PhaseResult& phase : model.phases) readings += phase.values.size();
  EXPECT_EQ(rows, readings + 1);
  EXPECT_NE(csv.find("\"'=1+1, \"\"x\"\"\",swing,axisymmetric,"), std::string::npos);
  EXPECT_NE(csv.find("attending veterinarian"), std::string::npos);
}

}  // namespace
}  // namespace hoofload::scenarios
