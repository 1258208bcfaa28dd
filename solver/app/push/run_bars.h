#pragma once
// The further passes of push --bars, made on the other cores from the moment the pass
// begins.

#include "postprocess/app/push_order.h"
#include "solver/record/run_summary.h"
#include "solver/study/bar_cases.h"

#include <future>
#include <memory>
#include <optional>
#include <vector>

namespace throughbend
{
class RunBars
{
public:
  RunBars(const PushOrder &order, const Case &c);
  ~RunBars(); ///< leaves what is under way

  /// Waits for them. The summary is that of the finished pass.
  std::optional<ErrorBars> made(const RunSummary &summary);

private:
  std::vector<BarCase>      cases_;
  std::unique_ptr<PassCrew> crew_;
  std::atomic<bool>         over_{false};
  std::future<ErrorBars>    bars_;
};
} // namespace throughbend
