// Writes one problem and hoofload's own readings of it as JSON on stdout, for the drivers of other programs beside this file.
// reference_export_problem peer|foot|sheet a|b|c [--size 5k] [--kappa 169] [--density 1] [--sink 0.4]
//
// ours_displacement: every part of displacement triangles, as the other programs have them; ours: as hoofload solves it.
#include <CLI/CLI.hpp>
#include <iostream>

#include "tests/reference/peer_foot.hpp"
#include "tests/reference/problem_json.hpp"
#include "tests/reference/sheet.hpp"

namespace {

using namespace hoofload;

struct Options {
  std::string kind = "peer", variant = "a", size = "5k";
  double kappa = 169, density = 1, sink = 0.4;
};

mesh::PeerSize size_of(const std::string& name) {
  if (name == "2k") return mesh::PeerSize::k2;
  if (name == "5k") return mesh::PeerSize::k5;
  if (name == "20k") return mesh::PeerSize::k20;
  return mesh::PeerSize::k80;
}

reference::Problem problem_of(const Options& o, bool displacement_only) {
  const char variant = o.variant[0];
  if (o.kind == "peer")
    return reference::peer_foot({variant, size_of(o.size), o.kappa,
                                 displacement_only ? solver::Formulation::displacement : solver::Formulation::mixed});
  static const materials::Catalogue catalogue = materials::load_catalogue();
  if (o.kind == "foot") return reference::own_foot({variant, o.density, o.sink, displacement_only}, catalogue);
  return reference::sheet({variant, o.density, o.sink, 100, displacement_only}, catalogue);
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app{"one problem for other programs"};
  Options o;
  app.add_option("kind", o.kind)->check(CLI::IsMember({"peer", "foot", "sheet"}))->required();
  app.add_option("variant", o.variant)->check(CLI::IsMember({"a", "b", "c"}))->required();
  app.add_option("--size", o.size)->check(CLI::IsMember({"2k", "5k", "20k", "80k"}));
  app.add_option("--kappa", o.kappa)->check(CLI::PositiveNumber);
  app.add_option("--density", o.density)->check(CLI::PositiveNumber);
  app.add_option("--sink", o.sink)->check(CLI::PositiveNumber);
  CLI11_PARSE(app, argc, argv);
  try {
    const reference::Problem problem = problem_of(o, true);
    reference::Json out = reference::problem_json(problem, 100);
    out["ours_displacement"] = reference::reading_json(reference::solve(problem).reading);
    out["ours"] = reference::reading_json(reference::solve(problem_of(o, false)).reading);
    std::cout << out.dump() << '\n';
  } catch (const std::exception& error) {
    std::cerr << "reference_export_problem: " << error.what() << '\n';
    return 4;
  }
}
