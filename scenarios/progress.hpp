// A progress line on stderr with the time left, only on a terminal. (Debian has no C++ library for this.)
#pragma once

#include <chrono>
#include <cstddef>
#include <iosfwd>
#include <string>

namespace hoofload::scenarios {

struct Progress {
  std::ostream* stream;  ///< null: silent
  std::size_t total;
  std::chrono::steady_clock::time_point start = std::chrono::steady_clock::now();
};

/// Silent when quiet is asked for or stderr is no terminal.
enum class Talk { normal, quiet };
[[nodiscard]] Progress start_progress(std::size_t total, Talk talk);

/// Redraws the line; the time left stands there from the third step on.
void show_progress(const Progress& progress, std::size_t done, const std::string& what);

/// A line in a log at every tenth of the way, for what takes long and stderr that is no terminal; silent on a terminal.
struct LogProgress {
  std::string name;  ///< stands before the line
  std::size_t total;
  Talk talk = Talk::normal;
  std::size_t told = 0;  ///< tenths
  std::chrono::steady_clock::time_point start = std::chrono::steady_clock::now();
};
void log_progress(LogProgress& progress, std::size_t done);

/// Clears the line.
void end_progress(const Progress& progress);

/// "[####------]  4/10  0:12 left  standing"; `elapsed` in seconds.
[[nodiscard]] std::string progress_line(std::size_t done, std::size_t total, double elapsed, const std::string& what);

}  // namespace hoofload::scenarios
