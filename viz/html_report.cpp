#include <algorithm>
#include <stdexcept>

#include "viz/cautions.hpp"
#include "viz/report.hpp"
#include "viz/svg.hpp"

namespace hoofload::viz {

namespace {

using svg::escape;

constexpr std::string_view kStyle = R"css(
body { font: 10.5pt/1.4 "DejaVu Sans", "Helvetica Neue", Arial, sans-serif; color: #111; background: #fff; margin: 2em auto; max-width: 60em; padding: 0 1em; }
h1 { font-size: 17pt; margin: 0 0 .1em; }
h2 { font-size: 13pt; margin: 1.5em 0 .4em; border-bottom: 1.5pt solid #111; break-after: avoid; }
p { margin: .4em 0; }
.subtitle { margin: 0 0 .8em; }
.caution { border: 1.5pt solid #111; padding: .5em .8em; margin: .8em 0; break-inside: avoid; }
.caution.small { font-size: 8.5pt; border-width: .75pt; }
table { border-collapse: collapse; margin: .5em 0 1em; width: 100%; }
caption { text-align: left; font-style: italic; padding: .2em 0; break-after: avoid; }
th, td { text-align: left; vertical-align: top; padding: 1.5pt 6pt 1.5pt 0; border-bottom: .5pt solid #777; font-size: 9pt; overflow-wrap: break-word; }
thead th { border-bottom: 1.2pt solid #111; }
thead { display: table-header-group; }
tr, figure { break-inside: avoid; }
figure { margin: .6em 0 1em; }
figure svg { width: 100%; height: auto; max-height: 112mm; }
figcaption { font-style: italic; font-size: 9pt; }
pre { font-size: 8pt; white-space: pre-wrap; overflow-wrap: anywhere; border-left: 2pt solid #777; padding-left: .8em; }
footer { margin-top: 2em; border-top: .75pt solid #111; font-size: 8.5pt; }
.wide { overflow-x: auto; }
@media print {
  body { margin: 0; max-width: none; padding: 0; }
  .own-page { break-before: page; break-after: page; }
  .wide { overflow: visible; }
}
)css";

/// A text inside a CSS string: nothing in it may end the string or the style element.
std::string css_string(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    if (c == '<' || c == '\n' || c == '\r') continue;
    out += c;
  }
  return out + "\"";
}

std::string page_rules(const Report& report) {
  const char* size = report.paper == Paper::a4 ? "A4" : "letter";
  return std::string("@page { size: ") + size +
         "; margin: 16mm 15mm 20mm; @bottom-left { font: 7.5pt \"DejaVu Sans\", sans-serif; content: " +
         css_string(report.footer) +
         "; } @bottom-right { font: 7.5pt \"DejaVu Sans\", sans-serif; content: \"page \" counter(page) \" of \" "
         "counter(pages); } }\n";
}

std::string cells(const std::vector<std::string>& row, const char* first, const char* other) {
  std::string out;
  for (std::size_t k = 0; k < row.size(); ++k) {
    const std::string tag = k == 0 ? first : other;
    const std::string name = tag.substr(0, tag.find(' '));
    out += "<" + tag + ">" + escape(row[k]) + "</" + name + ">";
  }
  return out;
}

struct BlockHtml {
  std::string operator()(const ReportText& b) const { return "<p>" + escape(b.text) + "</p>\n"; }

  std::string operator()(const ReportList& b) const {
    std::string out = "<ul>\n";
    for (const auto& item : b.items) out += "<li>" + escape(item) + "</li>\n";
    return out + "</ul>\n";
  }

  std::string operator()(const ReportTable& b) const {
    std::string out = "<div class=\"wide\" tabindex=\"0\"><table>\n<caption>" + escape(b.caption) +
                      "</caption>\n<thead><tr>" + cells(b.head, "th scope=\"col\"", "th scope=\"col\"") +
                      "</tr></thead>\n<tbody>\n";
    for (const auto& row : b.rows) {
      if (row.size() != b.head.size()) throw std::invalid_argument("a report's table has a row of another length");
      out += "<tr>" + cells(row, "th scope=\"row\"", "td") + "</tr>\n";
    }
    return out + "</tbody></table></div>\n";
  }

  std::string operator()(const ReportFigure& b) const {
    const std::size_t begin = b.svg.find("<svg");  // a file's declaration has no place inside a page
    return "<figure>" + (begin == std::string::npos ? std::string() : b.svg.substr(begin)) + "<figcaption>" +
           escape(b.caption) + "</figcaption></figure>\n";
  }

  /// Line by line: to an attribute or a label a line's end is a control character like any other.
  std::string operator()(const ReportVerbatim& b) const {
    std::string out = "<pre>";
    for (std::size_t at = 0; at < b.text.size();) {
      const std::size_t end = std::min(b.text.find('\n', at), b.text.size());
      out += escape(b.text.substr(at, end - at)) + "\n";
      at = end + 1;
    }
    return out + "</pre>\n";
  }
};

std::string section_html(const ReportSection& section) {
  std::string out = std::string("<section") + (section.own_page ? " class=\"own-page\"" : "") + ">\n<h2>" +
                    escape(section.title) + "</h2>\n";
  for (const ReportBlock& block : section.blocks) out += std::visit(BlockHtml{}, block);
  // A sheet may be torn off the report.
  if (section.own_page) out += "<p class=\"caution small\">" + escape(caution_text) + "</p>\n";
  return out + "</section>\n";
}

}  // namespace

std::string html_report(const Report& report) {
  std::string out =
      "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>" +
      escape(report.title) + "</title>\n<style>" + std::string(kStyle) + page_rules(report) +
      "</style>\n</head>\n<body>\n<main>\n<h1>" + escape(report.title) + "</h1>\n<p class=\"subtitle\">" +
      escape(report.subtitle) + "</p>\n<p class=\"caution\"><strong>" + escape(caution_text) + "</strong></p>\n";
  for (const ReportSection& section : report.sections) out += section_html(section);
  return out + "</main>\n<footer><p>" + escape(report.footer) + "</p><p>" + escape(caution_short) +
         "</p></footer>\n</body>\n</html>\n";
}

}  // namespace hoofload::viz
