// The known name nearest to a misspelt one, for "did you mean".
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

namespace hoofload::scenarios {

/// Edit distance with transposition of neighbours (optimal string alignment; Damerau 1964, Levenshtein 1966); upper and
/// lower case count as equal.
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);

/// The name of least edit distance; empty when even that is more than a third of its length. Ties go to the first.
[[nodiscard]] std::string nearest_name(std::string_view word, std::span<const std::string_view> names);

}  // namespace hoofload::scenarios
