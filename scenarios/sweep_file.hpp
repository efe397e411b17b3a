// Results of a sweep in one SQLite file. A run is one transaction: it is there whole or not at all, whenever the
// program is killed. Only this folder's sweep_file.cpp knows SQLite.
#pragma once

#include "scenarios/sweep_runs.hpp"

#include <filesystem>
#include <set>
#include <stdexcept>

struct sqlite3;

namespace hoofload::scenarios {

/// What a file belongs to: written once when it is made, compared whenever it is opened again.
struct SweepIdentity {
  std::string plan_sha256;
  std::string program;  ///< version and commit
  std::size_t runs = 0;
  std::string inputs;  ///< names and units of what varies, as JSON [["shoe.setback", "mm"], ...]
  std::string title;
  std::string base_toml;  ///< the resolved base case, all runs
  std::string method;     ///< of the plan: grid, sobol indices, ...
  std::size_t samples = 0;
  bool operator==(const SweepIdentity&) const = default;
};

[[nodiscard]] SweepIdentity identity_of(const Sweep& sweep);

/// One sentence with the file's path and what is wrong with it.
struct SweepFileError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// The file, open and locked against any other program. All members throw SweepFileError.
class SweepFile {
 public:
  /// Opens a file that exists.
  explicit SweepFile(const std::filesystem::path& path);
  /// Opens or makes it; one of another plan or program is refused.
  SweepFile(const std::filesystem::path& path, const SweepIdentity& identity);
  SweepFile(SweepFile&&) noexcept = default;

  [[nodiscard]] const SweepIdentity& identity() const { return identity_; }
  [[nodiscard]] std::set<std::size_t> finished() const;

  /// One transaction. The run must not be there.
  void add(const SweepRun& run);

  /// A run with its settings and rows, in the order of add.
  [[nodiscard]] SweepRun read(std::size_t run) const;

  /// Sum of the seconds that the finished runs took.
  [[nodiscard]] double seconds() const;

 private:
  struct Close {
    void operator()(sqlite3* handle) const;
  };
  void open(bool may_create);

  std::filesystem::path path_;
  std::unique_ptr<sqlite3, Close> handle_;
  SweepIdentity identity_;
};

}  // namespace hoofload::scenarios
