// Who is let in and with what. Common practice for servers on one's own computer, no source; status codes: RFC 9110.
#include <gtest/gtest.h>
#include <ifaddrs.h>

#include <fstream>

#include "tests/page_server/served.hpp"

namespace hoofload::scenarios {
namespace {

TEST(Door, the_page_and_its_files_are_there_with_the_token) {
  EXPECT_EQ(get("").status, 200);
  EXPECT_NE(get("").body.find("<title>hoofload"), std::string::npos);
  for (const char* file : {"app.js", "page.css", "state.js", "api/start"}) EXPECT_EQ(get(file).status, 200) << file;
  EXPECT_EQ(get("nothing.js").status, 404);
}

TEST(Door, without_the_token_nothing_is_there) {
  const int port = served().port();
  const std::string host = served().host();
  std::string wrong = served().root();
  wrong[5] = wrong[5] == 'a' ? 'b' : 'a';
  for (const std::string& path : {std::string("/"), std::string("/app.js"), "/" + std::string("api/start"), wrong,
                                  wrong + "api/start", served().root().substr(0, 20)}) {
    const Answer answer = send_raw(port, get_text(path, host));
    EXPECT_EQ(answer.status, 403) << path;
    EXPECT_EQ(answer.body.find("title"), std::string::npos);
  }
  EXPECT_EQ(send_raw(port, post_text("/" + std::string("api/solve"), host, "{}")).status, 403);
}

TEST(Door, tokens_are_128_random_bits) {
  const std::string a = random_token(), b = random_token();
  EXPECT_EQ(a.size(), 32U);
  EXPECT_EQ(a.find_first_not_of("0123456789abcdef"), std::string::npos);
  EXPECT_NE(a, b);
}

// A page elsewhere may name this port (DNS rebinding) or post to it from another origin.
TEST(Door, other_hosts_and_origins_are_refused) {
  const int port = served().port();
  for (const std::string host : {"example.org", "127.0.0.1", "127.0.0.1:1", "", "localhost:80"})
    EXPECT_EQ(send_raw(port, get_text(served().root(), host)).status, 403) << host;
  EXPECT_EQ(send_raw(port, get_text(served().root(), "localhost:" + std::to_string(port))).status, 200);
  for (const std::string origin : {"http://example.org", "null", "https://127.0.0.1"})
    EXPECT_EQ(send_raw(port, post_text(served().root() + "api/solve", served().host(), "{}", "application/json",
                                       "Origin: " + origin + "\r\n"))
                  .status,
              403)
        << origin;
}

TEST(Door, only_the_loopback_address_listens) {
  const int port = served().port();
  EXPECT_EQ(connected("127.0.0.2", port), -1);
  ifaddrs* all = nullptr;
  ASSERT_EQ(getifaddrs(&all), 0);
  for (const ifaddrs* i = all; i != nullptr; i = i->ifa_next) {
    if (i->ifa_addr == nullptr || i->ifa_addr->sa_family != AF_INET) continue;
    char text[INET_ADDRSTRLEN];
    inet_ntop(AF_INET, &reinterpret_cast<const sockaddr_in*>(i->ifa_addr)->sin_addr, text, sizeof text);
    if (std::string(text) == "127.0.0.1") continue;
    EXPECT_EQ(connected(text, port), -1) << text;
  }
  freeifaddrs(all);
  const int here = connected("127.0.0.1", port);
  EXPECT_NE(here, -1);
  close(here);
}

TEST(Door, no_path_leaves_the_folder) {
  for (const std::string path :
       {"../../DEVELOPERS.md", "..%2f..%2fDEVELOPERS.md", "%2e%2e/%2e%2e/DEVELOPERS.md", "....//DEVELOPERS.md",
        "/etc/passwd", "..\\..\\DEVELOPERS.md", "app.js/../../../DEVELOPERS.md", "app.js%00.html", "./app.js",
        "%252e%252e/DEVELOPERS.md", "api/../../scenarios/cases/demo.toml"}) {
    const Answer answer = get(path);
    EXPECT_GE(answer.status, 400) << path;
    EXPECT_LT(answer.status, 500) << path;
    EXPECT_EQ(answer.body.find("House rules"), std::string::npos) << path;
    EXPECT_EQ(answer.body.find("root:"), std::string::npos) << path;
  }
}

TEST(Door, a_taken_port_is_an_error_with_its_number) {
  Workshop shop;
  fill(shop);
  try {
    const PageServer second({served().port(), random_token(), "viz/page"}, shop);
    FAIL() << "the port was given twice";
  } catch (const std::runtime_error& e) {
    EXPECT_NE(std::string(e.what()).find(std::to_string(served().port())), std::string::npos);
  }
  EXPECT_THROW(PageServer({0, random_token(), "viz/nowhere"}, shop), std::runtime_error);
}

TEST(Door, methods_and_kinds_of_body_are_few) {
  const int port = served().port();
  const std::string path = served().root() + "api/solve", host = served().host();
  for (const std::string method : {"PUT", "DELETE", "PATCH", "OPTIONS", "HEAD", "TRACE"}) {
    const int status =
        send_raw(port, method + " " + path + " HTTP/1.1\r\nHost: " + host + "\r\nConnection: close\r\n\r\n").status;
    EXPECT_GE(status, 400) << method;
    EXPECT_LT(status, 500) << method;
  }
  EXPECT_EQ(send_raw(port, post_text(path, host, "a=b", "application/x-www-form-urlencoded")).status, 415);
  EXPECT_EQ(send_raw(port, post_text(path, host, "{}", "application/json", "Content-Encoding: gzip\r\n")).status, 415);
  EXPECT_EQ(send_raw(port, post_text(path, host, "{}", "multipart/form-data; boundary=x")).status, 415);
  const std::string no_length = "POST " + path + " HTTP/1.1\r\nHost: " + host +
                                "\r\nConnection: close\r\nContent-Type: application/json\r\n\r\n{}";
  EXPECT_EQ(send_raw(port, no_length).status, 411);
}

TEST(Door, what_is_too_long_is_refused) {
  const int port = served().port();
  const std::string path = served().root() + "api/solve", host = served().host();
  EXPECT_EQ(post("api/solve", std::string(kMostPageBytes + 1, ' ')).status, 413);
  EXPECT_EQ(send_raw(port, "POST " + path + " HTTP/1.1\r\nHost: " + host +
                               "\r\nContent-Type: application/json\r\nContent-Length: 99999999999\r\n\r\n")
                .status,
            413);
  EXPECT_EQ(send_raw(port, get_text(served().root() + std::string(9000, 'a'), host)).status, 414);
  const Answer header = send_raw(port, get_text(served().root(), host, "X-Long: " + std::string(20000, 'a') + "\r\n"));
  EXPECT_TRUE(header.status == 0 || (header.status >= 400 && header.status < 500)) << header.status;
  // The library matches this header with a regular expression: it must not run out of stack.
  std::string ranges = "Range: bytes=1-2";
  while (ranges.size() < 8000) ranges += ",1-2";
  EXPECT_LT(send_raw(port, get_text(served().root() + "app.js", host, ranges + "\r\n")).status, 500);
  EXPECT_EQ(get("").status, 200);
}

}  // namespace
}  // namespace hoofload::scenarios
