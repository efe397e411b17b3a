// "Did you mean ...?": the candidate with the smallest edit distance (Levenshtein 1966), case ignored.
#pragma once

#include <algorithm>
#include <cctype>
#include <numeric>
#include <string>
#include <string_view>
#include <vector>

namespace hoofload::materials {

/// Insertions, deletions and substitutions that turn a into b, upper and lower case being the same letter.
[[nodiscard]] inline int edit_distance(std::string_view a, std::string_view b) {
  const auto lower = [](char c) { return std::tolower(static_cast<unsigned char>(c)); };
  std::vector<int> row(b.size() + 1);
  std::iota(row.begin(), row.end(), 0);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    int diagonal = row[0];
    row[0] = static_cast<int>(i);
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const int replaced = diagonal + (lower(a[i - 1]) == lower(b[j - 1]) ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({replaced, row[j] + 1, row[j - 1] + 1});
    }
  }
  return row[b.size()];
}

/// Nearest of the candidates, the first of equals; empty when there is none.
[[nodiscard]] inline std::string nearest_name(std::string_view name, const std::vector<std::string>& candidates) {
  const auto nearer = [&](const std::string& a, const std::string& b) {
    return edit_distance(name, a) < edit_distance(name, b);
  };
  const auto best = std::min_element(candidates.begin(), candidates.end(), nearer);
  return best == candidates.end() ? std::string{} : *best;
}

}  // namespace hoofload::materials
