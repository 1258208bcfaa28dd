#include "solver/study/pass_crew.h"

#include <algorithm>
#include <chrono>
#include <exception>
#include <utility>

namespace throughbend
{
ThreadCrew::ThreadCrew(PassMaker make, const std::size_t workers) : make_(std::move(make))
{
  for (std::size_t i = 0; i < std::max<std::size_t>(workers, 1); ++i)
    threads_.emplace_back([this] { work(); });
}

ThreadCrew::~ThreadCrew()
{
  stop_ = true;
  {
    const std::lock_guard<std::mutex> lock(mutex_);
    over_ = true;
  }
  ordered_.notify_all();
  for (std::thread &thread : threads_)
    thread.join();
}

std::size_t ThreadCrew::free() const
{
  const std::lock_guard<std::mutex> lock(mutex_);
  return threads_.size() - std::min(threads_.size(), busy_ + orders_.size());
}

void ThreadCrew::begin(const std::size_t task, const Case &c)
{
  {
    const std::lock_guard<std::mutex> lock(mutex_);
    orders_.push_back({task, c});
  }
  ordered_.notify_one();
}

std::optional<PassDone> ThreadCrew::next_done(const double patience)
{
  std::unique_lock<std::mutex> lock(mutex_);
  if (!done_.wait_for(lock, std::chrono::duration<double>(patience),
                      [this] { return !results_.empty(); }))
    return std::nullopt;
  PassDone result = std::move(results_.front());
  results_.pop_front();
  return result;
}

void ThreadCrew::work()
{
  std::unique_lock<std::mutex> lock(mutex_);
  for (;;)
  {
    ordered_.wait(lock, [this] { return over_ || !orders_.empty(); });
    if (over_)
      return;
    const Order order = std::move(orders_.front());
    orders_.pop_front();
    ++busy_;
    lock.unlock();
    PassDone done =
        carried_out(order.task, order.given, make_, [this] { return stop_.load(); });
    lock.lock();
    --busy_;
    results_.push_back(std::move(done));
    done_.notify_one();
  }
}

PassDone carried_out(const std::size_t task, const Case &c, const PassMaker &make,
                     const std::function<bool()> &stop)
{
  PassDone done;
  done.task = task;
  try
  {
    if (!stop())
      done.pass = make(c, stop);
  }
  catch (const std::exception &error)
  {
    done.failure = error.what();
    if (done.failure.empty())
      done.failure = "an error without a name";
  }
  return done;
}

std::size_t usual_workers(const int dimension)
{
  return dimension == 2 ? std::max(1u, std::thread::hardware_concurrency()) : 1;
}
} // namespace throughbend
