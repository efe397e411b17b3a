// What an input is called for people: plain words from the description of its key, the key itself in brackets.
#pragma once

#include <string>
#include <string_view>

namespace hoofload::scenarios {

/// "hardness of the set packing (packing.hardness)", "Young's modulus of sole horn (materials.sole horn.E)"; the name as it is
/// where nothing describes it.
[[nodiscard]] std::string input_words(std::string_view name);

}  // namespace hoofload::scenarios
