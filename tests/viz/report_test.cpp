// The report as a page: self-contained, whole, and its cautions always on it. HTML: WHATWG; alternative text: WCAG
// 2.2, 1.1.1.
#include "viz/report.hpp"

#include <gtest/gtest.h>

#include "viz/cautions.hpp"
#include "viz/svg.hpp"

namespace hoofload::viz {
namespace {

Report small() {
  return {"A & B",
          "two <feet>",
          "v1 \"x\" </style>",
          {{"Numbers", {ReportText{"a < b"}, ReportTable{"t", {"k", "v"}, {{"x", "1"}}}}, false},
           {"Sheet",
            {ReportList{{"one"}}, ReportFigure{"<?xml version=\"1.0\"?>\n<svg><title>foot</title></svg>", "fig"},
             ReportVerbatim{"a = \"b\"\n"}},
            true}},
          Paper::letter};
}

std::size_t count(const std::string& text, std::string_view part) {
  std::size_t n = 0;
  for (std::size_t at = 0; (at = text.find(part, at)) != std::string::npos; at += part.size()) ++n;
  return n;
}

TEST(HtmlReport, loads_nothing_and_runs_nothing) {
  const std::string html = html_report(small());
  for (const char* part : {"<script", "src=", "href=", "@import", "url(", "http:"})
    EXPECT_EQ(html.find(part), std::string::npos) << part;
}

TEST(HtmlReport, text_never_becomes_markup) {
  const std::string html = html_report(small());
  EXPECT_NE(html.find("<title>A &amp; B</title>"), std::string::npos);
  EXPECT_NE(html.find("two &lt;feet&gt;"), std::string::npos);
  EXPECT_NE(html.find("a &lt; b"), std::string::npos);
  EXPECT_EQ(count(html, "</style>"), 1U);
  EXPECT_EQ(html.find("<?xml"), std::string::npos);
}

// A case file or a lesson's table is read by its lines; what is not text in it is shown as such.
TEST(HtmlReport, lines_that_are_kept_stay_lines) {
  const std::string html = html_report(
      {"t", "", "", {{"s", {ReportVerbatim{"a = \"<b>\"\n  c\n\nlast \x01"}}, false}}, Paper::a4});
  EXPECT_NE(html.find("<pre>a = &quot;&lt;b&gt;&quot;\n  c\n\nlast \xEF\xBF\xBD\n</pre>"), std::string::npos)
      << html.substr(html.find("<pre>"), 80);
}

TEST(HtmlReport, cautions_stand_on_the_first_page_and_on_every_sheet) {
  const std::string caution(svg::escape(caution_text));
  EXPECT_EQ(count(html_report(small()), caution), 2U);
  EXPECT_EQ(count(html_report({"t", "", "", {}, Paper::a4}), caution), 1U);
}

TEST(HtmlReport, paper_is_the_one_asked_for) {
  EXPECT_NE(html_report(small()).find("@page { size: letter"), std::string::npos);
  EXPECT_NE(html_report({"t", "", "", {}, Paper::a4}).find("@page { size: A4"), std::string::npos);
}

TEST(HtmlReport, a_row_of_another_length_is_refused) {
  Report report = small();
  report.sections[0].blocks.push_back(ReportTable{"t", {"k", "v"}, {{"x"}}});
  EXPECT_THROW((void)html_report(report), std::invalid_argument);
}

}  // namespace
}  // namespace hoofload::viz
