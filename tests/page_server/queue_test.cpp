// The newest request of a page wins, pages do not disturb each other, an end is an end.
#include <gtest/gtest.h>

#include <atomic>
#include <future>

#include "scenarios/page_queue.hpp"

namespace hoofload::scenarios {
namespace {

/// Runs until it is told to end or breaks off.
PageQueue::Work endless(std::atomic<bool>& begun) {
  return [&begun](const std::function<void()>& wanted) -> Reply {
    begun = true;
    while (true) {
      wanted();
      std::this_thread::yield();
    }
  };
}

PageQueue::Work quick(const std::string& body) {
  return [body](const std::function<void()>&) { return Reply{200, body}; };
}

TEST(PageQueueOrder, a_newer_request_breaks_off_what_runs) {
  PageQueue queue;
  std::atomic<bool> begun = false;
  auto old = std::async(std::launch::async, [&] { return queue.ask("a", 1, endless(begun)); });
  while (!begun) std::this_thread::yield();
  EXPECT_EQ(queue.ask("a", 2, quick("new")).body, "new");
  EXPECT_EQ(old.get().status, 409);
  EXPECT_EQ(queue.ask("a", 1, quick("late")).status, 409);
}

TEST(PageQueueOrder, another_page_waits_and_is_served) {
  PageQueue queue;
  std::atomic<bool> begun = false;
  auto a = std::async(std::launch::async, [&] { return queue.ask("a", 1, endless(begun)); });
  while (!begun) std::this_thread::yield();
  auto b = std::async(std::launch::async, [&] { return queue.ask("b", 1, quick("b")); });
  EXPECT_EQ(queue.ask("a", 2, quick("a")).body, "a");
  EXPECT_EQ(b.get().body, "b");
  EXPECT_EQ(a.get().status, 409);
}

TEST(PageQueueOrder, a_failure_is_a_reply_and_the_next_is_served) {
  PageQueue queue;
  const Reply failed = queue.ask("a", 1, [](const auto&) -> Reply { throw std::runtime_error("\"no\" \xff"); });
  EXPECT_EQ(failed.status, 500);
  EXPECT_EQ(queue.ask("a", 2, quick("ok")).body, "ok");
}

TEST(PageQueueOrder, after_its_end_nobody_waits) {
  PageQueue queue;
  std::atomic<bool> begun = false;
  auto running = std::async(std::launch::async, [&] { return queue.ask("a", 1, endless(begun)); });
  while (!begun) std::this_thread::yield();
  auto waiting = std::async(std::launch::async, [&] { return queue.ask("b", 1, quick("b")); });
  while (waiting.wait_for(std::chrono::milliseconds(20)) == std::future_status::ready) break;
  queue.close();
  EXPECT_EQ(running.get().status, 409);
  EXPECT_EQ(waiting.get().status, 503);
  EXPECT_EQ(queue.ask("c", 1, quick("c")).status, 503);
}

}  // namespace
}  // namespace hoofload::scenarios
