// One whole-process run of the section that three general programs solved (tests/reference): a JSON line with time, memory
// and quantities.
// bench_peer --peer-case a|b|c [--size 2k|5k|20k|80k] [--kappa MPa] [--element mixed|displacement]
#include <sys/resource.h>

#include <CLI/CLI.hpp>
#include <iostream>
#include <nlohmann/json.hpp>

#include "tests/reference/peer_foot.hpp"

int main(int argc, char** argv) {
  using namespace hoofload;
  CLI::App app{"hoofload on the section that other programs solved"};
  reference::PeerFoot foot;
  std::string variant = "c", size = "5k", element = "mixed";
  const std::map<std::string, mesh::PeerSize> sizes{{"2k", mesh::PeerSize::k2},
                                                    {"5k", mesh::PeerSize::k5},
                                                    {"20k", mesh::PeerSize::k20},
                                                    {"80k", mesh::PeerSize::k80}};
  app.add_option("--peer-case", variant, "a linear, b finite strain, c with contact")
      ->check(CLI::IsMember({"a", "b", "c"}));
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
    const reference::Problem problem = reference::peer_foot(foot);
    const reference::Solution s = reference::solve(problem);
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    out["nodes"] = problem.mesh.X.size();
    out["user_s"] = static_cast<double>(usage.ru_utime.tv_sec) + 1e-6 * static_cast<double>(usage.ru_utime.tv_usec);
    out["rss_MiB"] = usage.ru_maxrss / 1024;
    out["iterations"] = s.effort.iterations;
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
