// One worker for all open pages. Of each page only the newest request counts: a newer one replaces what waits and
// breaks off
// what runs, so that a slider that was moved a hundred times ends in its last place.
#pragma once

#include <condition_variable>
#include <cstdint>
#include <deque>
#include <functional>
#include <future>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <thread>

namespace hoofload::scenarios {

struct Reply {
  int status = 200;
  std::string body;
  std::string type = "application/json";
};

/// Thrown by a job's `wanted` when a newer request of the same page has come.
struct Superseded {};

class PageQueue {
 public:
  /// Calls `wanted` between its parts and lets its exception pass.
  using Work = std::function<Reply(const std::function<void()>& wanted)>;

  PageQueue();
  ~PageQueue();
  PageQueue(const PageQueue&) = delete;
  PageQueue& operator=(const PageQueue&) = delete;

  /// Waits for the work's reply. 409 if a newer request of that client came before or comes meanwhile, 503 if too
  /// many wait.
  [[nodiscard]] Reply ask(const std::string& client, std::int64_t number, Work work);

  /// Breaks off what that client asked for; whoever waits for it gets 409.
  void cancel(const std::string& client);

  /// Answers all that wait with 503 and breaks off what runs; nothing is taken any more.
  void close();

 private:
  struct Job {
    std::string client;
    Work work;
    std::promise<Reply> reply;
    bool stale = false;  ///< under the queue's mutex
  };

  void run();
  void drop_older(const std::string& client);

  std::mutex mutex_;
  std::condition_variable filled_;
  std::deque<std::shared_ptr<Job>> waiting_;
  std::shared_ptr<Job> running_;
  std::map<std::string, std::int64_t> newest_;
  bool closing_ = false;
  std::thread worker_;
};

}  // namespace hoofload::scenarios
