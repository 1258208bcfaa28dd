#pragma once
// Writes the record of a pass as it goes: travel.csv, log.txt and the line on the terminal.
// For the first rank only; shapes and fields are FieldWriter's.

#include "solver/output/progress.h"
#include "solver/output/run_log.h"
#include "solver/output/travel_record.h"
#include "solver/pass/pass_observer.h"

namespace throughbend
{
template <int dim>
class RunRecorder : public PassObserver<dim>
{
public:
  /// All three must outlive this.
  RunRecorder(TravelRecord &travel, RunLog &log, Progress &progress)
      : travel_(travel), log_(log), progress_(progress)
  {
  }

  void step_accepted(const PassView<dim> &, const PassSample &sample) override
  {
    travel_.add(sample);
    log_.step(sample);
    progress_.show(sample);
  }
  void noted(const std::string &line) override { log_.note(line); }
  void ended(const PassView<dim> &, const Finding &, const Release &) override
  {
    progress_.finish();
  }

private:
  TravelRecord &travel_;
  RunLog       &log_;
  Progress     &progress_;
};
} // namespace throughbend
