#include "scenarios/picture_parts.hpp"

#include <algorithm>
#include <cmath>

#include "scenarios/fields.hpp"
#include "scenarios/nothing.hpp"
#include "scenarios/pictures.hpp"
#include "scenarios/result_files.hpp"
#include "solver/fields.hpp"
#include "viz/text.hpp"

namespace hoofload::scenarios {

namespace {

constexpr double kRibbonHeight = 14;
constexpr double kShown = 0.98;  ///< the last 2 % sit at corners where the stress is singular and would pale all else

bool has_region(const BuiltModel& built, const std::string& region) {
  return std::any_of(built.mesh.blocks.begin(), built.mesh.blocks.end(),
                     [&](const auto& b) { return b.region == region; });
}

std::vector<std::string> soft_regions(const BuiltModel& built) {
  std::vector<std::string> regions;
  for (const char* region :
       {"sole", "white_line", "frog_plate", "frog", "corium", "cushion", "packing", "packing_frog"})
    if (has_region(built, region)) regions.emplace_back(region);
  return regions;
}

std::vector<double> shown_values(const viz::Section& section) {
  std::vector<char> used(section.field.size(), 0);
  for (const auto& block : section.mesh->blocks) {
    if (!viz::shows_field(section, block.region)) continue;
    for (const auto& tri : block.tri)
      for (const int node : tri) used[static_cast<std::size_t>(node)] = 1;
  }
  std::vector<double> values;
  for (std::size_t i = 0; i < used.size(); ++i)
    if (used[i] != 0) values.push_back(section.field[i]);
  return values;
}

}  // namespace

std::vector<Drawn> drawn_runs(const std::vector<RunResult>& results, ModelKind model, Phase phase) {
  std::vector<Drawn> list;
  for (std::size_t k = 0; k < results.size(); ++k)
    for (const ModelResult& m : results[k].models) {
      if (m.kind != model || !m.built) continue;
      for (const PhaseResult& p : m.phases)
        if (p.solved && p.phase == phase) list.push_back({k, &results[k], m.built.get(), &p});
    }
  return list;
}

viz::Section stress_section(const Drawn& drawn) {
  viz::Section section;
  section.mesh = &drawn.built->mesh;
  section.u = plane_displacements(*drawn.built, drawn.phase->solution);
  section.deformation_scale = kDeformationScale;
  section.field_regions = soft_regions(*drawn.built);
  for (const auto& s : solver::nodal_stresses(*drawn.built->system, drawn.phase->solution.state, section.field_regions))
    section.field.push_back(-1000 * s(1, 1));
  return section;
}

viz::PressureRibbon sole_ribbon(const Drawn& drawn, const viz::Section& section) {
  viz::PressureRibbon ribbon;
  const auto x = viz::drawn_positions(section);
  const auto profile = sole_pressure_profile(*drawn.built, drawn.phase->solution);
  const auto nodes = sole_nodes(*drawn.built);
  for (std::size_t k = 0; k < nodes.size() && k < profile.size(); ++k) {
    ribbon.at.push_back(x[static_cast<std::size_t>(nodes[k])]);
    ribbon.pressure.push_back(profile[k].kPa > 0.1 ? profile[k].kPa : 0);  // less than a line's breadth
  }
  return ribbon;
}

viz::Heading heading_of(const Drawn& drawn, const std::string& model, const std::vector<std::string>& quantities) {
  viz::Heading heading{drawn.result->run.name, std::string(name_of(drawn.phase->phase)), model, {}};
  for (const std::string& key : quantities) {
    const auto it = drawn.phase->values.find(key);
    if (it == drawn.phase->values.end()) continue;
    const double value = std::abs(it->second.value) < kNothing ? 0 : it->second.value;  // the solver's rounding of a zero
    const QuantityKey& quantity = *find_quantity(key);
    heading.facts.push_back(std::string(quantity.words) + "  " + viz::number_text(value) + " " +
                            std::string(quantity.unit));
  }
  return heading;
}

viz::ColourScale shared_scale(const std::vector<viz::Section>& sections) {
  double high = 1;
  for (const viz::Section& section : sections) {
    auto values = shown_values(section);
    if (values.empty()) continue;
    const auto at = values.begin() + static_cast<std::ptrdiff_t>(kShown * static_cast<double>(values.size() - 1));
    std::nth_element(values.begin(), at, values.end());
    high = std::max(high, *at);
  }
  return viz::rounded_scale(0, high, "vertical compressive stress", "kPa");
}

double shared_ribbon_scale(const std::vector<viz::PressureRibbon>& ribbons) {
  double most = 0;
  for (const auto& ribbon : ribbons)
    for (const double p : ribbon.pressure) most = std::max(most, p);
  return most > 0 ? kRibbonHeight / most : 0.04;
}

std::string picture_name(const std::vector<RunResult>& results, const Drawn& drawn, const std::string& kind) {
  return std::string(name_of(drawn.phase->phase)) + "_" + kind + "_" + run_stem(results, drawn.run) + ".svg";
}

double indentation(const Drawn& drawn) {
  const solver::System& system = *drawn.built->system;
  if (!system.model().ground.bed) return 0;
  double deepest = 0;
  const auto& points = system.contact_points();
  for (std::size_t k = static_cast<std::size_t>(system.first_ground_contact()); k < points.size(); ++k)
    deepest = std::max(deepest, -drawn.phase->solution.state.q[points[k].normal]);
  return deepest;
}

}  // namespace hoofload::scenarios
