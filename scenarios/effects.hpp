// Published effects of shoeing against what the model gives: rows as data, each number of a row a function of solved cases.
// `hoofload check-effects` prints them; docs/effects.md is its --markdown.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "scenarios/run.hpp"

namespace hoofload::scenarios {

/// Solved cases by name, all on meshes of one density. A case is a text like a case file's.
using EffectCases = std::map<std::string, std::vector<RunResult>, std::less<>>;

struct EffectCase {
  std::string_view name;
  std::string_view text;  ///< without study.density and study.bars
};
[[nodiscard]] const std::vector<EffectCase>& effect_cases();

/// calibration: may be used to set a parameter; check: may not; sanity: geometry alone.
enum class EffectSet { calibration, check, sanity };

/// A number, for a change the size S of what changed in the same unit, Eq. (78), and what it is read on (bars.hpp).
struct Amount {
  double value = 0;
  std::optional<double> change_of;
  bool of_the_whole = false;
};

/// One number of a row. It is inside its check between low and high; without bounds it is shown beside, without a verdict.
struct EffectLine {
  std::string_view what, unit;
  std::string_view published;
  std::optional<double> low, high;
  std::function<Amount(const EffectCases&)> amount;  ///< throws std::runtime_error when a phase was not solved
  std::string_view reason;                           ///< likely reason; printed only where the line misses
  bool is_sign = false;  ///< only the sign was published: the number must differ from 0 by more than its bar
};

struct EffectRow {
  std::string_view number;  ///< of the list that the rows were chosen from
  std::string_view effect, source;
  char grade;  ///< A: seen in the primary source, B: direction only, C: secondary text
  EffectSet set;
  std::string_view warning;             ///< what the agreement does not show; always printed
  std::vector<std::string_view> cases;  ///< names of effect_cases
  std::vector<EffectLine> lines;
};
[[nodiscard]] const std::vector<EffectRow>& effect_rows();

/// A published effect that is not compared, and why.
struct EffectLeftOut {
  std::string_view number, effect, source, why;
};
[[nodiscard]] const std::vector<EffectLeftOut>& effects_left_out();

/// A parameter whose value was set with a measurement in view.
struct SetParameter {
  std::string_view name, from;
  std::string_view rows;  ///< calibration rows in view; empty: none of them
};
[[nodiscard]] const std::vector<SetParameter>& set_parameters();

enum class EffectVerdict { none, pass, miss, unsolved };

struct LineAnswer {
  EffectVerdict verdict = EffectVerdict::none;
  double value = 0, bar = 0;  ///< bar: on meshes of half the density, Eqs. (77), (78)
  bool at_the_edge = false;   ///< the bar reaches across the edge of the check
  std::string why;            ///< when unsolved
};

struct RowAnswer {
  const EffectRow* row;
  std::vector<LineAnswer> lines;
};

/// The verdict of one line from its value on meshes of `density` and half of it. Pure.
[[nodiscard]] LineAnswer judged(const EffectLine& line, const Amount& fine, const Amount& coarse, double density);

/// Of a row: miss if any line misses, unsolved if any is, else pass.
[[nodiscard]] EffectVerdict verdict_of(const RowAnswer& answer);

/// Solves the cases of the named rows (all of them if none is named) on meshes of `density` and half of it.
[[nodiscard]] std::vector<RowAnswer> answer_effects(const std::vector<std::string>& rows, double density,
                                                    const std::function<void(const RunProgress&)>& report = {});

inline constexpr double kEffectsDensity = 0.5;

/// Terminal text, and the page docs/effects.md.
[[nodiscard]] std::string effects_text(const std::vector<RowAnswer>& answers);
[[nodiscard]] std::string effects_markdown(const std::vector<RowAnswer>& answers, double density);

/// One line of the page's table: row and number, ours, published, check, verdict, source.
[[nodiscard]] std::string effect_table_line(const EffectRow& row, std::size_t line, const LineAnswer& answer);

}  // namespace hoofload::scenarios
