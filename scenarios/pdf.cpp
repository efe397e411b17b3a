#include "scenarios/pdf.hpp"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <sstream>
#include <stdexcept>

namespace hoofload::scenarios {

namespace fs = std::filesystem;

fs::path find_program(const std::string& name, const std::string& folders) {
  std::istringstream list(folders);
  for (std::string folder; std::getline(list, folder, ':');) {
    const fs::path program = fs::path(folder) / name;
    if (!folder.empty() && access(program.c_str(), X_OK) == 0) return program;
  }
  return {};
}

int run_program(const std::vector<std::string>& arguments) {
  std::vector<char*> argv;
  for (const std::string& a : arguments) argv.push_back(const_cast<char*>(a.c_str()));
  argv.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  for (const int stream : {STDOUT_FILENO, STDERR_FILENO})
    posix_spawn_file_actions_addopen(&actions, stream, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  const int failed = posix_spawn(&child, argv[0], &actions, nullptr, argv.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  int status = 0;
  if (failed != 0 || waitpid(child, &status, 0) != child) return -1;
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

void write_pdf(const fs::path& html, const fs::path& pdf) {
  const char* path = std::getenv("PATH");
  const std::string folders = path == nullptr ? "" : path;
  std::error_code error;
  fs::remove(pdf, error);
  std::vector<std::string> call;
  // Chromium first: the other draws the rim of a label over its letters.
  if (const fs::path chromium = find_program("chromium", folders); !chromium.empty()) {
    call = {chromium,
            "--headless",
            "--disable-gpu",
            "--no-pdf-header-footer",
            "--print-to-pdf=" + fs::absolute(pdf).string(),
            "file://" + fs::absolute(html).string()};
    if (geteuid() == 0) call.emplace_back("--no-sandbox");  // it refuses root otherwise
  } else if (const fs::path weasyprint = find_program("weasyprint", folders); !weasyprint.empty()) {
    call = {weasyprint, "--quiet", html, pdf};
  }
  if (call.empty())
    throw std::runtime_error(pdf.string() +
                             ": no renderer for PDF is installed (Debian packages chromium or weasyprint); " +
                             html.string() + " can be printed from any browser");
  if (run_program(call) != 0 || !fs::exists(pdf))
    throw std::runtime_error(pdf.string() + ": " + call.front() + " could not write it");
}

}  // namespace hoofload::scenarios
