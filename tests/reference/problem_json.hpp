// A problem as JSON, for programs that know nothing of hoofload: places, elements with laws, what is held, nodal loads, ties,
// lines in contact and what is to be read; with hoofload's own reading.
#pragma once

#include <nlohmann/json.hpp>

#include "tests/reference/own_foot.hpp"

namespace hoofload::reference {

using Json = nlohmann::ordered_json;

[[nodiscard]] inline std::string law_name(const materials::Material& law) {
  return std::visit([](const auto& m) { return std::string(m.name); }, law);
}

[[nodiscard]] inline Json edges_json(const mesh::EdgeSet& set) {
  Json out = Json::array();
  for (const auto& e : set.edges) out.push_back({e.a, e.b, e.mid});
  return out;
}

[[nodiscard]] inline Json reading_json(const Reading& r) {
  return {
      {"sink_mm", r.sink}, {"load_N", r.load}, {"share_pct", r.share}, {"p_mean_MPa", r.mean}, {"p_peak_MPa", r.peak}};
}

inline void add_bodies(Json& out, const Problem& p) {
  for (const auto& X : p.mesh.X) out["X"].push_back({X.x(), X.y()});
  for (const auto& block : p.model.solids) {
    const Isotropic m = isotropic(block.material);
    Json body{{"region", block.region}, {"law", law_name(block.material)}, {"mu", m.mu}, {"kappa", m.kappa}};
    if (const auto* yeoh = std::get_if<materials::Yeoh>(&block.material)) body["C20"] = yeoh->C20;
    body["tri"] = block.nodes;
    out["blocks"].push_back(std::move(body));
  }
}

inline void add_boundary(Json& out, const Problem& p) {
  out["held"] = Json::array();
  for (const Held& h : p.held) out["held"].push_back({h.node, h.component, h.value});
  out["loads"] = Json::array();
  for (const auto& load : p.model.dead_loads)
    if (load.force != 0) out["loads"].push_back({load.dof / 2, load.dof % 2, load.force});
  out["ties"] = Json::array();
  for (const auto& pair : p.model.pairs)
    for (std::size_t k = 0; pair.bond == solver::Bond::tied && k < pair.slave.size(); ++k)
      out["ties"].push_back({pair.slave[k], pair.master[k]});
  out["contact"] = Json::array();
  for (const Touching& t : p.contact)
    out["contact"].push_back({{"slave", edges_json(t.slave)}, {"master", t.master ? edges_json(*t.master) : Json()}});
}

/// `breadth` [mm] of a plane-strain problem.
[[nodiscard]] inline Json problem_json(const Problem& p, double breadth) {
  Json out{{"name", p.name}, {"finite", p.finite}};
  out["symmetry"] = p.model.symmetry == solver::Symmetry::axisymmetric ? "axisymmetric" : "plane strain";
  out["breadth"] = breadth;
  add_bodies(out, p);
  add_boundary(out, p);
  out["read"] = {{"filling", p.filling},
                 {"line", edges_json(p.line)},
                 {"facing", edges_json(p.facing)},
                 {"from", p.from},
                 {"to", p.to},
                 {"sinking", p.sinking},
                 {"load", p.load},
                 {"sink_node", p.sink_node}};
  return out;
}

}  // namespace hoofload::reference
