#include "scenarios/progress.hpp"

#include <unistd.h>
#include <algorithm>
#include <cmath>
#include <iostream>

namespace hoofload::scenarios {

Progress start_progress(std::size_t total, Talk talk) {
  const bool shown = talk == Talk::normal && isatty(STDERR_FILENO) == 1;
  return {shown ? &std::cerr : nullptr, total};
}

std::string progress_line(std::size_t done, std::size_t total, double elapsed, const std::string& what) {
  constexpr std::size_t width = 20;
  const std::size_t filled = total == 0 ? width : width * std::min(done, total) / total;
  std::string line = "[" + std::string(filled, '#') + std::string(width - filled, '-') + "] " + std::to_string(done) +
                     "/" + std::to_string(total);
  if (done >= 3 && done < total) {
    const long left = std::lround(elapsed / static_cast<double>(done) * static_cast<double>(total - done));
    const std::string seconds = std::to_string(left % 60);
    line += "  " + std::to_string(left / 60) + ":" + (seconds.size() < 2 ? "0" : "") + seconds + " left";
  }
  return line + "  " + what;
}

void show_progress(const Progress& progress, std::size_t done, const std::string& what) {
  if (progress.stream == nullptr) return;
  const std::chrono::duration<double> elapsed = std::chrono::steady_clock::now() - progress.start;
  *progress.stream << "\r\x1b[K" << progress_line(done, progress.total, elapsed.count(), what).substr(0, 78)
                   << std::flush;
}

void log_progress(LogProgress& progress, std::size_t done) {
  if (progress.talk == Talk::quiet || isatty(STDERR_FILENO) == 1 || done * 10 / progress.total == progress.told) return;
  progress.told = done * 10 / progress.total;
  const std::chrono::duration<double> elapsed = std::chrono::steady_clock::now() - progress.start;
  std::cerr << progress.name << ": " << progress_line(done, progress.total, elapsed.count(), "") << std::endl;
}

void end_progress(const Progress& progress) {
  if (progress.stream != nullptr) *progress.stream << "\r\x1b[K" << std::flush;
}

}  // namespace hoofload::scenarios
