// A server on a free port with the real catalogue and the page's files, and a raw socket for requests that no client
// would send.
#pragma once

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>

#include <cctype>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <string>
#include <thread>

#include "scenarios/page_server.hpp"

namespace hoofload::scenarios {

inline void fill(Workshop& shop) {
  shop.catalogue = materials::load_catalogue();
  shop.words = material_words(shop.catalogue);
  shop.demo_text = "schema = 1\n";
}

class Served {
 public:
  Served() : server_((fill(shop_), PageServerSetup{0, random_token(), "viz/page"}), shop_) {
    answering_ = std::thread([this] { server_.serve(); });
  }
  ~Served() {
    server_.stop();
    answering_.join();
  }
  Served(const Served&) = delete;
  Served& operator=(const Served&) = delete;

  [[nodiscard]] int port() const { return server_.port(); }
  /// "/<token>/"
  [[nodiscard]] std::string root() const { return server_.url().substr(server_.url().find('/', 8)); }
  [[nodiscard]] std::string host() const { return "127.0.0.1:" + std::to_string(port()); }

 private:
  Workshop shop_;
  PageServer server_;
  std::thread answering_;
};

/// One server for all tests of a binary.
inline Served& served() {
  static Served one;
  return one;
}

constexpr int kAnswerIn = 10000;  ///< of a whole request [ms]

struct Answer {
  int status = 0;  ///< 0: closed without one
  std::string body;
};

/// Whether something listens there; -1 if not.
inline int connected(const std::string& address, int port) {
  const int s = socket(AF_INET, SOCK_STREAM, 0);
  sockaddr_in to{};
  to.sin_family = AF_INET;
  to.sin_port = htons(static_cast<uint16_t>(port));
  inet_pton(AF_INET, address.c_str(), &to.sin_addr);
  const timeval longest{600, 0};  // a solve under sanitizers on a busy machine
  setsockopt(s, SOL_SOCKET, SO_RCVTIMEO, &longest, sizeof longest);
  if (connect(s, reinterpret_cast<sockaddr*>(&to), sizeof to) == 0) return s;
  close(s);
  return -1;
}

/// Whether the bytes hold a head and as much of a body as it announces: a server owes such a request an answer.
inline bool is_whole(const std::string& bytes) {
  const auto head = bytes.find("\r\n\r\n");
  if (head == std::string::npos) return false;
  std::string lower = bytes.substr(0, head);
  for (char& c : lower) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  if (lower.find("transfer-encoding:") != std::string::npos) return false;
  const auto length = lower.find("content-length:");
  if (length == std::string::npos) return true;
  return std::strtoull(lower.c_str() + length + 15, nullptr, 10) <= bytes.size() - head - 4;
}

/// Sends the bytes and reads what comes until the server closes. `patience` [ms], if given: after so long without an answer
/// the sender's half is closed, so that a request that was cut off does not hold the server for its own patience. To a whole
/// request the answer is read first: a server may take a closed half for a caller who has gone.
inline Answer send_raw(int port, const std::string& bytes, int patience = -1) {
  const int s = connected("127.0.0.1", port);
  if (s < 0) return {-1, ""};
  std::size_t sent = 0;
  while (sent < bytes.size()) {
    const ssize_t n = send(s, bytes.data() + sent, bytes.size() - sent, MSG_NOSIGNAL);
    if (n <= 0) break;
    sent += static_cast<std::size_t>(n);
  }
  const int waiting = patience >= 0 && is_whole(bytes) ? kAnswerIn : patience;
  std::string all;
  char buffer[4096];
  for (ssize_t n = 1; n > 0;) {
    pollfd wait{s, POLLIN, 0};
    if (patience >= 0 && poll(&wait, 1, all.empty() ? waiting : patience) == 0) shutdown(s, SHUT_WR);
    n = recv(s, buffer, sizeof buffer, 0);
    if (n > 0) all.append(buffer, static_cast<std::size_t>(n));
  }
  close(s);
  Answer answer;
  if (all.rfind("HTTP/1.1 ", 0) == 0) answer.status = std::stoi(all.substr(9, 3));
  if (const auto at = all.find("\r\n\r\n"); at != std::string::npos) answer.body = all.substr(at + 4);
  return answer;
}

inline std::string get_text(const std::string& path, const std::string& host, const std::string& more = "") {
  return "GET " + path + " HTTP/1.1\r\nHost: " + host + "\r\nConnection: close\r\n" + more + "\r\n";
}

inline std::string post_text(const std::string& path, const std::string& host, const std::string& body,
                             const std::string& type = "application/json", const std::string& more = "") {
  return "POST " + path + " HTTP/1.1\r\nHost: " + host + "\r\nConnection: close\r\nContent-Type: " + type +
         "\r\nContent-Length: " + std::to_string(body.size()) + "\r\n" + more + "\r\n" + body;
}

inline Answer get(const std::string& what) {
  return send_raw(served().port(), get_text(served().root() + what, served().host()));
}

inline Answer post(const std::string& what, const std::string& body) {
  return send_raw(served().port(), post_text(served().root() + what, served().host(), body));
}

}  // namespace hoofload::scenarios
