// The default foot, model by model: where a solve's time goes, and the speed targets that concern it (docs/performance.md).
// One JSON object per line: {"line", "target", "measured", ...}; times are processor time, ratios are what to read.
// bench_targets [DENSITY]
// bench_targets --first axisymmetric|sagittal FILE    one result from a kept solution, for the time of the whole process
#include <malloc.h>

#include <Eigen/SparseCholesky>
#include <chrono>
#include <cmath>
#include <ctime>
#include <fstream>
#include <iostream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <thread>

#include "scenarios/build_model.hpp"
#include "scenarios/comparison.hpp"
#include "scenarios/keep_memory.hpp"
#include "scenarios/quantities.hpp"
#include "scenarios/solution_file.hpp"
#include "scenarios/warm_start.hpp"
#include "solver/multifrontal/factorisation.hpp"

namespace {

using namespace hoofload;
using namespace hoofload::scenarios;
using nlohmann::ordered_json;

double seconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

/// Least processor time of several repeats [s].
template <class Work>
double least(int repeats, Work&& work) {
  double best = 1e300;
  for (int r = 0; r < repeats; ++r) {
    const double start = seconds();
    work();
    best = std::min(best, seconds() - start);
  }
  return best;
}

struct Bench {
  materials::Catalogue catalogue = materials::load_catalogue();
  double density = 1;
  ModelKind kind = ModelKind::axisymmetric;

  [[nodiscard]] std::shared_ptr<BuiltModel> build(const Case& run) const {
    return std::make_shared<BuiltModel>(kind == ModelKind::sagittal ? build_sagittal(run, catalogue, density)
                                                                    : build_axisymmetric(run, catalogue, density));
  }
};

/// The default foot at mid-stance: what a user gets who gives nothing.
Case default_run() {
  Case run;
  run.load.phases = {Phase::midstance};
  return run;
}

/// Parameters moved by 5 %, one at a time: geometry, a load, a place.
std::vector<std::pair<std::string, Case>> moved_runs() {
  std::vector<std::pair<std::string, Case>> runs;
  const auto add = [&](const char* name, auto&& change) {
    Case run = default_run();
    change(run);
    runs.emplace_back(name, run);
  };
  add("sole depth", [](Case& c) { c.foot.sole_depth_tip *= 1.05; });
  add("mass", [](Case& c) { c.horse.mass *= 1.05; });
  add("wall thickness at the quarter", [](Case& c) { c.foot.wall_thickness_quarter *= 1.05; });
  return runs;
}

struct Cold {
  std::shared_ptr<BuiltModel> built;
  PhaseSolution solution;
  TendonSlack slack;
  double build_s = 0, solve_s = 0;
};

Cold cold(const Bench& bench, const Case& run, const TendonSlack* slack) {
  Cold c;
  const double start = seconds();
  c.built = bench.build(run);
  const double made = seconds();
  if (slack != nullptr) c.slack = *slack;
  c.solution = solve_phases(c.built, run, c.slack, slack == nullptr).back();
  c.build_s = made - start, c.solve_s = seconds() - made;
  if (!c.solution.solved) throw std::runtime_error("not solved: " + c.solution.why);
  return c;
}

struct Parts {
  int unknowns = 0;
  double analyse = 0, assembly = 0, energy = 0, factor = 0, solve = 0, simplicial = 0;
};

/// The parts of one Newton step at a solved state, and Eigen's factorisation of the same matrix.
Parts parts_of(const Cold& c) {
  const solver::System& system = *c.built->system;
  solver::Assembly assembly;
  std::vector<solver::MixedRecovery> recovery;
  Parts p;
  p.assembly = least(5, [&] { system.assemble(c.solution.state, c.solution.loading, assembly, recovery); });
  double energy = 0;
  p.energy = least(5, [&] { energy += system.energy(c.solution.state, c.solution.loading); });
  solver::SparseMatrix A = system.hessian(assembly);
  for (int i = 0; i < A.cols(); ++i) A.coeffRef(i, i) += 1e-3 * std::abs(A.coeff(i, i)) + 1e-6;
  p.unknowns = static_cast<int>(A.cols());
  solver::multifrontal::Factorisation own(A);
  p.analyse = least(1, [&] { own = solver::multifrontal::Factorisation(A); });
  bool done = true;
  p.factor = least(5, [&] { own.forget(), done = done && own.factorise(A); });
  const Eigen::VectorXd b = Eigen::VectorXd::Ones(A.cols());
  Eigen::VectorXd x;
  if (done) p.solve = least(5, [&] { x = own.solve(b); });
  Eigen::SimplicialLDLT<solver::SparseMatrix, Eigen::Lower, Eigen::AMDOrdering<int>> reference;
  reference.analyzePattern(A);
  p.simplicial = least(5, [&] { reference.factorize(A); });
  return p;
}

/// Multiplications and additions of the sums f += w B^T P, K += w B^T A B of all solid elements, of the mixed elements'
/// condensation, and of the layers' and springs' sums; of symmetric matrices half. Laws and places in the matrix are not counted.
double kernel_operations(const solver::Model& model) {
  double sum = 0;
  for (const auto& block : model.solids) {
    const bool mixed = block.formulation == solver::Formulation::mixed;
    const double n = mixed ? 7 : 6;
    const double point = 60 + 30 + 10 * n + 40 * n + 20 * n * (n + 1) / 2 + (mixed ? 14 * 12 : 0);
    const double condensation = mixed ? 252 + 630 + 96 + 312 : 0;
    sum += static_cast<double>(block.nodes.size()) * (block.points_per_element * point + condensation);
  }
  for (const auto& block : model.layers)
    for (const auto& points : block.points) sum += static_cast<double>(points.size()) * (36 * 20 + 8 * 7);
  for (const auto& group : model.springs)
    for (const auto& spring : group.springs) {
      const auto n = static_cast<double>(spring.measure.size());
      sum += 4 * n + n * (n + 1);
    }
  return sum;
}

/// Seconds of one multiplication or addition in packets of two doubles, everything in registers.
double operation_seconds() {
  using Packet [[gnu::vector_size(16)]] = double;
  constexpr int turns = 4000000;
  double kept = 0;
  const double s = least(3, [&] {
    Packet a{1, 1}, b = a, c = a, d = a, e = a, f = a;
    const Packet x{0.999, 0.999}, y{0.001, 0.001};
    for (int k = 0; k < turns; ++k) {
      a = a * x + y, b = b * x + y, c = c * x + y, d = d * x + y, e = e * x + y, f = f * x + y;
      asm volatile("" : "+x"(a), "+x"(b), "+x"(c), "+x"(d), "+x"(e), "+x"(f));
    }
    kept += a[0] + b[0] + c[0] + d[0] + e[0] + f[0];
  });
  return kept > 0 ? s / (24.0 * turns) : 0;
}

void say(const ordered_json& line) { std::cout << line.dump() << '\n' << std::flush; }

std::string name(const Bench& bench) { return std::string(name_of(bench.kind)); }

double largest_difference(const Quantities& a, const Quantities& b, std::string& where) {
  double worst = 0;
  for (const auto& [key, value] : a) {
    const auto it = b.find(key);
    if (it == b.end()) continue;
    const double size = std::max({std::abs(value), std::abs(it->second), 1e-3});
    if (std::abs(value - it->second) / size > worst) worst = std::abs(value - it->second) / size, where = key;
  }
  return worst;
}

void warm_lines(const Bench& bench, const Cold& anchor, double unit) {
  for (const auto& [what, run] : moved_runs()) {
    const Cold reference = cold(bench, run, &anchor.slack);
    const double start = seconds();
    const auto built = bench.build(run);
    const double made = seconds();
    TendonSlack slack = anchor.slack;
    const auto warm = solve_warm(*anchor.built, anchor.solution, *built, run, slack);
    const double solved = seconds();
    ordered_json line{{"line", "warm variant, " + name(bench) + ", " + what}, {"target", "<= 8 factorisations"}};
    if (!warm) {
      line["measured"] = "no warm start";
      say(line);
      continue;
    }
    std::string where;
    line["measured"] = (solved - made) / unit;
    line["with_building"] = (solved - start) / unit;
    line["with_building_ms"] = 1e3 * (solved - start);
    line["cold"] = reference.solve_s / unit;
    line["steps"] = warm->path.iterations, line["factorisations"] = warm->path.factorisations;
    line["largest_difference_to_cold"] =
        largest_difference(measure(*reference.built, run, reference.solution), measure(*built, run, *warm), where);
    line["of"] = where;
    say(line);
  }
}

/// The same variants by one thread and by two, each with models of its own: elapsed time, and processor time. As many as fill
/// some seconds, so that what a thread's first model costs (its memory) weighs as little as in a study.
void thread_line(const Bench& bench, const TendonSlack& slack, double one_s) {
  const auto work = [&](int count) {
    for (int k = 0; k < count; ++k) (void)cold(bench, default_run(), &slack);
  };
  const auto timed = [](auto&& job) {
    const auto start = std::chrono::steady_clock::now();
    const double cpu = seconds();
    job();
    return std::pair{std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count(), seconds() - cpu};
  };
  const int half = std::max(2, static_cast<int>(1.5 / one_s));
  const auto one = timed([&] { work(2 * half); });
  const auto two = timed([&] {
    std::thread other([&] { work(half); });
    work(half);
    other.join();
  });
  say({{"line", "two threads over variants, " + name(bench)},
       {"target", ">= 1.9"},
       {"variants", 2 * half},
       {"measured", one.first / two.first},
       {"processor_time_of_two_over_one", two.second / one.second},
       {"elapsed_over_processor_time_of_one", one.first / one.second}});
}

/// The default foot as a page shows it that was shown before: built, its solution read from the file, its numbers read off.
/// Without the file it is solved and the file written.
void first_result(const Bench& bench, const std::string& file) {
  const Case run = default_run();
  std::ifstream stream(file, std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(stream), {}};
  const auto stored = from_bytes(bytes, "bench");
  if (!stored) {
    const Cold c = cold(bench, run, nullptr);
    std::ofstream(file, std::ios::binary) << to_bytes({"default", {c.solution}, c.slack.length}, "bench");
    return;
  }
  const auto built = bench.build(run);
  if (!fits(*stored, *built)) throw std::runtime_error(file + ": of another model");
  const Quantities read = measure(*built, run, stored->phases.front());
  say({{"line", "first result, " + name(bench)}, {"quantities", read.size()}, {"bone_sink", read.at("bone_sink")}});
}

void model_lines(const Bench& bench) {
  const double start = seconds();
  const Cold c = cold(bench, default_run(), nullptr);
  const double first = seconds() - start;
  const Parts p = parts_of(c);
  const auto& path = c.solution.path;
  say({{"line", "parts, " + name(bench)},
       {"nodes", c.built->mesh.X.size()},
       {"unknowns", p.unknowns},
       {"build_ms", 1e3 * c.build_s},
       {"analyse_ms", 1e3 * p.analyse},
       {"assembly_ms", 1e3 * p.assembly},
       {"energy_ms", 1e3 * p.energy},
       {"factor_ms", 1e3 * p.factor},
       {"solve_ms", 1e3 * p.solve},
       {"simplicial_ldlt_ms", 1e3 * p.simplicial},
       {"steps", path.iterations},
       {"factorisations", path.factorisations},
       {"residual", path.residual},
       {"heap_MiB", static_cast<double>(mallinfo2().uordblks) / 1048576}});
  say({{"line", "cold solve, " + name(bench)},
       {"target", "<= 25 factorisations"},
       {"measured", c.solve_s / p.simplicial},
       {"with_building", first / p.simplicial}});
  const double floor = kernel_operations(c.built->system->model()) * operation_seconds();
  say({{"line", "assembly over its kernel's floor, " + name(bench)},
       {"target", "<= 3"},
       {"measured", p.assembly / floor},
       {"floor_ms", 1e3 * floor}});
  warm_lines(bench, c, p.simplicial);
  thread_line(bench, c.slack, c.build_s + c.solve_s);
}

}  // namespace

int main(int argc, char** argv) {
  try {
    keep_memory();  // as where the program solves on threads
    Bench bench;
    const double loaded = seconds();
    say({{"line", "start to catalogue"}, {"ms", 1e3 * loaded}});
    if (argc == 4 && std::string(argv[1]) == "--first") {
      bench.kind = std::string(argv[2]) == "sagittal" ? ModelKind::sagittal : ModelKind::axisymmetric;
      first_result(bench, argv[3]);
      return 0;
    }
    if (argc > 1) bench.density = std::stod(argv[1]);
    for (bench.kind = ModelKind::axisymmetric;; bench.kind = ModelKind::sagittal) {
      model_lines(bench);
      if (bench.kind == ModelKind::sagittal) return 0;
    }
  } catch (const std::exception& error) {
    std::cerr << "bench_targets: " << error.what() << '\n';
    return 4;
  }
}
