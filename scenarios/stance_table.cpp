#include "scenarios/stance_table.hpp"

#include <array>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>

#include "scenarios/units.hpp"

namespace hoofload::scenarios {

namespace {

constexpr std::size_t kColumns = 4, kFewestRows = 4, kMostRows = 5000, kLongest = 1 << 20;
constexpr std::array<std::string_view, kColumns> kNames = {"time", "normal", "tangential", "pastern"};
constexpr std::array<std::string_view, kColumns> kUnits = {"s, ms or %", "N or N/kg", "as normal: N or N/kg",
                                                           "deg or rad"};

struct Line {
  int number;
  std::vector<std::string> cells;
};

std::string trimmed(std::string_view text) {
  const std::size_t a = text.find_first_not_of(" \t\r"), b = text.find_last_not_of(" \t\r");
  return a == std::string_view::npos ? "" : std::string(text.substr(a, b - a + 1));
}

std::vector<Line> lines_of(std::string_view text) {
  std::vector<Line> lines;
  int number = 0;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    std::string_view row = text.substr(0, end);
    text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
    ++number;
    if (trimmed(row).empty()) continue;
    Line line{number, {}};
    for (std::size_t comma = row.find(','); comma != std::string_view::npos; comma = row.find(',')) {
      line.cells.push_back(trimmed(row.substr(0, comma)));
      row = row.substr(comma + 1);
    }
    line.cells.push_back(trimmed(row));
    lines.push_back(std::move(line));
  }
  return lines;
}

class Errors {
 public:
  explicit Errors(const std::string& file) : file_(file) {}
  void add(int line, std::string problem, std::string value, std::string allowed) {
    list.push_back({file_, {line, 1}, "load.curve", std::move(problem), std::move(value), std::move(allowed), ""});
  }
  CaseErrors list;

 private:
  std::string file_;
};

/// Factor to s (or share of stance), N or N/kg, rad; nothing for a unit that does not belong in the column.
std::optional<double> factor_of(std::size_t column, const std::string& unit) {
  if (column == 0)
    return unit == "s"    ? std::optional(1.0)
           : unit == "ms" ? std::optional(1e-3)
           : unit == "%"  ? std::optional(1e-2)
                          : std::nullopt;
  if (column == 3)
    return unit == "deg" ? std::optional(mesh::degree) : unit == "rad" ? std::optional(1.0) : std::nullopt;
  return unit == "N" || unit == "N/kg" ? std::optional(1.0) : std::nullopt;
}

using Factors = std::array<double, kColumns>;

/// Header and units; nothing if either is wrong.
std::optional<Factors> read_head(const std::vector<Line>& lines, Errors& errors) {
  const std::vector<std::string> wanted(kNames.begin(), kNames.end());
  if (lines.empty() || lines[0].cells != wanted) {
    errors.add(lines.empty() ? 1 : lines[0].number, "wrong header", "", "time,normal,tangential,pastern");
    return {};
  }
  if (lines.size() < 2 || lines[1].cells.size() != kColumns) {
    errors.add(lines.size() < 2 ? lines[0].number : lines[1].number, "missing row of units", "", "e.g. s,N,N,deg");
    return {};
  }
  Factors factors{};
  for (std::size_t k = 0; k < kColumns; ++k) {
    const std::string& unit = lines[1].cells[k];
    const auto factor = factor_of(k, unit);
    if (!factor || (k == 2 && unit != lines[1].cells[1]))
      errors.add(lines[1].number, "wrong unit of " + std::string(kNames[k]), "\"" + shown_text(unit) + "\"",
                 std::string(kUnits[k]));
    factors[k] = factor.value_or(1);
  }
  if (!errors.list.empty()) return {};
  return factors;
}

/// One row in inside units; nothing if a cell is no number.
std::optional<Factors> read_row(const Line& line, const Factors& factors, Errors& errors) {
  if (line.cells.size() != kColumns) {
    errors.add(line.number, "wrong number of columns", std::to_string(line.cells.size()), "4");
    return {};
  }
  Factors row{};
  for (std::size_t k = 0; k < kColumns; ++k) {
    const auto number = parse_number(line.cells[k]);
    if (!number) {
      errors.add(line.number, std::string(kNames[k]) + " is not a finite number",
                 "\"" + shown_text(line.cells[k]) + "\"", "a decimal number");
      return {};
    }
    row[k] = *number * factors[k];
  }
  if (row[1] < 0) {
    errors.add(line.number, "the ground pulls: negative normal force", line.cells[1], "0 or more");
    return {};
  }
  constexpr double flat = 20 * mesh::degree, steep = 120 * mesh::degree;
  if (row[3] < flat || row[3] > steep) {
    errors.add(line.number, "pastern out of range", line.cells[3], "20 deg to 120 deg");
    return {};
  }
  return row;
}

void append(LoadTable& table, const Factors& row) {
  table.share.push_back(row[0]);
  table.normal.push_back(row[1]);
  table.tangential.push_back(row[2]);
  table.pastern.push_back(row[3]);
}

}  // namespace

bool is_table_text(std::string_view value) { return value.find('\n') != std::string_view::npos; }

TableReading read_load_table(std::string_view text, const std::string& file) {
  TableReading reading;
  Errors errors(file);
  const std::vector<Line> lines = lines_of(text);
  const auto factors = read_head(lines, errors);
  for (std::size_t k = 2; factors && k < lines.size(); ++k) {
    const auto row = read_row(lines[k], *factors, errors);
    if (!row) continue;
    if (!reading.table.share.empty() && (*row)[0] <= reading.table.share.back())
      errors.add(lines[k].number, "time does not rise", lines[k].cells[0], "later than the row above");
    append(reading.table, *row);
  }
  const std::size_t rows = lines.size() < 2 ? 0 : lines.size() - 2;
  if (factors && (rows < kFewestRows || rows > kMostRows))
    errors.add(lines.back().number, "wrong number of rows", std::to_string(rows),
               std::to_string(kFewestRows) + " to " + std::to_string(kMostRows));
  reading.errors = std::move(errors.list);
  if (!reading.errors.empty()) {
    reading.table = {};
    return reading;
  }
  LoadTable& t = reading.table;
  t.per_mass = lines[1].cells[1] == "N/kg";
  const double start = t.share.front(), end = t.share.back();
  for (double& share : t.share) share = (share - start) / (end - start);
  return reading;
}

CaseErrors load_table_of(Case& run, const std::string& case_file, Location at) {
  std::string file = case_file;
  if (!is_table_text(run.load.curve)) {
    const std::filesystem::path path = std::filesystem::path(case_file).parent_path() / run.load.curve;
    file = path.string();
    std::error_code none;
    std::ifstream stream(path, std::ios::binary);
    if (!std::filesystem::is_regular_file(path, none) || !stream)
      return {
          {case_file, at, "load.curve", "cannot read the file", "\"" + shown_text(file) + "\"", "a readable file", ""}};
    std::ostringstream text;
    text << stream.rdbuf();
    run.load.curve = text.str();
    if (run.load.curve.size() > kLongest || broken_utf8(run.load.curve) != std::string::npos)
      return {{case_file, at, "load.curve", "no table of text", "\"" + shown_text(file) + "\"", "UTF-8, at most 1 MiB",
               ""}};
    if (!is_table_text(run.load.curve)) run.load.curve += '\n';
  }
  TableReading reading = read_load_table(run.load.curve, file);
  run.load.table = std::move(reading.table);
  if (file == case_file)
    for (CaseError& e : reading.errors) e.at = {at.line + e.at.line, 1};
  return reading.errors;
}

}  // namespace hoofload::scenarios
