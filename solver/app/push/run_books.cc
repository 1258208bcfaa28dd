#include "solver/app/push/run_books.h"

#include "inputs/keys/case_text.h"
#include "inputs/text/shown_text.h"
#include "inputs/text/whole_file.h"
#include "postprocess/words/finding_text.h"
#include "solver/app/push/expected_travel.h"
#include "solver/app/push/origin.h"
#include "solver/record/pass_summary.h"

#include <unistd.h>

#include <iostream>

namespace throughbend
{
namespace
{
std::filesystem::path chosen_folder(const PushOrder &order)
{
  return order.into.empty() ? default_folder(order.case_file) : order.into;
}

std::string ranks_text(int ranks)
{
  return ranks == 1 ? "one rank" : std::to_string(ranks) + " ranks";
}

Audience audience(Speech speech)
{
  return speech == Speech::full ? audience_at(STDERR_FILENO) : Audience::nobody;
}
} // namespace

RunBooks::RunBooks(const PushOrder &order, const CaseReading &reading, const int ranks)
    : order_(order), case_(reading.value.value()),
      folder_(chosen_folder(order), order.existing),
      progress_(std::cerr, audience(order.speech), expected_travel(case_), order.units)
{
  summary_.origin = run_origin(case_, order.case_file, ranks);
  if (order.existing == ExistingRun::resume)
    take_up();
}

/// The newest checkpoint, when it is of this case and order.
void RunBooks::take_up()
{
  Checkpoint     checkpoint = newest_checkpoint(folder_.checkpoints(), remarks_);
  const RunPast &past       = checkpoint.past;
  std::string    lines;
  for (const std::string &line :
       case_difference(past.case_values, summary_.origin.case_values))
    lines += "\n  " + line;
  if (!lines.empty())
    throw InputError("the run in " + folder_.path().string() +
                     " has another case (there: in the run, here: now):" + lines +
                     "\nGive the same case, or choose another folder.");
  if (order_.at_capacity == AtCapacity::stop && checkpoint.state.order != AtCapacity::stop)
    throw InputError("the run in " + folder_.path().string() +
                     " was started without --stop-at-capacity: resume it without it, "
                     "too.");
  if (past.version != summary_.origin.version ||
      past.git_revision != summary_.origin.git_revision)
    remarks_.push_back("the run was started by throughbend " + past.version + " (" +
                       past.git_revision + "), another version than this one (" +
                       summary_.origin.version + ", " + summary_.origin.git_revision +
                       "): its record may differ from that of a run without interruption");
  if (past.ranks != summary_.origin.ranks)
    remarks_.push_back("the checkpoint was written by " + ranks_text(past.ranks) +
                       ", and this is " + ranks_text(summary_.origin.ranks) +
                       ": rounding differs, so the record may differ from a run without "
                       "interruption in its last digits");
  summary_.origin.started     = past.started;
  summary_.origin.case_source = past.case_source;
  summary_.origin.resumed     = past.resumed;
  summary_.origin.resumed.push_back(time_stamp());
  checkpoints_ = checkpoint.number;
  earlier_     = std::move(checkpoint);
}

void RunBooks::open(const std::vector<std::string> &remarks)
{
  if (earlier_)
    folder_.reserve_room();
  log_.emplace(folder_.log_file(), earlier_ ? RunLog::Start::append : RunLog::Start::anew);
  travel_.emplace(folder_.travel_file());
  if (case_.flaws.present())
    opening_.emplace(folder_.opening_file(), case_.flaws);
  write_whole_file(folder_.case_file(), effective_text(case_));
  write_run_summary(folder_.summary_file(), summary_);
  log_->origin(summary_.origin, remarks);
  if (!earlier_)
    return;
  const PassState &state = earlier_->state;
  log_->resumed(summary_.origin.resumed.back(),
                static_cast<int>(state.samples.size() + state.beyond.size()) -
                    (state.beyond.empty() ? 0 : 1),
                state.now.travel);
  progress_.go_on_from(state.now.travel);
  for (const std::string &remark : remarks_)
  {
    log_->note(remark);
    if (order_.speech == Speech::full)
      std::cerr << "note: " << shown_text(remark) << '\n';
  }
}

void RunBooks::keep(const PassState &state)
{
  kept_ = false;
  try
  {
    keep_checkpoint(
        folder_.checkpoints(),
        {++checkpoints_,
         {summary_.origin.version, summary_.origin.git_revision, summary_.origin.started,
          summary_.origin.resumed, summary_.origin.case_source, summary_.origin.case_values,
          summary_.origin.ranks},
         state});
    kept_ = true;
  }
  catch (const std::runtime_error &error)
  {
    --checkpoints_; // its slot comes next, too: the other one is whole
    log_->note("no checkpoint: " + std::string(error.what()));
  }
}

void RunBooks::model(const RunEffort &size, const std::string &solver)
{
  log_->model(
      {size.cells, size.dofs, summary_.origin.ranks, summary_.origin.model, solver});
}

void RunBooks::close(const std::optional<Finding> &finding, const Release &release,
                     const std::vector<PassSample>  &samples,
                     const std::vector<SurfaceShot> &faces, const RunEffort &effort)
{
  put_pass(summary_, case_, finding, release, samples, faces);
  summary_.effort = effort;
  log_->end(summary_);
  folder_.sync(); // before the record says that all is there
  write_run_summary(folder_.summary_file(), summary_);
  closed_ = true;
  folder_.free_room();
  if (finding && bar_maker_)
  {
    summary_.bars = bar_maker_(summary_);
    write_run_summary(folder_.summary_file(), summary_);
  }
  if (finding)
  {
    folder_.clear_checkpoints();
    folder_.take_place();
  }

  if (order_.speech == Speech::full)
    std::cout << shown_lines(finding_text(summary_, folder_.path(), order_.units));
  else if (finding)
    std::cout << shown_lines(verdict_lines(summary_, order_.units));
  std::cout << std::flush;
  if (!finding)
    tell_interrupted();
}

void RunBooks::tell_interrupted() const
{
  std::cerr << "throughbend: interrupted. The record so far is in "
            << shown_text(folder_.path().string() + earlier_run()) << ".\n"
            << (kept_
                    ? "To continue: throughbend push --resume " +
                          shown_text(folder_.path().string())
                    : "It cannot be resumed: no checkpoint could be written, see log.txt.")
            << '\n';
}

std::string RunBooks::earlier_run() const
{
  return folder_.aside()
             ? "; the earlier run in " + folder_.place().string() + " is unchanged"
             : "";
}

/// In the room that was kept where there is no other.
void RunBooks::put_failure()
{
  try
  {
    write_run_summary(folder_.summary_file(), summary_);
  }
  catch (const std::exception &)
  {
    if (folder_.spend_room(summary_text(summary_)))
      return;
    std::cerr << "throughbend: this could not be recorded in "
              << shown_text(folder_.summary_file().string()) << '\n';
  }
}

void RunBooks::fail(const std::string &reason) noexcept
try
{
  if (closed_) // the run is whole; what failed came after
    return;
  summary_.state   = RunState::failed;
  summary_.failure = reason;
  put_failure();
  if (log_)
    try
    {
      log_->note("the run failed: " + reason);
    }
    catch (const std::exception &)
    {
      // run.json has it.
    }
  std::cerr << "throughbend: the record so far is in "
            << shown_text(folder_.path().string() + earlier_run())
            << (checkpoints_ > 0
                    ? ".\n"
                      "After removing the cause, continue from the last checkpoint: "
                      "throughbend push --resume " +
                          shown_text(folder_.path().string())
                    : "")
            << '\n';
}
catch (...)
{
  // The reason stands on the terminal; the disk may be what failed.
}
} // namespace throughbend
