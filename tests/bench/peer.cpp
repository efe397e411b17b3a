// One whole-process run of the section that three general programs solved (tests/reference): a JSON line with time, memory
// and quantities.
// bench_peer --mesh FILE --peer-case a|b|c [--size 2k|5k|20k|80k] [--kappa MPa] [--element mixed|displacement]
//
// The mesh is read, as the other programs read theirs: nobody's time contains the making of it. `laps_s`: processor time of
// the parts.
#include <sys/resource.h>

#include <CLI/CLI.hpp>
#include <iostream>
#include <nlohmann/json.hpp>

#include "tests/reference/mesh_file.hpp"
#include "tests/reference/peer_foot.hpp"

namespace {

rusage usage() {
  rusage u{};
  getrusage(RUSAGE_SELF, &u);
  return u;
}
double user_seconds() {
  const rusage u = usage();
  return static_cast<double>(u.ru_utime.tv_sec) + 1e-6 * static_cast<double>(u.ru_utime.tv_usec);
}

}  // namespace

int main(int argc, char** argv) {
  using namespace hoofload;
  CLI::App app{"hoofload on the section that other programs solved"};
  reference::PeerFoot foot;
  std::string variant = "c", size = "5k", element = "mixed", file;
  const std::map<std::string, mesh::PeerSize> sizes{{"2k", mesh::PeerSize::k2},
                                                    {"5k", mesh::PeerSize::k5},
                                                    {"20k", mesh::PeerSize::k20},
                                                    {"80k", mesh::PeerSize::k80}};
  app.add_option("--peer-case", variant, "a linear, b finite strain, c with contact")
      ->check(CLI::IsMember({"a", "b", "c"}));
  app.add_option("--mesh", file, "file that bench_peer_mesh wrote")->required();
  app.add_option("--size", size, "nodes")->check(CLI::IsMember({"2k", "5k", "20k", "80k"}));
  app.add_option("--kappa", foot.kappa, "bulk modulus of the filling [MPa]")->check(CLI::PositiveNumber);
  app.add_option("--element", element, "of the filling")->check(CLI::IsMember({"mixed", "displacement"}));
  CLI11_PARSE(app, argc, argv);
  foot.variant = variant[0];
  foot.size = sizes.at(size);
  foot.filling = element == "mixed" ? solver::Formulation::mixed : solver::Formulation::displacement;
  nlohmann::ordered_json out{{"program", "hoofload"}, {"size", size}, {"case", variant}, {"kappa", foot.kappa}};
  out["element"] = element;
  try {
    const double started = user_seconds();
    mesh::PlaneMesh mesh = reference::read_mesh(file);
    const double read = user_seconds();
    reference::Problem problem = reference::peer_foot(foot, std::move(mesh));
    const double made = user_seconds();
    out["nodes"] = problem.mesh.X.size();
    const reference::Solution s = reference::solve(std::move(problem));
    const double solved = user_seconds();
    out["user_s"] = solved;
    out["rss_MiB"] = usage().ru_maxrss / 1024;
    out["laps_s"] = {{"start", started}, {"read", read - started}, {"elements", made - read}, {"solve", solved - made}};
    out["iterations"] = s.effort.iterations;
    out["factorisations"] = s.effort.factorisations;
    out["sink_mm"] = s.reading.sink;
    out["share_pct"] = s.reading.share;
    out["p_mean_MPa"] = s.reading.mean;
    out["p_peak_MPa"] = s.reading.peak;
  } catch (const std::exception& error) {
    std::cerr << "bench_peer: " << error.what() << '\n';
    return 4;
  }
  std::cout << out.dump() << '\n';
}
