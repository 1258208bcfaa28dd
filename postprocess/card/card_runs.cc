#include "postprocess/card/card_runs.h"

#include "inputs/keys/fixture_difference.h"
#include "inputs/text/input_error.h"
#include "postprocess/card/card_limit_boxes.h"
#include "postprocess/runs/run_badge.h"
#include "postprocess/runs/run_events.h"
#include "solver/screening/margins.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
const std::string leave_out = ", or leave it out.";

void refuse_unfinished(const RunRecord &run, const std::string &folder)
{
  const std::string again = " Finish it first: throughbend push " + folder +
                            "/case.ini --into " + folder + " --overwrite" + leave_out;
  if (run.summary.empty())
    throw InputError(
        "--from " + folder + ": " +
        (run.missing.empty() ? std::string("run.json is empty.") : run.missing.front()) +
        again);
  const std::string cure = how_to_resume(run);
  if (const std::string state = run.word("state"); state != "finished")
    throw InputError("--from " + folder + ": the run is not finished (run.json: state " +
                     (state.empty() ? "not given" : state) + "), so it has no finding." +
                     (cure.empty() ? again : " " + cure + leave_out));
  if (const std::string outcome = run.word("finding.outcome");
      outcome.empty() || outcome == "undecided")
    throw InputError("--from " + folder +
                     ": the run is undecided (the computation gave up), which says "
                     "nothing about the coupon. Leave it out.");
  if (!run.changed.empty())
    throw InputError(
        "--from " + folder + ": case.ini was changed after the run: " +
        run.changed.front() + (run.changed.size() > 1 ? ", and more" : "") +
        ". A card uses only passes as they were made: restore the case, push it again, "
        "or leave the run out.");
  if (!run.known_case)
    throw InputError("--from " + folder +
                     ": its case.ini is not there or cannot be read, so its fixture is "
                     "unknown. Leave it out.");
}

void refuse_other_fixture(const Case &there, const std::string &folder, const Case &here)
{
  const std::vector<std::string> lines = fixture_difference(there, here);
  if (lines.empty())
    return;
  std::string list;
  for (const std::string &line : lines)
    list += (list.empty() ? "" : "; ") + line;
  throw InputError("--from " + folder + ": a run of another fixture: " + list +
                   ". Leave it out, or make a card of that one: throughbend card " +
                   folder + "/case.ini");
}

/// By rule and ram: whether a metal is cleared is another question than whether a coupon of
/// it may_print against the limits.
double largest_yield(const CaseLimits &limits)
{
  double yield = std::numeric_limits<double>::infinity();
  for (const Bound &bound : limits.strongest.all)
    if (!bound.of_known_metals)
      yield = std::min(yield, bound.value);
  return yield;
}

bool lies_within(const Case &there, const Case &here, const CaseLimits &limits)
{
  constexpr double slack   = 1e-6;
  const double     yield   = largest_yield(limits);
  const double     by_eye  = margins::laid_by_eye * there.coupon.thickness;
  const double     longest = limits.longest.decisive()->value;
  return has_length(limits) &&
         there.coupon.thickness + std::abs(there.coupon.taper) / 2 <=
             limits.thickest.decisive()->value + slack &&
         there.coupon.length <= longest + slack &&
         there.coupon.length >= shortest_coupon(there).value - slack &&
         std::abs(there.coupon.offset) <= std::abs(here.coupon.offset) + by_eye + slack &&
         there.friction.shoulders <= here.friction.shoulders + slack &&
         there.material.flow.initial_stress() <= yield + slack;
}
} // namespace

double CardRun::force_it_takes() const
{
  const auto beyond = run_beyond(record);
  return beyond ? std::max(beyond->force, record.peak_force()) : record.peak_force();
}

bool CardRun::takes_more() const
{
  const std::string outcome = record.word("finding.outcome");
  if (outcome != "over-capacity")
    return outcome == "jammed";
  const auto beyond = run_beyond(record);
  return !beyond || beyond->end == "not known" || beyond->end == "jammed";
}

CardRun card_run(const std::string &folder, const Case &c, const CaseLimits &limits)
{
  CardRun run;
  run.record = read_run_record(folder);
  run.folder = folder;
  refuse_unfinished(run.record, folder);
  refuse_other_fixture(*run.record.known_case, folder, c);
  run.found                 = badge_words(run.record);
  const std::string outcome = run.record.word("finding.outcome");
  const Case       &there   = *run.record.known_case;
  run.within                = lies_within(there, c, limits);
  // A weaker ram that stops says nothing about this one.
  const bool weaker = (outcome == "over-capacity" && there.ram.capacity < c.ram.capacity) ||
                      (outcome == "stroke-out" && there.ram.stroke < c.ram.stroke);
  // An ironed leg or a touched frame is what the limits are there to prevent.
  const bool sound = outcome == "through" && run_events(run.record).empty();
  run.contradicts  = run.within && !sound && !weaker;
  return run;
}
} // namespace throughbend
