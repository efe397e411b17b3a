// The catalogue and the laws' parameters as a Markdown page: docs/materials.md is this text.
#pragma once

#include <string>

#include "materials/catalogue.hpp"

namespace hoofload::materials {

/// The whole page. Same catalogue, same bytes.
[[nodiscard]] std::string catalogue_table_markdown(const Catalogue& catalogue);

}  // namespace hoofload::materials
