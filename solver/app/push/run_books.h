#pragma once
// All records of one run that the first rank keeps: the folder, travel.csv, log.txt,
// run.json, checkpoints, the terminal. Opens them in an order that leaves nothing behind
// when the folder cannot be used, and closes them with the finding.

#include "inputs/keys/case_reader.h"
#include "postprocess/app/push_order.h"
#include "postprocess/words/progress.h"
#include "solver/app/push/run_log.h"
#include "solver/fields/checkpoint.h"
#include "solver/record/opening_record.h"
#include "solver/record/run_folder.h"
#include "solver/record/surface_record.h"
#include "solver/record/travel_record.h"

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace throughbend
{
class RunBooks
{
public:
  /// Throws InputError when the folder cannot be used, or when what is to be resumed is of
  /// another case. Then nothing in the folder has been changed.
  RunBooks(const PushOrder &order, const CaseReading &reading, int ranks);

  /// The state to go on from; null in a new run.
  const PassState *earlier() const { return earlier_ ? &earlier_->state : nullptr; }

  /// Starts the files: of a new run, or of one whose state fits the model.
  void open(const std::vector<std::string> &remarks);

  const RunFolder &folder() const { return folder_; }
  TravelRecord    &travel() { return *travel_; }
  OpeningRecord   *opening() { return opening_ ? &*opening_ : nullptr; }
  RunLog          &log() { return *log_; }
  Progress        &progress() { return progress_; }

  void model(const RunEffort &size, const std::string &solver);

  /// Writes a checkpoint. Where that fails the run goes on, and says so.
  void keep(const PassState &state);

  using BarMaker = std::function<std::optional<ErrorBars>(const RunSummary &)>;
  /// Asked for error bars once the finding is on the disk.
  void make_bars_with(BarMaker maker) { bar_maker_ = std::move(maker); }

  /// Writes and prints what was found, and puts the run in the place of an earlier one; no
  /// finding: the run was interrupted, and an earlier one stays.
  void close(const std::optional<Finding> &finding, const Release &release,
             const std::vector<PassSample> &samples, const std::vector<SurfaceShot> &faces,
             const RunEffort &effort);

  void fail(const std::string &reason) noexcept; ///< leaves run.json saying so, if it can

private:
  void take_up();
  void tell_interrupted() const;
  void put_failure();

  /// What to add where an earlier run was to be replaced and was not.
  std::string earlier_run() const;

  const PushOrder              order_;
  const Case                   case_;
  RunFolder                    folder_;
  std::optional<Checkpoint>    earlier_; ///< to go on from
  std::vector<std::string>     remarks_; ///< on what it was read from
  std::optional<RunLog>        log_;
  std::optional<TravelRecord>  travel_;
  std::optional<OpeningRecord> opening_; ///< with flaws
  Progress                     progress_;
  RunSummary                   summary_;
  BarMaker                     bar_maker_;
  std::uint64_t                checkpoints_ = 0;     ///< number of the last one
  bool                         kept_        = false; ///< the last one could be written
  bool                         closed_      = false;
};
} // namespace throughbend
