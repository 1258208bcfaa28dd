#include "postprocess/finding_advice.h"

#include "inputs/run_events.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
/// Plates of one grade differ in strength by some 10 %, and greases as much in force again
/// (tests/verify/README.md, "What is not known"): a ram with less than both to spare may
/// not be enough.
constexpr double thin_margin = 0.2;

double thickest(const Case &c)
{
  return c.coupon.thickness + std::abs(c.coupon.taper) / 2;
}

double room(const Case &c)
{
  return (c.fixture.shoulders.opening - c.fixture.plunger.width) / 2;
}

const std::string more_support = "a longer coupon, or a smaller opening, and laid in the "
                                 "middle. throughbend check tells "
                                 "the length needed.";

/// Room of a leg beside the plunger against the thickest leg.
std::string more_room(const Case &c, const ReaderUnits &units)
{
  return "a leg of " + units.length(thickest(c)) + " needs an opening of more than " +
         units.length(c.fixture.plunger.width + 2 * thickest(c)) +
         " beside this plunger; this opening takes less than " + units.length(room(c)) +
         ". A stronger ram irons the leg and loads coupon and shoulders with its force; "
         "the tools of the model are rigid, real ones are not.";
}

std::string shorter_coupon(const Case &c, const ReaderUnits &units)
{
  const double reach = c.fixture.frame.distance - std::abs(c.coupon.offset);
  return "ends that lie inside the frame from the start, as of a coupon of at most " +
         units.length(2 * reach) + (c.coupon.offset != 0 ? " laid as it is" : "") +
         ". A stronger ram drags the ends past the plates and bends them, and the frame "
         "has to bear it.";
}

std::string more_force(const RunRecord &run, const ReaderUnits &units)
{
  const auto        beyond = run_beyond(run);
  const std::string end    = beyond ? beyond->end : "";
  std::string       words =
      end == "through" ? "a ram that gives more than " + units.force(beyond->force) +
                             ", with some to spare, or less to do for this one: "
            : end == "stroke-out"
                ? "more stroke as well as more force, or less to do for this ram: "
            : end == "dropped"
                ? "a longer coupon, or a smaller opening: with more force it drops unbent. Less "
                  "to do for this ram: "
                : "less to do for this ram: ";
  return words + "grease or rollers at the shoulders, a wider opening, a narrower coupon. "
                 "throughbend check tells the force to expect.";
}

/// Of a coupon that went through.
std::string to_bear_it(const RunRecord &run, const ReaderUnits &units)
{
  const Case       &c      = *run.told;
  const std::string metal  = run.word("metal.answer"),
                    remark = run.word("key_figures.peak_outer_strain_remark");
  std::string words;
  const auto  add = [&](const std::string &more)
  { words += (words.empty() ? "" : " Also ") + more; };
  if (metal == "beyond" && remark.find("toe") != std::string::npos)
    add("a convex face that is ground flush: what stands on it leaves the bend to its "
        "toe.");
  else if (metal == "beyond" && remark.empty())
    add("a wider plunger, as far as the rule for this metal allows one: it stretches the "
        "face less.");
  else if (metal == "not known")
    add("the elongation or limit strain of every zone, stated in [material], [weld_metal] "
        "and [haz]: then the run answers whether the metal bears this stretch.");
  const std::vector<RunEvent> events = run_events(run);
  const auto                  had    = [&](const std::string &kind)
  {
    return std::any_of(events.begin(), events.end(),
                       [&](const RunEvent &event) { return event.kind == kind; });
  };
  if (had("leg ironed"))
    add(more_room(c, units));
  if (had("bent short"))
    add(more_support);
  const double spare = (c.ram.capacity - run.peak_force()) / c.ram.capacity;
  if (spare < thin_margin)
    add("a ram with more to spare: plates of one grade and greases of one kind differ by "
        "more than the " +
        percent_text(spare) + " of its force that were left.");
  return words;
}
} // namespace

std::string finding_advice(const RunRecord &run, const ReaderUnits &units)
{
  if (!run.told)
    return "";
  const Case       &c       = *run.told;
  const std::string outcome = run.word("finding.outcome");
  if (outcome == "undecided")
    return "another way through the same pass: --mesh.level fine, or a smaller "
           "solver.largest_step. log.txt tells where it gave up.";
  if (outcome == "through")
    return to_bear_it(run, units);
  const std::string jam  = run.word("finding.jam"),
                    held = jam.empty() ? run.word("finding.held_by") : jam;
  if (held == "hooked" && c.fixture.frame.present())
    return shorter_coupon(c, units);
  if (held == "squeezed" || (outcome == "over-capacity" && room(c) < thickest(c)))
    return more_room(c, units);
  if (outcome == "over-capacity")
    return more_force(run, units);
  if (outcome == "stroke-out")
    return "more stroke, or a shorter coupon. throughbend check tells the travel after "
           "which a coupon is through, and the length that it needs.";
  if (outcome == "dropped")
    return more_support;
  return "";
}
} // namespace throughbend
