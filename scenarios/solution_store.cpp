// The folder of solution_file.hpp.
#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <iterator>

#include "scenarios/provenance.hpp"
#include "scenarios/sha256.hpp"
#include "scenarios/solution_file.hpp"

namespace hoofload::scenarios {

namespace {

namespace fs = std::filesystem;

constexpr const char* kSuffix = ".solved";

fs::path file_of(const SolutionStore& store, const std::string& key) {
  return store.folder / (sha256(store.program + "\n" + key).substr(0, 32) + kSuffix);
}

/// The program's own file as it is now: a build from changed sources is another program under the same commit.
std::string program_of_this_process() {
  std::error_code error;
  const fs::path self = fs::read_symlink("/proc/self/exe", error);
  const auto size = fs::file_size(self, error);
  const auto made = fs::last_write_time(self, error).time_since_epoch().count();
  return program_line() + ", " + std::to_string(size) + " bytes of " + std::to_string(made);
}

void make_room(const SolutionStore& store) {
  std::error_code error;
  std::vector<std::pair<fs::file_time_type, fs::path>> files;
  for (const auto& entry : fs::directory_iterator(store.folder, error))
    if (entry.path().extension() == kSuffix) files.emplace_back(entry.last_write_time(error), entry.path());
  std::sort(files.begin(), files.end());
  for (std::size_t k = 0; k + store.most < files.size(); ++k) fs::remove(files[k].second, error);
}

}  // namespace

std::optional<SolutionStore> users_store() {
  const char* cache = std::getenv("XDG_CACHE_HOME");
  const char* home = std::getenv("HOME");
  if (cache != nullptr && fs::path(cache).is_absolute())
    return SolutionStore{fs::path(cache) / "hoofload", program_of_this_process()};
  if (home == nullptr || !fs::path(home).is_absolute()) return {};
  return SolutionStore{fs::path(home) / ".cache" / "hoofload", program_of_this_process()};
}

std::optional<StoredSolution> fetch(const SolutionStore& store, const std::string& key) {
  const fs::path path = file_of(store, key);
  std::ifstream stream(path, std::ios::binary);
  if (!stream) return {};
  const std::string bytes{std::istreambuf_iterator<char>(stream), {}};
  auto stored = from_bytes(bytes, store.program);
  if (!stored || stored->key != key) return {};
  std::error_code error;
  fs::last_write_time(path, fs::file_time_type::clock::now(), error);  // used just now
  return stored;
}

void put(const SolutionStore& store, const StoredSolution& stored) {
  for (const PhaseSolution& s : stored.phases)
    if (!s.solved || s.series) return;
  std::error_code error;
  fs::create_directories(store.folder, error);
  const fs::path path = file_of(store, stored.key);
  fs::path beside = path;
  beside += ".part";
  std::ofstream stream(beside, std::ios::binary);
  const std::string bytes = to_bytes(stored, store.program);
  stream.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  stream.close();
  if (!stream) {
    fs::remove(beside, error);
    return;
  }
  fs::rename(beside, path, error);  // whole or not at all
  make_room(store);
}

}  // namespace hoofload::scenarios
