#pragma once
// A few threads that share out the cells of one loop, or other parts of one task. What a
// part adds where must not depend on who does it: results are the same to the last digit
// whatever the number of threads.

#include <atomic>
#include <condition_variable>
#include <cstddef>
#include <exception>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace throughbend
{
class CellCrew
{
public:
  /// `size` counts the calling thread; 1 starts no other. Where the system gives fewer
  /// threads the crew is smaller.
  explicit CellCrew(unsigned size = 1);
  ~CellCrew();
  CellCrew(const CellCrew &)            = delete;
  CellCrew &operator=(const CellCrew &) = delete;

  unsigned size() const { return static_cast<unsigned>(hands_.size()) + 1; }

  /// Calls work(i) once for each i below n, in any order, from any of the threads, and
  /// returns when all are done. The first exception passes on to the caller.
  void each(std::size_t n, const std::function<void(std::size_t)> &work);

private:
  void attend();
  void take_part();

  std::vector<std::thread>                hands_;
  std::mutex                              mutex_;
  std::condition_variable                 start_, end_;
  const std::function<void(std::size_t)> *work_ = nullptr;
  std::size_t                             next_ = 0, n_ = 0, share_ = 1;
  std::atomic<unsigned>                   call_{0}, busy_{0};
  std::atomic<bool>                       over_{false};
  std::exception_ptr                      error_;
};
} // namespace throughbend
