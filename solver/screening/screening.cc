#include "solver/screening/screening.h"

#include "inputs/catalogue/rule_choice.h"
#include "meshes/coupon/leg_reach.h"
#include "solver/screening/length_needed.h"
#include "solver/screening/screen_parts.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace throughbend
{
namespace
{
/// Ten points or so out of many, the peak's among them.
std::vector<ForcePoint> thinned(const ForceBand &band)
{
  std::vector<ForcePoint> some;
  if (band.points.empty())
    return some;
  const double last = band.points.back().travel;
  for (int i = 1; i <= 10; ++i)
  {
    const auto at = std::min_element(band.points.begin(), band.points.end(),
                                     [&](const ForcePoint &a, const ForcePoint &b) {
                                       return std::abs(a.travel - last * i / 10) <
                                              std::abs(b.travel - last * i / 10);
                                     });
    some.push_back(*at);
  }
  some.push_back(band.peak);
  std::sort(some.begin(), some.end(),
            [](const ForcePoint &a, const ForcePoint &b) { return a.travel < b.travel; });
  some.erase(std::unique(some.begin(), some.end(),
                         [](const ForcePoint &a, const ForcePoint &b)
                         { return a.travel == b.travel; }),
             some.end());
  return some;
}

std::vector<std::string> cautions_for(const Case &c, const ForceBand &band)
{
  std::vector<std::string> words;
  if (band.points.empty())
    words.push_back("The ends slip off the shoulders before the coupon is bent: force, "
                    "springback and tools are not computed.");
  if (c.weld.present())
    words.push_back(
        "Weld and HAZ: force, stretch and springback are the base plate's. The "
        "bands of forces and springback reach from a coupon all of the softest "
        "zone to one all of the strongest. Stretch gathers in the softer zone.");
  if (c.fixture.plunger.flat_nose())
    words.push_back("The nose is flat between its rounded edges: the coupon lifts off "
                    "it, and the formulas for a round nose are less accurate.");
  if (c.coupon.width < 8 * c.coupon.thickness)
    words.push_back(
        "The coupon is narrower than 8 thicknesses: its edges curl, and it takes up to "
        "13 % less force than in plane strain.");
  // tests/benchmarks/TABLE.md, "Levels of a body".
  words.push_back("Stretch is that of the mid-width. The free edges are stretched more, by "
                  "about a quarter on a coupon four times as wide as thick.");
  if (c.coupon.offset != 0)
    words.push_back("Force and stretch are for a coupon laid in the middle.");
  if (c.coupon.taper != 0)
    words.push_back(
        "The coupon's taper: every line but those under Fit is for its middle thickness.");
  if (c.friction.left_shoulder() != c.friction.shoulders)
    words.push_back(
        "The shoulders' friction differs: forces are for the mean of both, their "
        "bands from the smaller to the larger one at both. Places and travels are "
        "for a coupon that stays in the middle.");
  if (frame_reach(c) != FrameReach::clear)
    words.push_back(
        "The frame: where an end touches it, the force and the released energy are larger "
        "than in the lines on force, jack, tools and release; how much only push tells.");
  if (c.fixture.clearance(thickest(c)) < 0)
    words.push_back(
        "The legs do not fit beside the plunger: the lines on force, jack, tools and "
        "release hold only until the squeeze begins; see the line under Fit.");
  return words;
}

/// An end that touches the frame takes force that no formula here tells.
ForceBand open_above(ForceBand band)
{
  band.may_touch_frame = true;
  for (Banded *const each : {&band.peak.force, &band.shoulder_force})
    each->high = std::numeric_limits<double>::infinity();
  return band;
}

/// The plunger bends one side of the weld more than the other.
bool is_off_centre(const Weld &weld, const Coupon &coupon)
{
  return weld.present() && (weld.offset != 0 || coupon.offset != 0 || !weld.symmetric());
}

std::vector<std::string> not_cleared_of(const Case                          &c,
                                        const std::optional<RuleComparison> &rule)
{
  std::vector<std::string> words;
  if (c.material.elongation <= 0 && c.material.limit_strain <= 0)
    words.push_back("whether the metal bears the stretch: its elongation is not given "
                    "(material.elongation)");
  if (c.fixture.plunger.flat_nose())
    words.push_back(
        "how the coupon bends over the corners of the flat nose, and how far it "
        "is stretched there: only push computes it");
  if (c.weld.present())
    words.push_back(
        "whether plate, weld and HAZ bear their stretch, and what force they take: "
        "only push computes them");
  for (const Flaw &flaw : c.flaws.each)
    if (flaw.present())
    {
      words.push_back("how far the flaw opens: only push computes it");
      break;
    }
  if (c.weld.cap.height > 0 || c.weld.root_bead.height > 0)
    words.push_back("what the cap or root bead left on the coupon does: only push computes "
                    "it");
  if (c.coupon.taper != 0)
    words.push_back(
        "force, stretch and stroke of a coupon that is thicker at one end: only "
        "push computes them");
  if (c.friction.left_shoulder() != c.friction.shoulders)
    words.push_back("how far the coupon walks to one side, and what stroke it then needs: "
                    "only push computes it");
  if (is_off_centre(c.weld, c.coupon))
    words.push_back("how far the bend walks out of a weld that does not lie in the middle, "
                    "whether both legs then stand, and what length and stroke that needs: "
                    "only push computes it");
  if (rule && goes_by_group(rule->by_rule.rule))
    words.push_back("whether the rule is for this metal: " + rule->by_rule.rule.rule +
                    " is for " + rule->by_rule.rule.applies_to +
                    ", and the case names no group");
  if (c.fixture.shoulders.yield <= 0)
    words.push_back(
        "whether the shoulders keep their shape: their yield stress is not given "
        "(shoulders.yield)");
  if (c.fixture.plunger.yield <= 0)
    words.push_back("whether the plunger's nose keeps its shape: its yield stress is not "
                    "given (plunger.yield)");
  return words;
}

std::vector<std::string> questions_for_push(const Case &c)
{
  std::vector<std::string> words = {
      "whether the coupon goes through or jams, and where the force goes after the peak",
      "where along the convex face the stretch is largest, and how it is spread",
      "the gap under the nose and the angle the legs end at"};
  if (c.weld.present())
    words.push_back("the effect of weld and HAZ: stretch in the softer zone, sideways "
                    "walk");
  if (c.fixture.frame.present())
    words.push_back("what happens to ends that catch on the frame");
  if (c.fixture.clearance(thickest(c)) < 0)
    words.push_back("the force of squeeze and bend together");
  return words;
}
} // namespace

std::string to_text(const Verdict verdict)
{
  switch (verdict)
  {
  case Verdict::ok:
    return "ok";
  case Verdict::close:
    return "close";
  case Verdict::no:
    return "no";
  case Verdict::figure:
    return "-";
  }
  throw std::logic_error("there is no such verdict");
}

const ScreenLine *Screening::find(const std::string &key) const
{
  for (const ScreenSection &section : sections)
    for (const ScreenLine &line : section.lines)
      if (line.key == key)
        return &line;
  return nullptr;
}

Verdict Screening::worst() const
{
  Verdict worst = Verdict::ok;
  for (const ScreenSection &section : sections)
    for (const ScreenLine &line : section.lines)
      if (line.verdict == Verdict::no ||
          (line.verdict == Verdict::close && worst == Verdict::ok))
        worst = line.verdict;
  if (rule && rule->worst() == Agreement::no)
    return Verdict::no;
  if (rule && rule->worst() == Agreement::close && worst == Verdict::ok)
    return Verdict::close;
  return worst;
}

Screening screen(const Case &c)
{
  const ForceBand bent = force_band(c);
  const ForceBand band = frame_reach(c) == FrameReach::clear ? bent : open_above(bent);
  Screening       screening;
  screening.title = c.title;
  for (ScreenSection section :
       {screen_fit(c, band), screen_length(c, band), screen_strain(c, band),
        screen_force(c, band), screen_jack(c, band), screen_tools(c, band),
        screen_release(c, band)})
    if (!section.lines.empty())
      screening.sections.push_back(std::move(section));
  screening.force = thinned(bent);
  if (!c.fixture.rule.empty())
    screening.rule = compare_with_rule(built_in_rules(), c.fixture.rule, c);
  screening.not_cleared = not_cleared_of(c, screening.rule);
  screening.cautions    = cautions_for(c, band);
  screening.only_push   = questions_for_push(c);
  return screening;
}
} // namespace throughbend
