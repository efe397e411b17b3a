// The local page's HTTP server: 127.0.0.1 only, a random token in front of every path, a fixed list of files read at
// start, and
// bounded requests. It knows nothing of the work behind it but page_work.hpp.
#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include "scenarios/page_work.hpp"

namespace hoofload::scenarios {

struct PageServerSetup {
  int port = 0;                  ///< 0: any that is free
  std::string token;             ///< of letters and digits; see random_token
  std::filesystem::path folder;  ///< the page's files
};

/// 128 random bits from the system as 32 hexadecimal digits. Throws std::runtime_error if there are none.
[[nodiscard]] std::string random_token();

class PageServer {
 public:
  /// Reads the page's files and takes the port. Throws std::runtime_error with the reason.
  PageServer(PageServerSetup setup, Workshop& shop);
  ~PageServer();
  PageServer(const PageServer&) = delete;
  PageServer& operator=(const PageServer&) = delete;

  [[nodiscard]] int port() const;
  /// "http://127.0.0.1:8123/<token>/"
  [[nodiscard]] std::string url() const;
  /// Answers until stop() is called from another thread.
  void serve();
  void stop();

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace hoofload::scenarios
