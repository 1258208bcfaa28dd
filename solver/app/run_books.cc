#include "solver/app/run_books.h"

#include "inputs/case_text.h"
#include "solver/app/expected_travel.h"
#include "solver/app/origin.h"
#include "solver/output/finding_text.h"
#include "solver/output/whole_file.h"

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

Audience audience(Speech speech)
{
  return speech == Speech::full ? audience_at(STDERR_FILENO) : Audience::nobody;
}
} // namespace

RunBooks::RunBooks(const PushOrder &order, const CaseReading &reading, const int ranks)
    : order_(order), case_(reading.value.value()),
      folder_(chosen_folder(order), order.existing), log_(folder_.log_file()),
      travel_(folder_.travel_file()),
      progress_(std::cerr, audience(order.speech), expected_travel(case_), order.units)
{
  if (case_.flaws.present())
    opening_.emplace(folder_.opening_file(), case_.flaws);
  summary_.origin = run_origin(case_, order.case_file, ranks);
  write_whole_file(folder_.case_file(), effective_text(case_));
  write_run_summary(folder_.summary_file(), summary_);
  log_.origin(summary_.origin, reading.remarks);
}

void RunBooks::model(const RunEffort &size, const std::string &solver)
{
  log_.model({size.cells, size.dofs, summary_.origin.ranks, summary_.origin.model, solver});
}

void RunBooks::close(const std::optional<Finding> &finding, const Release &release,
                     const std::vector<PassSample>  &samples,
                     const std::vector<SurfaceShot> &faces, const RunEffort &effort)
{
  summary_.state   = finding ? RunState::finished : RunState::interrupted;
  summary_.finding = finding;
  summary_.figures = key_figures(samples, case_);
  summary_.flaws   = flaw_figures(samples, case_);
  summary_.tools   = tool_loads(case_, samples);
  summary_.effort  = effort;
  for (const SurfaceShot &shot : faces)
    (shot.moment == Moment::end ? summary_.face_at_end : summary_.face_at_peak) =
        face_figures(case_, shot.rows, shot.travel);
  if (finding)
  {
    std::vector<FaceFigures> seen;
    for (const auto &face : {summary_.face_at_peak, summary_.face_at_end})
      if (face)
        seen.push_back(*face);
    summary_.metal = metal_answer(case_, *finding, *summary_.figures, seen, summary_.flaws);
    summary_.strain_remark =
        strain_place_remark(case_, *finding, summary_.figures->outer_strain_at,
                            summary_.figures->outer_strain_travel);
  }
  summary_.wire_diameter = case_.inspection.wire_diameter;
  if (!samples.empty() && samples.back().kind == StepKind::release)
    summary_.release = release;
  log_.end(summary_);
  write_run_summary(folder_.summary_file(), summary_);
  closed_ = true;
  if (finding)
    folder_.take_place();

  if (order_.speech == Speech::full)
    std::cout << finding_text(summary_, folder_.path(), order_.units);
  else if (finding)
    std::cout << verdict_lines(summary_, order_.units);
  std::cout << std::flush;
  if (!finding)
    std::cerr << "throughbend: interrupted; what was computed so far is in "
              << folder_.path().string() << earlier_run() << '\n';
}

std::string RunBooks::earlier_run() const
{
  return folder_.aside()
             ? "; the earlier run in " + folder_.place().string() + " is as it was"
             : "";
}

void RunBooks::fail(const std::string &reason) noexcept
try
{
  if (closed_) // the run is whole; what failed came after
    return;
  summary_.state   = RunState::failed;
  summary_.failure = reason;
  write_run_summary(folder_.summary_file(), summary_);
  log_.note("the run failed: " + reason);
  std::cerr << "throughbend: what was computed so far is in " << folder_.path().string()
            << earlier_run() << '\n';
}
catch (...)
{
  // The reason stands on the terminal; the disk may be what failed.
}
} // namespace throughbend
