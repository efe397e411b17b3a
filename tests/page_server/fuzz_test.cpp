// Broken and hostile requests: a 4xx or a closed connection, never a crash, a hang or a 5xx, and the page is still
// there afterwards.
// Common practice, no source. A fixed seed: what fails can be run again.
#include <gtest/gtest.h>

#include <future>
#include <map>
#include <random>

#include "tests/page_server/served.hpp"

namespace hoofload::scenarios {
namespace {

/// Requests from which others are made. None is solved: what stays readable has an impossible setback.
std::vector<std::string> seeds() {
  const std::string body =
      R"({"client":"f","number":7,"phase":"standing","common":{"horse.mass":"520 kg"},"runs":[{"name":"A",)"
      R"("settings":{"shoe.setback":"900 mm"}},{"name":"B","settings":{"packing.region":"full sole"}}]})";
  const std::string root = served().root(), host = served().host();
  return {get_text(root, host),
          get_text(root + "app.js", host),
          get_text(root + "api/progress?of=f", host),
          post_text(root + "api/solve", host, body),
          post_text(root + "api/export", host, body),
          post_text(root + "api/lesson", host, R"({"question":99})")};
}

class Mutator {
 public:
  explicit Mutator(unsigned seed) : random_(seed) {}

  std::string operator()(std::string text) {
    const int changes = 1 + below(6);
    for (int k = 0; k < changes; ++k) change(text);
    return text;
  }

  int below(int n) { return static_cast<int>(random_() % static_cast<unsigned>(n)); }

 private:
  std::size_t place(const std::string& text) {
    return static_cast<std::size_t>(below(static_cast<int>(text.size()) + 1));
  }

  void change(std::string& text) {
    static const std::vector<std::string> pieces{"\r\n",
                                                 "\r\n\r\n",
                                                 std::string(1, '\0'),
                                                 "\xff",
                                                 "../",
                                                 "%00",
                                                 "%2e%2e%2f",
                                                 "{",
                                                 "[[[[[[[[",
                                                 "\"",
                                                 "\\u0000",
                                                 "Content-Length: -1\r\n",
                                                 "Content-Length: 5\r\n",
                                                 "Transfer-Encoding: chunked\r\n",
                                                 "Range: bytes=0-1,5-\r\n",
                                                 "Expect: 100-continue\r\n",
                                                 "1e999",
                                                 "999999999999999999999",
                                                 "NaN",
                                                 "null",
                                                 "load.curve",
                                                 "HTTP/9.9",
                                                 "Host: x\r\n"};
    switch (below(6)) {
      case 0:
        text.insert(place(text), pieces[static_cast<std::size_t>(below(static_cast<int>(pieces.size())))]);
        break;
      case 1:
        if (!text.empty()) text[place(text) % text.size()] = static_cast<char>(below(256));
        break;
      case 2:
        text.erase(place(text), static_cast<std::size_t>(below(40)));
        break;
      case 3:
        text.resize(place(text));
        break;
      case 4: {
        const std::string part = text.substr(place(text), static_cast<std::size_t>(below(60)));
        text.insert(place(text), part);
        break;
      }
      default:
        text.insert(place(text), std::string(static_cast<std::size_t>(below(300)), static_cast<char>(below(256))));
    }
  }

  std::mt19937 random_;
};

constexpr int kCutOff = 15;  ///< [ms]
constexpr int kAtOnce = 4;

/// Counts of answers by status; stops at the first that must not be.
std::map<int, int> hammer_alone(int requests, unsigned seed) {
  Mutator mutate(seed);
  const auto from = seeds();
  std::map<int, int> statuses;
  for (int k = 0; k < requests && !testing::Test::HasFailure(); ++k) {
    const std::string request = mutate(from[static_cast<std::size_t>(mutate.below(static_cast<int>(from.size())))]);
    const Answer answer = send_raw(served().port(), request, kCutOff);
    EXPECT_FALSE(answer.status == 0 && is_whole(request)) << "a whole request without an answer: " << request;
    ++statuses[answer.status];
    EXPECT_NE(answer.status, -1) << "the server is gone after request " << k << ": " << request;
    EXPECT_LT(answer.status, 500) << request;
    EXPECT_EQ(answer.body.find("root:x:"), std::string::npos) << request;
  }
  return statuses;
}

void hammer(int requests, unsigned seed) {
  std::vector<std::future<std::map<int, int>>> all;
  for (unsigned k = 0; k < kAtOnce; ++k)
    all.push_back(std::async(std::launch::async, hammer_alone, requests / kAtOnce, seed + k));
  std::map<int, int> statuses;
  for (auto& one : all)
    for (const auto& [status, n] : one.get()) statuses[status] += n;
  std::string text;
  for (const auto& [status, n] : statuses) text += std::to_string(status) + ": " + std::to_string(n) + "  ";
  printf("%d requests by status (0: cut off, closed without one): %s\n", requests, text.c_str());
  EXPECT_GT(statuses[400] + statuses[403] + statuses[404] + statuses[415], requests / 5);
  EXPECT_EQ(get("").status, 200);
}

TEST(PageFuzz, three_thousand_broken_requests_leave_the_page_standing) { hammer(3000, 20261); }

TEST(PageFuzzStudy, a_hundred_thousand_broken_requests_leave_the_page_standing) { hammer(100000, 20262); }

}  // namespace
}  // namespace hoofload::scenarios
