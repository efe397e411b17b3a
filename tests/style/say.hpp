// Violations as one text, so that a failing test prints all of them.
#pragma once

#include <string>

#include "tests/style/rules.hpp"

namespace hoofload::style {

[[nodiscard]] inline std::string said(const Violations& violations) {
  std::string text;
  for (const std::string& v : violations) text += v + "\n";
  return text;
}

}  // namespace hoofload::style
