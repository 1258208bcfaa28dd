#include "postprocess/finding_advice.h"

#include <cmath>

namespace throughbend
{
namespace
{
/// Plates of one grade differ in strength by some 10 %, and greases as much in force again
/// (README, "What is not known"): a ram with less than both to spare may not be enough.
constexpr double thin_margin = 0.2;

/// Room of a leg beside the plunger against the thickest leg.
std::string more_room(const Case &c, const ReaderUnits &units)
{
  const double thick = c.coupon.thickness + std::abs(c.coupon.taper) / 2;
  return "a leg of " + units.length(thick) + " needs an opening of at least " +
         units.length(c.fixture.plunger.width + 2 * thick) +
         " beside this plunger; into this opening goes less than " +
         units.length((c.fixture.shoulders.opening - c.fixture.plunger.width) / 2) +
         ". More force would dent coupon and shoulders.";
}

std::string shorter_coupon(const Case &c, const ReaderUnits &units)
{
  const double reach = c.fixture.frame.distance - std::abs(c.coupon.offset);
  return "ends that lie inside the frame from the start, as of a coupon of at most " +
         units.length(2 * reach) + (c.coupon.offset != 0 ? " laid as it is" : "") +
         ". Pulled past the plates its ends are bent, too.";
}
} // namespace

std::string finding_advice(const RunRecord &run, const ReaderUnits &units)
{
  if (!run.told)
    return "";
  const Case       &c       = *run.told;
  const std::string outcome = run.word("finding.outcome"), jam = run.word("finding.jam"),
                    ahead = run.word("finding.jam_ahead");
  if (jam == "squeezed" || ahead == "squeezed")
    return more_room(c, units);
  if (jam == "hooked" && c.fixture.frame.present())
    return shorter_coupon(c, units);
  if (outcome == "over-capacity")
    return "a stronger ram, or less to do for this one: grease or rollers at the "
           "shoulders, "
           "a wider opening, a narrower coupon. throughbend check tells the force to "
           "expect.";
  if (outcome == "stroke-out")
    return "more stroke, or a shorter coupon. throughbend check tells the travel after "
           "which "
           "a coupon is through, and the length that it needs.";
  if (outcome == "dropped")
    return "a longer coupon, or a smaller opening, and laid in the middle. throughbend "
           "check "
           "tells the length needed.";
  if (outcome == "undecided")
    return "another way through the same pass: --mesh.level fine, or a smaller "
           "solver.largest_step. log.txt tells where it gave up.";
  const double spare = (c.ram.capacity - run.peak_force()) / c.ram.capacity;
  if (outcome == "through" && spare < thin_margin)
    return "a ram with more to spare: plates of one grade and greases of one kind differ "
           "by "
           "more than the " +
           percent_text(spare) + " of its force that were left.";
  return "";
}
} // namespace throughbend
