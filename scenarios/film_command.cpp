// hoofload film: the stance as field files over time, for any program that reads VTK's formats.
#include <algorithm>
#include <cmath>
#include <iostream>

#include "scenarios/commands.hpp"
#include "scenarios/drawings.hpp"
#include "scenarios/fields.hpp"
#include "scenarios/progress.hpp"
#include "scenarios/result_files.hpp"
#include "scenarios/stance_frames.hpp"
#include "viz/vtu.hpp"

namespace hoofload::scenarios {

namespace {

namespace fs = std::filesystem;

std::vector<mesh::Vec2> closed(std::vector<mesh::Vec2> points) {
  if (!points.empty()) points.push_back(points.front());
  return points;
}

/// Everything of a side view that has no mesh. Like all drawings it is laid out for displacements magnified by
/// kDeformationScale.
std::vector<viz::VtuLine> lines_of(const viz::SideView& view) {
  std::vector<viz::VtuLine> lines{
      {"outer wall", view.outer_wall, 0}, {"inner wall", view.inner_wall, 0}, {"coronet", view.coronet, 0}};
  for (const viz::Shape& bone : view.bones) lines.push_back({bone.name, closed(bone.points), 0});
  if (view.ground && view.window) {
    const auto at = [&](double x) -> mesh::Vec2 {
      return view.ground->point + (x - view.ground->point.x()) / view.ground->direction.x() * view.ground->direction;
    };
    lines.push_back({"ground", {at(view.window->low.x()), at(view.window->high.x())}, 0});
  }
  for (const viz::ForceArrow& f : view.forces)
    lines.push_back({f.name, {f.at, f.at + view.mm_per_newton * f.force}, f.force.norm()});
  for (const viz::CablePath& c : view.cables) lines.push_back({c.name, c.path, c.tension});
  return lines;
}

std::string stem_of(std::size_t place, std::size_t run) {
  const std::string number = std::to_string(place);
  return std::string(3 - std::min<std::size_t>(3, number.size()), '0') + number + "_" + std::to_string(run);
}

/// Parts 3 r, 3 r + 1, 3 r + 2 of a time: core and shoe of run r, its capsule, its lines.
std::vector<viz::PvdEntry> write_places(const std::vector<StanceFrames>& all, const fs::path& folder) {
  std::vector<viz::PvdEntry> entries;
  std::vector<std::vector<RunResult>> places;
  for (const StanceFrames& f : all) places.resize(std::max(places.size(), f.states.size()));
  std::vector<Drawn> drawn;
  std::vector<std::size_t> place_of;
  for (std::size_t k = 0; k < places.size(); ++k) {
    places[k] = results_at(all, k);
    for (const Drawn& d : drawn_runs(places[k], ModelKind::sagittal, Phase::stance)) {
      drawn.push_back(d);
      place_of.push_back(k);
    }
  }
  const std::vector<SideDrawing> drawings = drawn_together(drawn);
  for (std::size_t n = 0; n < drawings.size(); ++n) {
    const Drawn& d = drawings[n].drawn;
    const std::string stem = "stance/" + stem_of(place_of[n], d.run);
    const std::vector<std::pair<std::string, std::string>> files{
        {stem + ".vtu", plane_vtu(*d.built, d.phase->solution)},
        {stem + "_capsule.vtu", capsule_vtu(*d.built, d.phase->solution)},
        {stem + "_lines.vtu", viz::vtu(lines_of(drawings[n].view))}};
    const double share = std::round(1000 * all[d.run].shares[place_of[n]]) / 10;
    for (std::size_t part = 0; part < files.size(); ++part) {
      write_file(folder / files[part].first, files[part].second);
      entries.push_back({share, static_cast<int>(files.size() * d.run + part), files[part].first});
    }
  }
  return entries;
}

/// Exit code 4 if a run has no place at all; one that ends early is told of.
int report_ends(const std::vector<StanceFrames>& all, const FilmRequest& request) {
  int code = exit_done;
  for (const StanceFrames& f : all) {
    if (f.ended.empty()) continue;
    if (f.states.empty()) code = exit_not_converged;
    if (f.states.empty() || !request.quiet)
      std::cerr << request.case_file << ": " << f.run.name << ": the stance ends after "
                << (f.shares.empty() ? std::string("nothing")
                                     : std::to_string(std::lround(100 * f.shares.back())) + " %")
                << ": " << f.ended << '\n';
  }
  return code;
}

}  // namespace

int film_command(const FilmRequest& request) {
  const auto places = static_cast<std::size_t>(request.places);
  const Progress bar = start_progress(request.runs.size() * places, request.quiet ? Talk::quiet : Talk::normal);
  const auto all = stance_frames(request.runs, materials::load_catalogue(), request.places,
                                 [&](const RunProgress& p) { show_progress(bar, p.done, p.what); });
  end_progress(bar);
  try {
    const auto entries = write_places(all, request.out);
    write_file(request.out / "stance.pvd", viz::pvd(entries));
    std::string names;
    for (const StanceFrames& f : all) names += f.run.name + "\n";
    write_file(request.out / "runs.txt", names);
    std::cout << (request.out / "stance.pvd").string() << '\n';
    if (!request.quiet) std::cerr << entries.size() << " field files (VTU) of " << all.size() << " runs\n";
    return report_ends(all, request);
  } catch (const std::runtime_error& e) {
    std::cerr << "hoofload: " << e.what() << '\n';
    return exit_system;
  }
}

}  // namespace hoofload::scenarios
