#include "postprocess/words/finding_advice.h"

#include "postprocess/runs/run_events.h"

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

// A coupon laid off centre by eye, or a longer one of a batch, needs more than that.
constexpr double thin_way = 0.05;

bool had(const RunRecord &run, const std::string &kind)
{
  const std::vector<RunEvent> events = run_events(run);
  return std::any_of(events.begin(), events.end(),
                     [&](const RunEvent &event) { return event.kind == kind; });
}

double thickest(const Case &c)
{
  return c.coupon.thickness + std::abs(c.coupon.taper) / 2;
}

double room(const Case &c)
{
  return (c.fixture.shoulders.opening - c.fixture.plunger.width) / 2;
}

const std::string more_support = "a longer coupon or a smaller opening, and a coupon "
                                 "laid in the middle. throughbend check gives the "
                                 "length needed.";

/// Room of a leg beside the plunger against the thickest leg, a cap on it included.
std::string more_room(const Case &c, const ReaderUnits &units)
{
  const double stands = c.weld.cap.height + c.weld.root_bead.height;
  const double leg    = thickest(c) + stands;
  if (leg < room(c))
    return "the room beside the plunger is " + units.length(room(c)) +
           ", and the curl beside the bend fills it. An opening that is wider by a few "
           "per cent of the thickness lets the legs pass.";
  return (stands > 0 ? "a leg with what stands on its weld, " : "a leg of ") +
         units.length(leg) + (stands > 0 ? ", needs" : " needs") +
         " an opening of more than " + units.length(c.fixture.plunger.width + 2 * leg) +
         " beside this plunger; this opening takes less than " + units.length(room(c)) +
         ". A stronger ram irons the leg and loads coupon and shoulders with its force; "
         "the tools of the model are rigid, real ones are not.";
}

std::string shorter_coupon(const Case &c, const ReaderUnits &units)
{
  const double reach = c.fixture.frame.distance - std::abs(c.coupon.offset);
  return "ends that lie inside the frame from the start, as of a coupon of at most " +
         units.length(2 * reach) + (c.coupon.offset != 0 ? " laid as it is" : "") +
         ". A stronger ram would drag the bending ends past the plates, and the frame "
         "would have to bear that force.";
}

std::string more_force(const RunRecord &run, const ReaderUnits &units)
{
  const auto        beyond = run_beyond(run);
  const std::string end    = beyond ? beyond->end : "";
  std::string       words =
      end == "through" ? "a ram that gives more than " +
                             units.force(beyond->force * (1 + beyond->force_lack)) +
                             (beyond->leg_ironed && beyond->force_lack == 0
                                        ? " and what finer cells add, which is not known"
                                        : "") +
                             ", with a margin, or a smaller load: "
            : end == "stroke-out" ? "more stroke and more force, or a smaller load: "
            : end == "dropped"
                ? "a longer coupon or a smaller opening, because with more force it "
                  "drops unbent. A smaller load: "
                : "a smaller load: ";
  return words + "grease or rollers at the shoulders, a wider opening, a narrower "
                 "coupon. throughbend check gives the expected force.";
}

/// Of a coupon that went through.
std::string to_bear_it(const RunRecord &run, const ReaderUnits &units)
{
  const Case       &c      = *run.known_case;
  const std::string metal  = run.word("metal.answer"),
                    remark = run.word("key_figures.peak_outer_strain_remark");
  std::string words;
  const auto  add = [&](const std::string &more)
  { words += (words.empty() ? "" : " Also ") + more; };
  if (metal == "beyond" && remark.find("toe") != std::string::npos)
    add("a convex face that is ground flush: a cap concentrates the bend at its toe.");
  else if (metal == "beyond" && remark.empty())
    add("a wider plunger, if the rule for this metal allows it: the face is stretched "
        "less.");
  else if (const std::string why = run.word("metal.account.words");
           metal == "not known" && why.find("A finer mesh may tell") != why.npos)
    add("a finer mesh (mesh.level), which may tell whether the metal keeps to its limits.");
  else if (metal == "not known" && (why.empty() || why.find("No elongation") != why.npos))
    add("the elongation or limit strain of every zone, given in [material], "
        "[weld_metal] and [haz]: then the run can say whether the metal bears this "
        "stretch.");
  if (had(run, "frame touched"))
    add(shorter_coupon(c, units));
  if (had(run, "leg ironed"))
    add(more_room(c, units));
  if (had(run, "bent short"))
    add(more_support);
  const double spare = (c.ram.capacity - run.peak_force()) / c.ram.capacity;
  if (spare < thin_margin)
    add("a ram with a larger margin: plates of one grade and greases of one kind differ "
        "by more than the " +
        percent_text(spare) + " of its force that were left.");
  const double way = run.number("key_figures.stroke_margin");
  if (way < thin_way)
    add(std::string("more stroke") +
        (had(run, "frame touched") ? "" : ", or a shorter coupon") + ": only " +
        percent_text(way) + " of the stroke was left.");
  return words;
}
} // namespace

std::string finding_advice(const RunRecord &run, const ReaderUnits &units)
{
  if (!run.known_case)
    return "";
  const Case       &c       = *run.known_case;
  const std::string outcome = run.word("finding.outcome");
  if (outcome == "undecided")
    return "other numerical settings: --mesh.level fine, or a smaller "
           "solver.largest_step. log.txt shows where the computation gave up.";
  if (outcome == "through")
    return to_bear_it(run, units);
  const std::string jam  = run.word("finding.jam"),
                    held = jam.empty() ? run.word("finding.held_by") : jam;
  if (held == "hooked" && c.fixture.frame.present())
    return shorter_coupon(c, units);
  const bool tight = room(c) < thickest(c);
  if (held == "squeezed")
    return more_room(c, units);
  if (outcome == "over-capacity") // by bending alone, where nothing squeezed it yet
    return (tight                       ? more_room(c, units) + " Also "
            : had(run, "frame touched") ? shorter_coupon(c, units) + " Also "
                                        : "") +
           more_force(run, units);
  if (outcome == "stroke-out")
    return (tight                       ? more_room(c, units) + " Also "
            : had(run, "frame touched") ? shorter_coupon(c, units) + " Also "
                                        : "") +
           "more stroke, or a shorter coupon. throughbend check gives the travel needed "
           "and the length needed" +
           (c.coupon.taper != 0 ? " of a coupon without a taper." : ".");
  if (outcome == "dropped")
    return more_support;
  return "";
}
} // namespace throughbend
