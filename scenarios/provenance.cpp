#include "scenarios/provenance.hpp"

#include <Eigen/Core>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "scenarios/case_resolved.hpp"
#include "scenarios/comparison.hpp"
#include "scenarios/sha256.hpp"

#ifndef HOOFLOAD_VERSION
#define HOOFLOAD_VERSION "unknown"
#endif
#ifndef HOOFLOAD_COMMIT
#define HOOFLOAD_COMMIT "unknown"
#endif

namespace hoofload::scenarios {

namespace {

using nlohmann::json;

std::string dotted(int a, int b, int c) {
  return std::to_string(a) + "." + std::to_string(b) + "." + std::to_string(c);
}

json libraries() {
  return {
      {"Eigen", dotted(EIGEN_WORLD_VERSION, EIGEN_MAJOR_VERSION, EIGEN_MINOR_VERSION)},
      {"nlohmann_json", dotted(NLOHMANN_JSON_VERSION_MAJOR, NLOHMANN_JSON_VERSION_MINOR, NLOHMANN_JSON_VERSION_PATCH)},
      {"compiler", __VERSION__}};
}

json mesh_json(const RunResult& run, const ModelResult& model) {
  std::size_t elements = 0;
  for (const auto& block : model.built->mesh.blocks) elements += block.tri.size();
  const auto& m = model.built->system->model();
  std::size_t bricks = 0;
  for (const auto& block : m.constants) bricks += block.dofs.size();
  return {{"option", run.run.name},          {"model", name_of(model.kind)}, {"density", run.run.study.density},
          {"plane_nodes", m.X.size()},       {"plane_elements", elements},   {"bricks", bricks},
          {"unknowns", solver::dof_count(m)}};
}

}  // namespace

std::string comparison_fingerprint(const std::vector<RunResult>& results) {
  std::string text;
  for (const RunResult& run : results) text += resolved_case_toml(run.run);
  return sha256(text);
}

json provenance_json(const std::string& case_file, const std::vector<RunResult>& results) {
  json meshes = json::array(), cases = json::array();
  for (const RunResult& run : results) {
    cases.push_back(resolved_case_toml(run.run));
    for (const ModelResult& model : run.models)
      if (model.built) meshes.push_back(mesh_json(run, model));
  }
  return {{"program", "hoofload"},
          {"version", HOOFLOAD_VERSION},
          {"commit", HOOFLOAD_COMMIT},
          {"libraries", libraries()},
          {"case_file", std::filesystem::path(case_file).filename().string()},
          {"case_sha256", comparison_fingerprint(results)},
          {"case_toml", cases},
          {"seed", results.empty() ? 0 : results.front().run.study.seed},
          {"meshes", meshes}};
}

std::string program_line() { return std::string("hoofload ") + HOOFLOAD_VERSION + ", commit " + HOOFLOAD_COMMIT; }

std::string provenance_line(const std::vector<RunResult>& results) {
  return program_line() + ", case " + comparison_fingerprint(results).substr(0, 12);
}

}  // namespace hoofload::scenarios
