// The quantity catalogue as text: topics for `explain` and the table docs/quantities.md.
#pragma once

#include <string>
#include <vector>

#include "scenarios/explain.hpp"

namespace hoofload::scenarios {

/// One topic a quantity: unit, definition, model, what counts as worse.
[[nodiscard]] std::vector<Topic> quantity_topics();

/// The text of docs/quantities.md.
[[nodiscard]] std::string quantities_markdown();

}  // namespace hoofload::scenarios
