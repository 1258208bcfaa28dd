#include "solver/app/push/run_bars.h"

#include "solver/app/process/interrupt.h"
#include "solver/study/pass_record.h"
#include "solver/study/passes/study_pass.h"

#include <iostream>

namespace throughbend
{
RunBars::RunBars(const PushOrder &order, const Case &c) : cases_(bar_cases(c))
{
  const AtCapacity at_capacity = order.at_capacity;
  crew_                        = std::make_unique<ThreadCrew>(
      [at_capacity](const Case &one, const std::function<bool()> &stop)
      { return study_pass(one, at_capacity, stop); },
      usual_workers(2));
  bars_ = std::async(std::launch::async,
                     [this] {
                       return error_bars({}, cases_, *crew_,
                                         [this] { return over_ || interrupt_asked(); });
                     });
}

RunBars::~RunBars()
{
  over_ = true;
  if (bars_.valid())
    bars_.wait();
}

std::optional<ErrorBars> RunBars::made(const RunSummary &summary)
{
  ErrorBars bars = bars_.get();
  bars.own       = bar_figures(pass_record(summary, {}));
  if (interrupt_asked())
    std::cerr << "throughbend: interrupted. The finding is complete; its error bars are "
                 "missing.\n";
  return bars;
}
} // namespace throughbend
