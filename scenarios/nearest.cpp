#include "scenarios/nearest.hpp"

#include <algorithm>
#include <vector>

namespace hoofload::scenarios {
namespace {

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

// A key of this length is nobody's spelling mistake; the bound keeps the cost of hostile input small.
constexpr std::size_t kLongest = 64;

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
  const std::size_t n = b.size();
  std::vector<std::size_t> before(n + 1), last(n + 1), row(n + 1);
  for (std::size_t j = 0; j <= n; ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= n; ++j) {
      const char p = lower(a[i - 1]);
      const char q = lower(b[j - 1]);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (p == q ? 0 : 1)});
      if (i > 1 && j > 1 && p == lower(b[j - 2]) && q == lower(a[i - 2])) row[j] = std::min(row[j], before[j - 2] + 1);
    }
    std::swap(before, last);
    std::swap(last, row);
  }
  return last[n];
}

std::string nearest_name(std::string_view word, std::span<const std::string_view> names) {
  if (word.empty() || word.size() > kLongest) return {};
  std::size_t best = word.size() + kLongest;
  std::string_view found;
  for (const std::string_view name : names) {
    const std::size_t distance = edit_distance(word, name);
    if (distance >= best) continue;
    best = distance;
    found = name;
  }
  if (found.empty() || best > (std::max(word.size(), found.size()) + 2) / 3) return {};
  return std::string(found);
}

}  // namespace hoofload::scenarios
