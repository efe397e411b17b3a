// The demo comparison, run by run and model by model: size, Newton steps, factorisations and processor time of each phase.
// bench_compare [DENSITY] [CASE]
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <iomanip>
#include <iostream>
#include <sstream>

#include "scenarios/build_model.hpp"
#include "scenarios/comparison.hpp"
#include "scenarios/material_words.hpp"
#include "scenarios/phases.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::scenarios;

std::string demo_case() {
  return (materials::data_directory().parent_path() / "scenarios" / "cases" / "demo.toml").string();
}

double seconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

std::vector<Case> runs_of(const std::string& file, const materials::Catalogue& catalogue) {
  std::ifstream in(file);
  std::stringstream text;
  text << in.rdbuf();
  CaseReading reading = read_case(text.str(), file, material_words(catalogue));
  if (reading.errors.empty()) return reading.runs;
  std::cerr << "bench_compare: " << file << " has errors; see hoofload check\n";
  std::exit(1);
}

struct Total {
  double build = 0, solve = 0;
  int iterations = 0, factorisations = 0;
};

void add_run(const Case& run, ModelKind kind, const materials::Catalogue& catalogue, double density, TendonSlack& slack,
             bool baseline, Total& total) {
  const double start = seconds();
  const auto built =
      std::make_shared<BuiltModel>(kind == ModelKind::sagittal ? build_sagittal(run, catalogue, density)
                                                               : build_axisymmetric(run, catalogue, density));
  const double made = seconds();
  const auto phases = solve_phases(built, run, slack, baseline);
  const double solved = seconds();
  total.build += made - start, total.solve += solved - made;
  std::cout << std::left << std::setw(44) << run.name << std::setw(14) << name_of(kind) << std::right << std::setw(7)
            << built->mesh.X.size() << " nodes, build " << made - start << " s, solve " << solved - made << " s;";
  for (const auto& phase : phases) {
    total.iterations += phase.path.iterations, total.factorisations += phase.path.factorisations;
    std::cout << ' ' << name_of(phase.phase) << ' ' << phase.path.iterations << '/' << phase.path.factorisations
              << (phase.solved ? "" : " NOT SOLVED");
  }
  std::cout << '\n';
}

}  // namespace

int main(int argc, char** argv) {
  const double density = argc > 1 ? std::stod(argv[1]) : 1;
  const auto catalogue = materials::load_catalogue();
  const auto runs = runs_of(argc > 2 ? argv[2] : demo_case(), catalogue);
  std::cout << std::fixed << std::setprecision(2) << "each phase: Newton steps / factorisations\n";
  for (const ModelKind kind : {ModelKind::axisymmetric, ModelKind::sagittal}) {
    TendonSlack slack;
    Total total;
    for (const Case& run : runs) add_run(run, kind, catalogue, density, slack, &run == &runs.front(), total);
    std::cout << name_of(kind) << ", all: build " << total.build << " s, solve " << total.solve << " s, "
              << total.iterations << " steps, " << total.factorisations << " factorisations\n";
  }
}
