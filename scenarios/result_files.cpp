#include "scenarios/result_files.hpp"

#include <cctype>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <stdexcept>

#include "scenarios/comparison.hpp"
#include "scenarios/fields.hpp"
#include "scenarios/pictures.hpp"
#include "viz/vtu.hpp"

namespace hoofload::scenarios {

namespace {

namespace fs = std::filesystem;

std::string state_stem(const std::vector<RunResult>& results, std::size_t run, const PhaseResult& phase) {
  return run_stem(results, run) + "_" + std::string(name_of(phase.phase)) + "_" + std::string(name_of(phase.model));
}

/// The plane mesh and, where there is one, the capsule, of one state.
std::vector<fs::path> write_state(const BuiltModel& built, const PhaseSolution& solution, const fs::path& stem) {
  std::vector<fs::path> written{stem.string() + ".vtu"};
  write_file(written[0], plane_vtu(built, solution));
  if (built.capsule) {
    written.push_back(stem.string() + "_capsule.vtu");
    write_file(written[1], capsule_vtu(built, solution));
  }
  return written;
}

void append(std::vector<fs::path>& to, const std::vector<fs::path>& more) {
  to.insert(to.end(), more.begin(), more.end());
}

/// All phases of one run in one model, in order, as times 0, 1, 2 ...
std::vector<fs::path> write_series(const std::vector<RunResult>& results, std::size_t run, const ModelResult& model,
                                   const fs::path& folder) {
  std::vector<fs::path> written;
  std::vector<viz::PvdEntry> entries;
  for (std::size_t k = 0; k < model.phases.size(); ++k) {
    if (!model.phases[k].solved) continue;
    const auto files =
        write_state(*model.built, model.phases[k].solution, folder / state_stem(results, run, model.phases[k]));
    for (std::size_t part = 0; part < files.size(); ++part)
      entries.push_back({static_cast<double>(k), static_cast<int>(part), files[part].filename().string()});
    append(written, files);
  }
  if (entries.empty()) return written;
  written.push_back(folder / (run_stem(results, run) + "_" + std::string(name_of(model.kind)) + ".pvd"));
  write_file(written.back(), viz::pvd(entries));
  return written;
}

}  // namespace

void write_file(const fs::path& path, const std::string& text) {
  std::error_code error;
  if (path.has_parent_path()) fs::create_directories(path.parent_path(), error);
  if (error) throw std::runtime_error(path.parent_path().string() + ": " + error.message());
  errno = 0;
  std::ofstream stream(path, std::ios::binary);
  stream.write(text.data(), static_cast<std::streamsize>(text.size()));
  stream.close();
  if (!stream)
    throw std::runtime_error(path.string() + ": " + (errno != 0 ? std::strerror(errno) : "cannot be written"));
}

std::string file_stem(const std::string& text) {
  std::string stem;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) != 0 && byte < 0x80)
      stem += static_cast<char>(std::tolower(byte));
    else if (!stem.empty() && stem.back() != '-')
      stem += '-';
  }
  while (!stem.empty() && stem.back() == '-') stem.pop_back();
  return stem.empty() ? "run" : stem.substr(0, 60);
}

std::string run_stem(const std::vector<RunResult>& results, std::size_t run) {
  const std::string place = std::to_string(run);
  return (place.size() < 2 ? "0" : "") + place + "-" + file_stem(results.at(run).run.name);
}

std::vector<fs::path> write_fields(const std::vector<RunResult>& results, const fs::path& folder) {
  std::vector<fs::path> written;
  for (std::size_t run = 0; run < results.size(); ++run)
    for (const ModelResult& model : results[run].models)
      if (model.built) append(written, write_series(results, run, model, folder / "fields"));
  return written;
}

std::vector<fs::path> write_last_good(const std::vector<RunResult>& results, const fs::path& folder) {
  std::vector<fs::path> written;
  for (std::size_t run = 0; run < results.size(); ++run)
    for (const ModelResult& model : results[run].models)
      for (const PhaseResult& phase : model.phases) {
        if (phase.solved || !model.built || phase.solution.state.q.size() == 0) continue;
        append(written,
               write_state(*model.built, phase.solution, folder / ("last-good_" + state_stem(results, run, phase))));
      }
  return written;
}

std::vector<fs::path> write_pictures(const std::vector<RunResult>& results, const fs::path& folder) {
  std::vector<fs::path> written;
  for (const Picture& picture : all_pictures(results)) {
    written.push_back(folder / "pictures" / picture.file);
    write_file(written.back(), picture.svg);
  }
  return written;
}

}  // namespace hoofload::scenarios
