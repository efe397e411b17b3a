// `hoofload explain`: what a key, a section or a material of the catalogue means, from the tables themselves.
#pragma once

#include "scenarios/case_keys.hpp"

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace hoofload::scenarios {

/// Something else that can be explained (a result's quantity).
struct Topic {
  std::string name;
  std::string text;
};

struct Explainable {
  MaterialWords materials;
  std::vector<Topic> topics;
};

/// The text of a key ("shoe.setback", or "setback" if only one section has it), a section, a material or a topic.
[[nodiscard]] std::optional<std::string> explain(const Explainable& known, std::string_view name);

/// The same for machines: name, type, unit, low, high, default, words, meaning, grade, source of a key.
[[nodiscard]] std::optional<nlohmann::json> explain_json(const Explainable& known, std::string_view name);

/// All sections and keys, one line each.
[[nodiscard]] std::string explain_overview();

/// Nearest name that explain knows; empty if none is near.
[[nodiscard]] std::string nearest_topic(const Explainable& known, std::string_view name);

/// The text of docs/case-keys.md.
[[nodiscard]] std::string case_keys_markdown();

}  // namespace hoofload::scenarios
