// The words of a closed choice, in the order of its enumeration, and the synonyms that a case may use instead.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace hoofload::scenarios {

struct Synonym {
  std::string_view word;
  int index;
};

struct Words {
  std::span<const std::string_view> canonical;
  std::span<const Synonym> synonyms;
};

/// Lower case, with hyphens and underscores as spaces and single spaces only: the form in which words are compared.
[[nodiscard]] std::string plain_words(std::string_view text);

/// Index in the enumeration of a canonical word or synonym.
[[nodiscard]] std::optional<int> index_of(const Words& words, std::string_view text);

/// "\"open\", \"straight bar\", ...".
[[nodiscard]] std::string listed(const Words& words);

[[nodiscard]] std::string nearest_word(const Words& words, std::string_view text);

}  // namespace hoofload::scenarios
