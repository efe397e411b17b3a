// hoofload serve: the local page until Ctrl-C.
#include <csignal>
#include <fstream>
#include <iostream>
#include <sstream>
#include <thread>

#include "scenarios/commands.hpp"
#include "scenarios/page_server.hpp"

namespace hoofload::scenarios {

namespace {

namespace fs = std::filesystem;

std::string text_of(const fs::path& path) {
  std::ifstream stream(path, std::ios::binary);
  if (!stream) throw std::runtime_error(path.string() + ": cannot be read");
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

/// Blocks the signals that end the program, for this thread and those started after it.
sigset_t ending_signals() {
  sigset_t set;
  sigemptyset(&set);
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) sigaddset(&set, signal);
  pthread_sigmask(SIG_BLOCK, &set, nullptr);
  return set;
}

}  // namespace

int serve_command(const ServeRequest& request) {
  try {
    const sigset_t ending = ending_signals();
    Workshop shop;
    shop.catalogue = materials::load_catalogue();
    shop.words = material_words(shop.catalogue);
    const fs::path home = materials::data_directory().parent_path();
    shop.shelf.store = users_store();
    shop.demo_text = text_of(home / "scenarios" / "cases" / "demo.toml");
    PageServer server({request.port, random_token(), home / "viz" / "page"}, shop);
    std::thread answering([&] { server.serve(); });
    std::cout << server.url() << std::endl;
    if (!request.quiet)
      std::cerr << "The page is at the address above, on this computer only. Open it in a browser; end with Ctrl-C.\n";
    int signal = 0;
    sigwait(&ending, &signal);
    server.stop();
    answering.join();
    return exit_done;
  } catch (const std::runtime_error& e) {
    std::cerr << "hoofload: " << e.what() << '\n';
    return exit_system;
  }
}

}  // namespace hoofload::scenarios
