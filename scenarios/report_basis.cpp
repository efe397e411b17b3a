// What a report rests on: the items that a reader needs to judge a simulation (Erdemir 2012: identification, model
// structure,
// simulation structure, verification, validation, availability).
#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "materials/catalogue.hpp"
#include "scenarios/case_checks.hpp"
#include "scenarios/case_keys.hpp"
#include "scenarios/case_resolved.hpp"
#include "scenarios/nothing.hpp"
#include "scenarios/provenance.hpp"
#include "scenarios/report.hpp"
#include "viz/cautions.hpp"
#include "viz/text.hpp"

namespace hoofload::scenarios {

namespace {

using viz::ReportList;
using viz::ReportSection;
using viz::ReportTable;
using viz::ReportText;

ReportSection use_section() {
  return {"Context of use",
          {ReportText{
               "Question: what would each option do to the pressure on the sole, to the moment of the deep flexor "
               "tendon, and to what else carries the load instead? For farriers who teach, for veterinarians who weigh "
               "which reversible step to try first, for students of mechanics."},
           ReportText{std::string(viz::not_for_text)}},
          false};
}

std::string origin(const Case& run, const std::string& key) {
  const auto has = [&](const std::vector<std::string>& list) {
    return std::find(list.begin(), list.end(), key) != list.end();
  };
  return has(run.given) ? "given" : has(run.followed) ? "follows from the others" : "reference foot";
}

/// Keys of sections that hold for the case as a whole, of the baseline.
ReportTable key_table(const Case& run, const std::string& caption, const std::vector<std::string>& sections) {
  ReportTable table{caption, {"key", "value", "from", "meaning"}, {}};
  for (const Key& key : case_keys()) {
    const std::string name(key.name);
    const auto dot = name.find('.');
    if (dot == std::string::npos || std::find(sections.begin(), sections.end(), name.substr(0, dot)) == sections.end())
      continue;
    const std::string value = shown_value(key, run);
    if (value.empty() || !why_unused(run, name).reason.empty()) continue;
    table.rows.push_back({name, value, origin(run, name), std::string(key.meaning)});
  }
  return table;
}

ReportSection geometry_section(const Case& run) {
  return {
      "Geometry",
      {ReportText{
           "Typed measurements of one foot; what was left out comes from an invented reference foot or follows "
           "from the others. No image was read. Left and right are alike. Origin: most dorsal point of the hoof at its "
           "bearing plane; x forward, y up; lengths in mm, forces in N."},
       key_table(run, "The baseline's foot", {"horse", "foot"})},
      false};
}

ReportSection mesh_section(const nlohmann::json& provenance) {
  ReportTable table{"Six-node triangles, and twenty-node bricks for the wall of the sagittal model",
                    {"option", "model", "density", "plane nodes", "triangles", "bricks", "unknowns"},
                    {}};
  for (const auto& m : provenance.at("meshes"))
    table.rows.push_back({m.at("option"), m.at("model"), viz::number_text(m.at("density")), m.at("plane_nodes").dump(),
                          m.at("plane_elements").dump(), m.at("bricks").dump(), m.at("unknowns").dump()});
  return {"Meshes", {std::move(table)}, false};
}

std::set<std::string> materials_in_use(const std::vector<RunResult>& results, const materials::Catalogue& catalogue) {
  std::set<std::string> ids;
  for (const materials::Entry& e : catalogue.entries)
    if (materials::serves(e, materials::Kind::tissue)) ids.insert(e.id);
  for (const RunResult& run : results)
    for (const char* key :
         {"shoe.material", "shoe.layer_material", "pad.material", "packing.material", "ground.material"})
      if (why_unused(run.run, key).reason.empty()) {
        const auto& at = std::get<MaterialAt>(find_key(key)->binding);
        if (const materials::Entry* e = materials::find(catalogue, at.get(run.run))) ids.insert(e->id);
      }
  return ids;
}

ReportSection material_section(const std::vector<RunResult>& results) {
  const auto catalogue = materials::load_catalogue();
  const auto ids = materials_in_use(results, catalogue);
  ReportTable table{
      "Grade A: direct equine test with known spread; B: direct but thin; C: surrogate or handbook; D: assumed",
      {"material", "law", "parameter", "value", "range", "grade", "source"},
      {}};
  for (const materials::Entry& e : catalogue.entries) {
    if (!ids.contains(e.id)) continue;
    for (const auto& [name, p] : e.parameters)
      table.rows.push_back({e.id, e.law, name, viz::number_text(p.value) + " " + p.unit,
                            viz::number_text(p.low) + " to " + viz::number_text(p.high), std::string(1, p.grade),
                            p.source});
  }
  ReportSection section{"Materials", {std::move(table)}, false};
  for (const RunResult& run : results)
    for (const MaterialOverride& o : run.run.overrides)
      section.blocks.push_back(ReportText{run.run.name + ": " + o.material + " " + o.parameter + " = " +
                                          viz::number_text(o.value) + " " + o.unit + " instead"});
  return section;
}

ReportSection contact_section(const Case& run) {
  return {
      "Contacts, ties, nails, loads",
      {ReportList{
           {"Shoe, pad, packing, sole, wall and ground touch unilaterally, with Coulomb friction from the catalogue.",
            "The wall hangs on the bone by a nonlinear lamellar layer; the bone is rigid and is the frame; the ground "
            "moves.",
            "Nails are springs with a clinch preload; packing that goes in before nailing is squeezed as the shoe "
            "closes.",
            "The tendon is a frictionless cable over the navicular; its slack length is found on the baseline and "
            "frozen."}},
       key_table(run, "The baseline's loads and ground", {"nails", "ground", "load"})},
      false};
}

ReportSection solver_section(const std::vector<RunResult>& results) {
  ReportTable table{"Equilibrium of every solved phase: what is missing, relative to the load",
                    {"option", "phase", "model", "force", "moment", "ledger at the bone", "ledger at the ground"},
                    {}};
  for (const RunResult& run : results)
    for (const ModelResult& model : run.models)
      for (const PhaseResult& p : model.phases) {
        if (!p.solved) continue;
        const auto cell = [](double v) { return viz::number_text(std::abs(v), 2); };
        table.rows.push_back({run.run.name, std::string(name_of(p.phase)), std::string(name_of(p.model)),
                              cell(p.balance.force), cell(p.balance.moment), cell(p.balance.bone_ledger),
                              cell(p.balance.ground_ledger)});
      }
  return {"Solver and equilibrium",
          {ReportText{
               "Quasi-static, finite strain in the soft parts, Newton steps with a line search; a step that does not "
               "converge is never accepted."},
           std::move(table)},
          false};
}

ReportSection trust_section() {
  return {
      "Verification and validation",
      {ReportText{
           "The solver is checked against closed solutions (thick cylinder, contact of spheres and strips, bending, "
           "large rotation, inflation, friction), against other programs and against a three-dimensional foot; the "
           "numbers and the "
           "misses stand in docs/validation.md and docs/verification-index.md, and bash tests/run.sh runs them."},
       ReportText{
           "Against horses: docs/effects.md holds published effects beside the model's, hits and misses; hoofload "
           "check-effects solves them anew. No measured sole pressure of a shod foot was found. Under a packing the "
           "sagittal "
           "model's sole pressure is 0.36 to 0.67 of the three-dimensional reference's."}},
      false};
}

ReportSection bars_section(const std::vector<RunResult>& results, const Comparison& comparison) {
  ReportTable table{
      "Quantities that both models give, baseline: their distance is a lower bound of the model-form error",
      {"quantity", "phase", "axisymmetric", "sagittal", "at least"},
      {}};
  for (const FormError& f : comparison.form_errors)
    if (f.run == results.front().run.name && f.bound() > kNothing)
      table.rows.push_back({words_and_unit_of(f.quantity->key), std::string(name_of(f.phase)),
                            viz::number_text(f.axisymmetric), viz::number_text(f.sagittal),
                            viz::number_text(f.bound())});
  const bool sampled = results.front().run.study.samples > 0;
  return {"Bars and intervals",
          {ReportText{"± is the error of the mesh alone, from a twin of half the density (docs/error-bars.md). A "
                      "change within its bar "
                      "is called the same."},
           ReportText{sampled ? "Input ranges were sampled."
                              : "Input ranges were not sampled: no interval says how much the "
                                "unknown stiffness of this foot would change the numbers."},
           std::move(table)},
          false};
}

ReportSection limits_section(const ResultContext& context) {
  ReportSection section{"Limits, and notes on this comparison", {}, false};
  section.blocks.push_back(ReportList{
      {"No impact, vibration, growth, wear or pumping of blood; no medial or lateral imbalance; no hind limb.",
       "Materials are class values with wide ranges; single values are no measurements, differences are what to read.",
       "The axisymmetric model has no toe, heel or frog: setback, breakover, elevation and bars leave it unchanged.",
       "The tendon changes by its stretch alone: the muscle does not answer, so the relief by an elevation is an upper "
       "bound."}});
  if (!context.warnings.empty()) section.blocks.push_back(ReportList{context.warnings});
  return section;
}

ReportSection repeat_section(const std::vector<RunResult>& results, const ResultContext& context) {
  ReportSection section{"Provenance: how to repeat it", {}, false};
  section.blocks.push_back(
      ReportText{provenance_line(results) + ". Case: " + context.case_file +
                 ". SHA-256 of the resolved runs: " + comparison_fingerprint(results) +
                 ". Free software (GPL-2.0-or-later). Save a run below as a file and call: hoofload run FILE."});
  for (const RunResult& run : results) section.blocks.push_back(viz::ReportVerbatim{resolved_case_toml(run.run)});
  return section;
}

}  // namespace

std::vector<ReportSection> basis_sections(const std::vector<RunResult>& results, const Comparison& comparison,
                                          const ResultContext& context) {
  const Case& base = results.front().run;
  return {use_section(),
          geometry_section(base),
          mesh_section(provenance_json(context.case_file, results)),
          material_section(results),
          contact_section(base),
          solver_section(results),
          trust_section(),
          bars_section(results, comparison),
          limits_section(context),
          repeat_section(results, context)};
}

}  // namespace hoofload::scenarios
