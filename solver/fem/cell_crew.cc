#include "solver/fem/cell_crew.h"

#include <algorithm>
#include <chrono>

namespace throughbend
{
namespace
{
/// Stays awake for a while, and lets others have the core: in the plane a part takes less
/// time than the system needs to wake a thread.
template <class Condition>
void look_out(const Condition &has_come)
{
  constexpr std::chrono::microseconds a_while(200);
  const auto                          until = std::chrono::steady_clock::now() + a_while;
  while (!has_come() && std::chrono::steady_clock::now() < until)
    std::this_thread::yield();
}
} // namespace

CellCrew::CellCrew(unsigned size)
{
  hands_.reserve(size);
  try
  {
    for (unsigned i = 1; i < size; ++i)
      hands_.emplace_back([this] { attend(); });
  }
  catch (const std::exception &)
  {
    // No more threads, or no memory for them: fewer do the work, to the same digits.
  }
}

CellCrew::~CellCrew()
{
  {
    const std::lock_guard<std::mutex> lock(mutex_);
    over_ = true;
  }
  start_.notify_all();
  for (std::thread &hand : hands_)
    hand.join();
}

void CellCrew::each(std::size_t n, const std::function<void(std::size_t)> &work)
{
  if (hands_.empty() || n < 2)
  {
    for (std::size_t i = 0; i < n; ++i)
      work(i);
    return;
  }
  {
    const std::lock_guard<std::mutex> lock(mutex_);
    work_  = &work;
    next_  = 0;
    n_     = n;
    share_ = std::max<std::size_t>(1, n / (8 * size())); // small enough to even out
    busy_  = static_cast<unsigned>(hands_.size());
    error_ = nullptr;
    ++call_;
  }
  start_.notify_all();
  take_part();
  look_out([this] { return busy_ == 0; });
  std::unique_lock<std::mutex> lock(mutex_);
  end_.wait(lock, [this] { return busy_ == 0; });
  work_ = nullptr;
  if (error_)
    std::rethrow_exception(error_);
}

void CellCrew::attend()
{
  for (unsigned seen = 0;;)
  {
    look_out([&] { return over_ || call_ != seen; });
    {
      std::unique_lock<std::mutex> lock(mutex_);
      start_.wait(lock, [&] { return over_ || call_ != seen; });
      if (over_)
        return;
      seen = call_;
    }
    take_part();
    const std::lock_guard<std::mutex> lock(mutex_);
    if (--busy_ == 0)
      end_.notify_one();
  }
}

void CellCrew::take_part()
{
  for (;;)
  {
    std::size_t from = 0, to = 0;
    {
      const std::lock_guard<std::mutex> lock(mutex_);
      from  = next_;
      to    = std::min(n_, from + share_);
      next_ = to;
    }
    if (from == to)
      return;
    try
    {
      for (std::size_t i = from; i < to; ++i)
        (*work_)(i);
    }
    catch (...)
    {
      const std::lock_guard<std::mutex> lock(mutex_);
      if (!error_)
        error_ = std::current_exception();
      next_ = n_;
    }
  }
}
} // namespace throughbend
