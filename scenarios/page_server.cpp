// The only file that includes the HTTP library.
#include "scenarios/page_server.hpp"

#include <httplib.h>
#include <sys/random.h>

#include <array>
#include <atomic>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>
#include <stdexcept>

namespace hoofload::scenarios {

namespace {

namespace fs = std::filesystem;

struct PageFile {
  std::string text, type;
};

constexpr std::array<std::pair<const char*, const char*>, 3> kTypes = {
    {{".html", "text/html; charset=utf-8"}, {".css", "text/css"}, {".js", "text/javascript"}}};
constexpr int kThreads = 32;
constexpr int kMostCalling = 256;
constexpr int kPatience = 5;  ///< for a slow sender [s]

/// Nothing but what lies directly in the folder and has a known type is ever served.
std::map<std::string, PageFile> read_files(const fs::path& folder) {
  std::map<std::string, PageFile> files;
  std::error_code error;
  for (const auto& entry : fs::directory_iterator(folder, error))
    for (const auto& [ending, type] : kTypes) {
      if (entry.path().extension() != ending) continue;
      std::ifstream stream(entry.path(), std::ios::binary);
      std::ostringstream text;
      text << stream.rdbuf();
      files[entry.path().filename().string()] = {text.str(), type};
    }
  if (!files.contains("index.html")) throw std::runtime_error(folder.string() + ": the page's files are not there");
  return files;
}

void add_headers(httplib::Response& response) {
  response.set_header("Content-Security-Policy",
                      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
                      "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'");
  response.set_header("X-Content-Type-Options", "nosniff");
  response.set_header("Referrer-Policy", "no-referrer");
  response.set_header("Cache-Control", "no-store");
}

void give(httplib::Response& response, const Reply& reply) {
  response.status = reply.status;
  response.set_content(reply.body, reply.type.c_str());
}

Reply refused(int status, const std::string& why) { return {status, nlohmann::json{{"problem", why}}.dump()}; }

}  // namespace

std::string random_token() {
  std::array<unsigned char, 16> bytes{};
  if (getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size()))
    throw std::runtime_error("the system gives no random numbers");
  std::string token;
  for (const unsigned char b : bytes) {
    constexpr const char* digits = "0123456789abcdef";
    token += digits[b >> 4];
    token += digits[b & 15];
  }
  return token;
}

struct PageServer::Inside {
  Inside(PageServerSetup s, Workshop& work) : setup(std::move(s)), shop(work), files(read_files(setup.folder)) {}

  PageServerSetup setup;
  Workshop& shop;
  std::map<std::string, PageFile> files;
  PageQueue queue;                       ///< sliders
  PageQueue records;                     ///< exports and lessons: minutes, so not in the sliders' way
  PageQueue draws;                       ///< intervals and stances: one of them a page at a time
  std::atomic<std::int64_t> record = 0;  ///< number of the next of those two
  httplib::Server http;
  socket_t listening = INVALID_SOCKET;
  int port = 0;

  [[nodiscard]] std::string root() const { return "/" + setup.token + "/"; }

  /// Nothing of a request's body has been read yet.
  Reply check(const httplib::Request& request) const {
    const std::string at = ":" + std::to_string(port);
    const std::string host = request.get_header_value("Host");
    if (host != "127.0.0.1" + at && host != "localhost" + at) return refused(403, "unknown host");
    if (request.has_header("Origin")) {
      const std::string origin = request.get_header_value("Origin");
      if (origin != "http://127.0.0.1" + at && origin != "http://localhost" + at) return refused(403, "unknown origin");
    }
    if (request.path.compare(0, root().size(), root()) != 0) return refused(403, "the address has no valid token");
    if (request.method != "GET" && request.method != "POST") return refused(405, "only GET and POST");
    if (request.method == "GET") return {0, "", ""};
    if (request.has_header("Content-Encoding") || request.has_header("Transfer-Encoding"))
      return refused(415, "plain bodies of stated length only");
    // Without it the library reads until the caller closes, and then there is nobody to answer.
    if (!request.has_header("Content-Length")) return refused(411, "a body needs its length");
    if (request.get_header_value("Content-Type").rfind("application/json", 0) != 0)
      return refused(415, "expected application/json");
    return {0, "", ""};
  }

  bool give_file(const std::string& name, httplib::Response& response) const {
    const auto it = files.find(name.empty() ? "index.html" : name);
    if (it == files.end()) return false;
    give(response, {200, it->second.text, it->second.type});
    return true;
  }

  Reply get(const httplib::Request& request, const std::string& what) {
    if (what == "api/start")
      return {200,
              start_json(shop.words, shop.demo_text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace)};
    if (what != "api/progress") return refused(404, "there is nothing here");
    const RunProgress p = shop.board.of(request.get_param_value("of").substr(0, 200));
    return {200, nlohmann::json{{"done", p.done}, {"of", p.of}, {"what", p.what}}.dump(
                     -1, ' ', false, nlohmann::json::error_handler_t::replace)};
  }

  Reply solve(const PageRequest& r) {
    return queue.ask(r.client, r.number, [this, r](const auto& wanted) { return solve_reply(shop, r, wanted); });
  }

  Reply record_of(const PageRequest& r) {
    if (r.wanted.empty()) return refused(400, "wanted: missing");
    if (r.wanted == "case") return export_reply(shop, r, [] {});
    return records.ask(r.client + " export", record++,
                       [this, r](const auto& wanted) { return export_reply(shop, r, wanted); });
  }

  Reply study(const PageRequest& r) {
    if (r.draws == 0) return refused(400, "draws: missing");
    return draws.ask(r.client, record++, [this, r](const auto& wanted) { return study_reply(shop, r, wanted); });
  }

  Reply stance(const PageRequest& r) {
    return draws.ask(r.client, record++, [this, r](const auto& wanted) { return stance_reply(shop, r, wanted); });
  }

  Reply cancel(const std::string& body) {
    const auto j = nlohmann::json::parse(body, nullptr, false);
    if (!j.is_object() || !j.contains("client") || !j["client"].is_string()) return refused(400, "client: missing");
    draws.cancel(j["client"].get<std::string>());
    return {200, "{}"};
  }

  Reply lesson(const std::string& body) {
    const auto j = nlohmann::json::parse(body, nullptr, false);
    const bool good = j.is_object() && j.contains("question") && j["question"].is_number_unsigned();
    if (!good) return refused(400, "question: expected a number");
    const std::string client =
        j.contains("client") && j["client"].is_string() ? j["client"].get<std::string>() : "page";
    const auto question = j["question"].get<std::size_t>();
    return records.ask(client.substr(0, 200) + " lesson", record++, [this, client, question](const auto& wanted) {
      return lesson_reply(shop, client, question, wanted);
    });
  }

  void post(const char* what, const std::function<Reply(const PageRequest&)>& work) {
    http.Post(root() + what, [work](const httplib::Request& request, httplib::Response& response) {
      const PageReading reading = read_page_request(request.body);
      give(response, reading.problem.empty() ? work(reading.request) : refused(400, reading.problem));
    });
  }

  void route() {
    http.set_pre_routing_handler([this](const httplib::Request& request, httplib::Response& response) {
      add_headers(response);
      if (const Reply reply = check(request); reply.status != 0) {
        give(response, reply);
        return httplib::Server::HandlerResponse::Handled;
      }
      if (request.method != "GET") return httplib::Server::HandlerResponse::Unhandled;
      const std::string what = request.path.substr(root().size());
      if (!give_file(what, response)) give(response, get(request, what));
      return httplib::Server::HandlerResponse::Handled;
    });
    post("api/solve", [this](const PageRequest& r) { return solve(r); });
    post("api/export", [this](const PageRequest& r) { return record_of(r); });
    post("api/stance", [this](const PageRequest& r) { return stance(r); });
    post("api/study", [this](const PageRequest& r) { return study(r); });
    http.Post(root() + "api/cancel", [this](const httplib::Request& request, httplib::Response& response) {
      give(response, cancel(request.body));
    });
    http.Post(root() + "api/lesson", [this](const httplib::Request& request, httplib::Response& response) {
      give(response, lesson(request.body));
    });
  }

  void bind() {
    http.new_task_queue = [] { return new httplib::ThreadPool(kThreads); };
    http.set_payload_max_length(kMostPageBytes);
    http.set_read_timeout(kPatience);
    http.set_write_timeout(kPatience);
    http.set_keep_alive_timeout(2);
    http.set_exception_handler([](const httplib::Request&, httplib::Response& response, std::exception_ptr) {
      give(response, refused(500, "the server could not answer"));
    });
    // Without this the library lets a second process of the same user share the port.
    http.set_socket_options([this](socket_t socket) {
      listening = socket;
      const int yes = 1;
      setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
    });
    if (setup.port == 0)
      port = http.bind_to_any_port("127.0.0.1");
    else
      port = http.bind_to_port("127.0.0.1", setup.port) ? setup.port : -1;
    // The library lets five callers wait; a burst beyond that is lost without a word.
    if (port > 0) listen(listening, kMostCalling);
    if (port <= 0) throw std::runtime_error("port " + std::to_string(setup.port) + " of 127.0.0.1 is not free");
  }
};

PageServer::PageServer(PageServerSetup setup, Workshop& shop)
    : inside_(std::make_unique<Inside>(std::move(setup), shop)) {
  inside_->route();
  inside_->bind();
}

PageServer::~PageServer() = default;

int PageServer::port() const { return inside_->port; }

std::string PageServer::url() const { return "http://127.0.0.1:" + std::to_string(port()) + inside_->root(); }

void PageServer::serve() { inside_->http.listen_after_bind(); }

void PageServer::stop() {
  inside_->queue.close();
  inside_->records.close();
  inside_->draws.close();
  inside_->http.stop();
}

}  // namespace hoofload::scenarios
