// A report as plain values and as one self-contained HTML file: no script, no network, figures inside. Legible in
// black and
// white; A4 or Letter. The cautions stand on its first page and at the foot of every other, whatever the report holds.
#pragma once

#include <string>
#include <variant>
#include <vector>

namespace hoofload::viz {

struct ReportText {
  std::string text;
};

struct ReportList {
  std::vector<std::string> items;
};

/// Rows as long as the head; the first cell of a row names it.
struct ReportTable {
  std::string caption;
  std::vector<std::string> head;
  std::vector<std::vector<std::string>> rows;
};

/// An SVG file's text as it stands; its title and description are the alternative text.
struct ReportFigure {
  std::string svg;
  std::string caption;
};

/// Lines that are kept as they are: a case file.
struct ReportVerbatim {
  std::string text;
};

using ReportBlock = std::variant<ReportText, ReportList, ReportTable, ReportFigure, ReportVerbatim>;

/// `own_page`: begins on a new page and is meant to fit on it.
struct ReportSection {
  std::string title;
  std::vector<ReportBlock> blocks;
  bool own_page = false;
};

enum class Paper { a4, letter };

struct Report {
  std::string title, subtitle;
  std::string footer;  ///< version, commit, fingerprint
  std::vector<ReportSection> sections;
  Paper paper = Paper::a4;
};

/// Throws std::invalid_argument if a table's row is not as long as its head.
[[nodiscard]] std::string html_report(const Report& report);

}  // namespace hoofload::viz
