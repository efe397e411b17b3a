// The published effects as text: for the terminal and as docs/effects.md.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "scenarios/effects.hpp"
#include "scenarios/units.hpp"
#include "viz/cautions.hpp"

namespace hoofload::scenarios {

namespace {

constexpr double kUnbounded = 1e29;

std::string_view word_of(EffectSet set) {
  constexpr std::string_view words[] = {"calibration", "check", "sanity"};
  return words[static_cast<int>(set)];
}

std::string_view word_of(EffectVerdict verdict) {
  constexpr std::string_view words[] = {"-", "pass", "miss", "not solved"};
  return words[static_cast<int>(verdict)];
}

std::string fixed(double value, int decimals) {
  char text[64];
  std::snprintf(text, sizeof text, "%.*f", decimals, value);
  const std::string shown = text;
  return shown.find_first_not_of("-0.") == std::string::npos && shown.front() == '-' ? shown.substr(1) : shown;
}

/// Three digits of the value, and its bar to the same place.
std::string amount_text(const LineAnswer& answer) {
  if (answer.verdict == EffectVerdict::unsolved) return "not solved";
  const double size = std::max(std::abs(answer.value), answer.bar);
  const int decimals = size > 0 ? std::clamp(2 - static_cast<int>(std::floor(std::log10(size))), 0, 4) : 0;
  return fixed(answer.value, decimals) + " ± " + fixed(answer.bar, decimals);
}

std::string check_text(const EffectLine& line) {
  if (!line.low && !line.high) return "-";
  if (*line.low < -kUnbounded) return "below " + number_text(*line.high);
  if (*line.high > kUnbounded) return "above " + number_text(*line.low);
  return number_text(*line.low) + " to " + number_text(*line.high);
}

std::string verdict_text(const EffectLine& line, const LineAnswer& answer) {
  std::string text(word_of(answer.verdict));
  if (answer.at_the_edge) text += line.is_sign ? " (within its bar of 0)" : " (its bar reaches over the edge)";
  return text;
}

std::string shown(std::string_view text) { return text.empty() ? "-" : std::string(text); }

/// Reasons of the lines that miss, each once.
std::vector<std::string> reasons(const RowAnswer& row) {
  std::vector<std::string> texts;
  for (std::size_t k = 0; k < row.lines.size(); ++k) {
    const LineAnswer& answer = row.lines[k];
    std::string text;
    if (answer.verdict == EffectVerdict::miss) text = row.row->lines[k].reason;
    if (answer.verdict == EffectVerdict::unsolved) text = answer.why;
    if (!text.empty() && std::find(texts.begin(), texts.end(), text) == texts.end()) texts.push_back(text);
  }
  return texts;
}

std::string tally(const std::vector<RowAnswer>& answers) {
  std::string text;
  for (const EffectSet set : {EffectSet::calibration, EffectSet::check, EffectSet::sanity}) {
    int all = 0, met = 0;
    for (const RowAnswer& a : answers)
      if (a.row->set == set) ++all, met += verdict_of(a) == EffectVerdict::pass ? 1 : 0;
    text += (text.empty() ? "" : "; ") + std::string(word_of(set)) + ": " + std::to_string(met) + " of " +
            std::to_string(all) + " rows met";
  }
  return text + ". A row is met when all its numbers are.";
}

std::string set_parameters_text(std::string_view bullet) {
  int in_view = 0;
  std::string list;
  for (const SetParameter& p : set_parameters()) {
    in_view += p.rows.empty() ? 0 : 1;
    list += std::string(bullet) + std::string(p.name) + ": " + std::string(p.from) +
            (p.rows.empty() ? "; none of the rows" : "; rows in view: " + std::string(p.rows)) + "\n";
  }
  int rows = 0;
  for (const EffectRow& row : effect_rows()) rows += row.set == EffectSet::calibration ? 1 : 0;
  return "Parameters set with a measurement in view: " + std::to_string(set_parameters().size()) + ", of which " +
         std::to_string(in_view) + " with a calibration row in view, of " + std::to_string(rows) +
         " such rows. No check row was used to set anything.\n" + list +
         "Two of them are curves and one is a place, so rows 1, 2, 3 and 4 can be met by choice: that they are is not "
         "evidence. Row 5 sets nothing, row 6 is an input.\n";
}

}  // namespace

std::string effect_table_line(const EffectRow& row, std::size_t line, const LineAnswer& answer) {
  const EffectLine& l = row.lines[line];
  return "| " + std::string(row.number) + " | " + std::string(row.effect) + ": " + std::string(l.what) + " | " +
         std::string(l.unit) + " | " + amount_text(answer) + " | " + shown(l.published) + " | " + check_text(l) +
         " | " + verdict_text(l, answer) + " | " + std::string(row.source) + " | " + row.grade + " | " +
         std::string(word_of(row.set)) + " |";
}

std::string effects_text(const std::vector<RowAnswer>& answers) {
  std::string text = "Published effects: ours ± bar of the mesh, published, fair check, verdict\n\n";
  for (const RowAnswer& answer : answers) {
    const EffectRow& row = *answer.row;
    text += std::string(row.number) + "  " + std::string(row.effect) + " (" + std::string(row.source) + ", grade " +
            row.grade + ", " + std::string(word_of(row.set)) + "): " + std::string(word_of(verdict_of(answer))) + "\n";
    for (std::size_t k = 0; k < row.lines.size(); ++k) {
      const EffectLine& l = row.lines[k];
      text += "    " + std::string(l.what) + ": " + amount_text(answer.lines[k]) + " " + std::string(l.unit);
      if (!l.published.empty()) text += "; published " + std::string(l.published);
      if (l.low || l.high) text += "; check " + check_text(l) + "; " + verdict_text(l, answer.lines[k]);
      text += "\n";
    }
    text += "    To bear in mind: " + std::string(row.warning) + "\n";
    for (const std::string& reason : reasons(answer)) text += "    Likely reason: " + reason + "\n";
  }
  text += "\nNot compared:\n";
  for (const EffectLeftOut& e : effects_left_out())
    text += std::string(e.number) + "  " + std::string(e.effect) + " (" + std::string(e.source) +
            "): " + std::string(e.why) + "\n";
  return text + "\n" + tally(answers) + "\n\n" + set_parameters_text("  - ") + "\n" + std::string(viz::caution_text) +
         "\n";
}

std::string effects_markdown(const std::vector<RowAnswer>& answers, double density) {
  std::string text =
      "# Published effects\n\nWritten by `hoofload check-effects --markdown > docs/effects.md`; values and verdicts "
      "are computed. "
      "Reference foot, 500 kg, mesh density " +
      number_text(density) +
      ". Ours ± the bar of the mesh: what half the density differs by, and the parts of size of theory.md, Eqs. (77), "
      "(78), times what a mesh as coarse as this needs; "
      "interpolations included.\nPublished values and fair checks come from a list set down before the model was run; "
      "how each row is read (which phase, run and place, which numbers carry the verdict, the bounds of rows 7 and 19 "
      "where the list left room) was chosen with first results in sight. "
      "Grade: A, number "
      "seen in the primary source; B, direction only; C, quoted in secondary text.\nA calibration row may be used to "
      "set a parameter, "
      "a check row may not; sanity is geometry. Where only a sign was published, a number that is within its bar of 0 "
      "is a "
      "miss. A line without a check is shown beside.\n\n" +
      tally(answers) + "\n\n" + std::string(viz::caution_text) +
      "\n\n| row | number | unit | ours | published | fair check | verdict | source | grade | set |\n"
      "|---|---|---|---|---|---|---|---|---|---|\n";
  for (const RowAnswer& answer : answers)
    for (std::size_t k = 0; k < answer.lines.size(); ++k)
      text += effect_table_line(*answer.row, k, answer.lines[k]) + "\n";
  text += "\n## What to bear in mind, and likely reasons of misses\n\n";
  for (const RowAnswer& answer : answers) {
    text += "- **" + std::string(answer.row->number) + ", " + std::string(answer.row->effect) + ": " +
            std::string(word_of(verdict_of(answer))) + ".** " + std::string(answer.row->warning) + "\n";
    for (const std::string& reason : reasons(answer)) text += "  - Likely reason: " + reason + "\n";
  }
  text += "\n## Not compared\n\n";
  for (const EffectLeftOut& e : effects_left_out())
    text += "- **" + std::string(e.number) + "**, " + std::string(e.effect) + " (" + std::string(e.source) +
            "): " + std::string(e.why) + ".\n";
  return text + "\n## What was calibrated\n\n" + set_parameters_text("- ");
}

}  // namespace hoofload::scenarios
