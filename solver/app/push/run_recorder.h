#pragma once
// Writes the record of a pass as it goes: travel.csv, beyond.csv where the ram's force runs
// out, opening.csv where the coupon has flaws, log.txt and the line on the terminal. For
// the first rank only; shapes and fields are FieldWriter's.

#include "postprocess/words/progress.h"
#include "solver/app/push/run_log.h"
#include "solver/pass/pass_observer.h"
#include "solver/record/opening_record.h"
#include "solver/record/travel_record.h"

#include <optional>
#include <utility>
#include <vector>

namespace throughbend
{
template <int dim>
class RunRecorder : public PassObserver<dim>
{
public:
  /// All must outlive this; `opening` is null without flaws.
  RunRecorder(TravelRecord &travel, std::filesystem::path beyond, OpeningRecord *opening,
              RunLog &log, Progress &progress)
      : travel_(travel), beyond_file_(std::move(beyond)), opening_(opening), log_(log),
        progress_(progress)
  {
  }

  /// Writes the rows of the earlier part of a pass that is resumed; `beyond` begins with
  /// the last sample before the capacity.
  void write_earlier(const std::vector<PassSample> &samples,
                     const std::vector<PassSample> &beyond)
  {
    for (const PassSample &sample : samples)
    {
      travel_.add(sample);
      if (opening_ != nullptr)
        opening_->add(sample);
    }
    if (beyond.size() < 2)
      std::filesystem::remove(beyond_file_);
    else
      beyond_.emplace(beyond_file_);
    for (std::size_t i = 1; i < beyond.size(); ++i)
      beyond_->add(beyond[i]);
  }

  void step_beyond(const PassSample &sample) override
  {
    if (!beyond_)
      beyond_.emplace(beyond_file_);
    beyond_->add(sample);
    progress_.show(sample);
  }

  void step_accepted(const PassView<dim> &, const PassSample &sample) override
  {
    travel_.add(sample);
    if (opening_ != nullptr)
      opening_->add(sample);
    log_.step(sample);
    progress_.show(sample);
  }
  void noted(const std::string &line) override { log_.note(line); }
  void ended(const PassView<dim> &view, const Finding &, const Release &) override
  {
    travel_.finish(view.setup);
    if (beyond_)
      beyond_->finish(view.setup);
    progress_.finish();
  }

private:
  TravelRecord               &travel_;
  std::filesystem::path       beyond_file_;
  std::optional<TravelRecord> beyond_;
  OpeningRecord              *opening_;
  RunLog                     &log_;
  Progress                   &progress_;
};
} // namespace throughbend
