#include "materials/catalogue_table.hpp"

#include <cstdio>

#include "materials/catalogue_keys.hpp"

namespace hoofload::materials {
namespace {

std::string digits(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.4g", value);
  // Plain notation up to a million: "2.05e+05" is hard to read in a table of moduli.
  if (std::abs(value) >= 1e4 && std::abs(value) < 1e6) std::snprintf(text, sizeof text, "%.0f", value);
  return text;
}

std::string unit_suffix(std::string_view unit) { return unit == "1" ? "" : " " + std::string(unit); }

std::string shown(const std::string& key, const Graded& g, const Entry& entry) {
  std::string text =
      key + " " + digits(g.value) + " (" + digits(g.low) + "–" + digits(g.high) + ")" + unit_suffix(g.unit);
  if (g.grade != entry.grade) text += " [" + std::string(1, g.grade) + "]";
  return text;
}

std::string shown(const std::map<std::string, Graded, std::less<>>& values, const Entry& entry) {
  std::string text;
  for (const auto& [key, value] : values) text += (text.empty() ? "" : "; ") + shown(key, value, entry);
  return text;
}

template <class Law>
std::string law_rows() {
  std::string rows;
  for (const auto& p : Law::parameters) {
    rows += "| " + std::string(Law::name) + " | " + std::string(p.name) + " | " + std::string(p.unit) + " | " +
            std::string(p.meaning) + " |\n";
  }
  return rows;
}

template <class... Laws>
std::string law_table(const std::variant<Laws...>*) {
  return "| law | parameter | unit | meaning |\n|---|---|---|---|\n" + (law_rows<Laws>() + ...);
}

std::string aliases(const Entry& entry) {
  std::string text;
  for (const std::string& alias : entry.aliases) text += (text.empty() ? " (" : ", ") + alias;
  return text.empty() ? text : text + ")";
}

/// Sources that single values have of their own, "nu: ...".
std::string sources(const Entry& entry) {
  std::string text = entry.source;
  for (const auto* values : {&entry.parameters, &entry.properties}) {
    for (const auto& [key, value] : *values) {
      if (value.source != entry.source) text += "; " + key + ": " + value.source;
    }
  }
  return text;
}

std::string kind_table(const Catalogue& catalogue, Kind kind) {
  std::string rows =
      "| material | law | parameters | other facts | grade | source | note |\n|---|---|---|---|---|---|---|\n";
  for (const Entry& entry : catalogue.entries) {
    // Each entry stands once, under the first of its kinds.
    if (entry.kinds.front() != kind) continue;
    rows += "| " + entry.id + aliases(entry) + " | " + entry.law + " | " + shown(entry.parameters, entry) + " | " +
            shown(entry.properties, entry) + " | " + entry.grade + " | " + sources(entry) + " | " + entry.note + " |\n";
  }
  return rows;
}

std::string friction_table(const Catalogue& catalogue) {
  std::string rows = "| surfaces | coefficient | grade | source |\n|---|---|---|---|\n";
  for (const Friction& f : catalogue.friction) {
    rows += "| " + f.a + "–" + f.b + " | " + digits(f.mu.value) + " (" + digits(f.mu.low) + "–" + digits(f.mu.high) +
            ") | " + f.mu.grade + " | " + f.mu.source + " |\n";
  }
  return rows;
}

const char* const introduction =
    "# Materials\n\n"
    "Generated from materials/catalogue/*.toml and the laws in materials/; do not edit by hand. To write it again:\n"
    "`HOOFLOAD_WRITE_DOCS=1 build/tests/materials_test --gtest_filter='Catalogue.documentation*'`.\n\n"
    "Each value stands with its range (low–high). Grade: A direct equine test with known spread, B direct but thin or\n"
    "indirect, C surrogate tissue or handbook class value, D assumption; a letter in brackets is the grade of that "
    "value\n"
    "alone. Units: MPa, mm, N unless said; 1 where none is shown.\n";

}  // namespace

std::string catalogue_table_markdown(const Catalogue& catalogue) {
  std::string page = introduction;
  page += "\n## Laws\n\n" + law_table(static_cast<const Material*>(nullptr));
  page +=
      "\nThe catalogue may give E and nu, E and kappa, or shore_a and kappa in place of a neo-Hookean law's own "
      "constants.\n"
      "`cable` is a line that pulls only, `rigid` a body without deformation.\n";
  for (Kind kind : {Kind::tissue, Kind::shoe, Kind::pad, Kind::packing, Kind::ground}) {
    page += "\n## " + std::string(name_of(kind)) + "\n\n" + kind_table(catalogue, kind);
  }
  return page + "\n## Friction\n\n" + friction_table(catalogue);
}

}  // namespace hoofload::materials
