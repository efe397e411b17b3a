#include "scenarios/page_queue.hpp"

#include <algorithm>
#include <exception>
#include <nlohmann/json.hpp>

namespace hoofload::scenarios {

namespace {

constexpr std::size_t kMostWaiting = 16;
constexpr std::size_t kMostClients = 256;

Reply superseded() { return {409, R"({"superseded":true})"}; }

}  // namespace

PageQueue::PageQueue() : worker_([this] { run(); }) {}

PageQueue::~PageQueue() {
  close();
  worker_.join();
}

void PageQueue::close() {
  const std::lock_guard lock(mutex_);
  closing_ = true;
  for (const auto& job : waiting_) job->reply.set_value({503, R"({"closing":true})"});
  waiting_.clear();
  if (running_) running_->stale = true;
  filled_.notify_all();
}

void PageQueue::drop_older(const std::string& client) {
  if (running_ && running_->client == client) running_->stale = true;
  std::erase_if(waiting_, [&](const auto& job) {
    if (job->client != client) return false;
    job->reply.set_value(superseded());
    return true;
  });
}

void PageQueue::cancel(const std::string& client) {
  const std::lock_guard lock(mutex_);
  drop_older(client);
}

Reply PageQueue::ask(const std::string& client, std::int64_t number, Work work) {
  const auto job = std::make_shared<Job>();
  job->client = client;
  job->work = std::move(work);
  auto reply = job->reply.get_future();
  {
    const std::lock_guard lock(mutex_);
    if (closing_) return {503, R"({"closing":true})"};
    if (newest_.size() > kMostClients) newest_.clear();  // pages that were closed long ago
    const auto last = newest_.find(client);
    if (last != newest_.end() && number < last->second) return superseded();
    drop_older(client);
    if (waiting_.size() >= kMostWaiting) return {503, R"({"busy":true})"};
    newest_[client] = number;
    waiting_.push_back(job);
  }
  filled_.notify_one();
  return reply.get();
}

void PageQueue::run() {
  std::unique_lock lock(mutex_);
  while (true) {
    filled_.wait(lock, [&] { return closing_ || !waiting_.empty(); });
    if (closing_) return;
    running_ = waiting_.front();
    waiting_.pop_front();
    const std::shared_ptr<Job> job = running_;
    lock.unlock();
    const auto wanted = [&] {
      const std::lock_guard inner(mutex_);
      if (job->stale) throw Superseded{};
    };
    Reply reply;
    try {
      reply = job->work(wanted);
    } catch (const Superseded&) {
      reply = superseded();
    } catch (const std::exception& e) {
      reply = {500,
               nlohmann::json{{"problem", e.what()}}.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace)};
    }
    job->reply.set_value(std::move(reply));
    lock.lock();
    running_.reset();
  }
}

}  // namespace hoofload::scenarios
