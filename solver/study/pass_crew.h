#pragma once
// Those who make the passes of a study: threads of this process, or ranks. A crew is given
// cases and gives back passes, in the order in which they are done.

#include "inputs/case/case.h"
#include "solver/study/file/study_record.h"

#include <atomic>
#include <condition_variable>
#include <deque>
#include <exception>
#include <functional>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

namespace throughbend
{
/// Makes one pass; `stop` true: leave it, and give nothing back. It does not check
/// values of keys. Must allow to be called on several threads at once.
using PassMaker = std::function<std::optional<StudyPass>(
    const Case &, const std::function<bool()> &stop)>;

struct PassDone
{
  std::size_t              task = 0;
  std::optional<StudyPass> pass;    ///< nothing: it was stopped
  std::string              failure; ///< an error of machine or program; else empty
};

/// An error becomes its `failure`.
PassDone carried_out(std::size_t task, const Case &c, const PassMaker &make,
                     const std::function<bool()> &stop);

class PassCrew
{
public:
  virtual ~PassCrew()              = default;
  virtual std::size_t free() const = 0; ///< how many could begin now
  virtual void        begin(std::size_t task, const Case &c) = 0;
  /// The next that is done, after at most so long [s]; nothing: none yet.
  virtual std::optional<PassDone> next_done(double patience) = 0;
  /// What is under way is left; each still comes back by next_done().
  virtual void stop() = 0;
};

class ThreadCrew : public PassCrew
{
public:
  ThreadCrew(PassMaker make, std::size_t workers);
  ~ThreadCrew() override; ///< stops what is under way, and waits for it

  std::size_t             free() const override;
  void                    begin(std::size_t task, const Case &c) override;
  std::optional<PassDone> next_done(double patience) override;
  void                    stop() override { stop_ = true; }

private:
  struct Order
  {
    std::size_t task;
    Case        given;
  };
  void work();

  PassMaker                make_;
  std::atomic<bool>        stop_{false};
  mutable std::mutex       mutex_;
  std::condition_variable  ordered_, done_;
  std::deque<Order>        orders_;
  std::deque<PassDone>     results_;
  std::size_t              busy_ = 0;
  bool                     over_ = false;
  std::vector<std::thread> threads_;
};

/// Workers for passes of this dimension on this machine: one a core for a plane model, one
/// for a model with width, which uses all cores itself.
std::size_t usual_workers(int dimension);
} // namespace throughbend
