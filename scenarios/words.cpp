#include "scenarios/words.hpp"

#include "scenarios/nearest.hpp"

#include <vector>

namespace hoofload::scenarios {

std::string plain_words(std::string_view text) {
  std::string plain;
  for (const char c : text) {
    const bool space = c == ' ' || c == '_' || c == '-' || c == '\t';
    if (space && (plain.empty() || plain.back() == ' ')) continue;
    plain += space ? ' ' : c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  if (!plain.empty() && plain.back() == ' ') plain.pop_back();
  return plain;
}

std::optional<int> index_of(const Words& words, std::string_view text) {
  const std::string plain = plain_words(text);
  for (std::size_t k = 0; k < words.canonical.size(); ++k)
    if (plain_words(words.canonical[k]) == plain) return static_cast<int>(k);
  for (const Synonym& s : words.synonyms)
    if (s.word == plain) return s.index;
  return std::nullopt;
}

std::string listed(const Words& words) {
  std::string text;
  for (const std::string_view w : words.canonical) text += (text.empty() ? "\"" : ", \"") + std::string(w) + "\"";
  return text;
}

std::string nearest_word(const Words& words, std::string_view text) {
  std::vector<std::string_view> names(words.canonical.begin(), words.canonical.end());
  for (const Synonym& s : words.synonyms) names.push_back(s.word);
  return nearest_name(plain_words(text), names);
}

}  // namespace hoofload::scenarios
