#include "postprocess/card/card_limit_boxes.h"

#include "inputs/units/display_units.h"
#include "postprocess/card/card_figure.h"
#include "postprocess/card/card_text.h"
#include "postprocess/html/html_text.h"
#include "solver/limits/card_metals.h"
#include "solver/screening/margins.h"
#include "solver/screening/screen_parts.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
std::string big_words(const std::string &first, const std::string &second,
                      const std::string &kind)
{
  return "<p class=\"" + kind + "\"><b>" + escaped(first) + "</b> <span>" +
         escaped(second) + "</span></p>\n";
}

std::string big(const double value, const Measure measure, const Rounded rounded,
                const UnitSystem units, const std::string &kind)
{
  return big_words(card_figure(value, measure, rounded, units),
                   card_figure(value, measure, rounded, other_units(units)), kind);
}

/// As the rule prints it, if it is a rule's; an open limit is not to be reached.
std::string bound_figure(const Bound &bound, const Measure measure, const UnitSystem units)
{
  return (bound.edge == Edge::open ? "below " : "") +
         card_figure(bound.printed(units), measure, Rounded::down, units);
}

std::string bound_figures(const Bound &bound, const Measure measure, const UnitSystem units)
{
  return bound_figure(bound, measure, units) + " (" +
         bound_figure(bound, measure, other_units(units)) + ")";
}

std::string box(const std::string &head, const std::string &inside)
{
  return "<section class=\"limit\">" + element("h2", head) + inside + "</section>\n";
}

/// What decides, where it is from, and what would decide next.
std::string reason(const Bounds &bounds, const Measure measure, const UnitSystem units)
{
  const Bound *first = bounds.decisive();
  std::string  next;
  for (const Bound &bound : bounds.all)
    if (&bound != first)
      next += (next.empty() ? " Others: " : ", ") + bound.by +
              (bound.value > 0 ? " " + bound_figures(bound, measure, units) : "");
  return element("p", "Set by: " + first->by) +
         element("p", first->source + "." + (next.empty() ? "" : next + "."), "small");
}

std::string limit_box(const std::string &head, const Bounds &bounds, const Measure measure,
                      const BenchCard &card, const std::string &more)
{
  const Bound      &first = *bounds.decisive();
  const std::string figure =
      bounds.none
          ? element("p", "none", "value")
          : big_words(bound_figure(first, measure, card.units),
                      bound_figure(first, measure, other_units(card.units)), "value");
  return box(head, figure + more + reason(bounds, measure, card.units));
}

/// The ram that is needed: closed forms, or a run that took more. A run that its own ram
/// stopped tells what a stronger one gives, or else only that more is needed.
Bound force_needed(const BenchCard &card)
{
  Bound force = card.limits.force;
  for (const CardRun &run : card.runs)
    if (const double needed = run.force_it_takes() / margins::rating_share;
        run.within && needed > force.value)
      force = {needed, force.by,
               "run folder " + path_text(run.folder) + ": " +
                   (run.takes_more() ? "stopped by its ram; what it takes is not known, "
                                       "and it is MORE than this"
                                     : "force it takes, over 90 %")};
  return force;
}

/// What is needed of the ram, rounded up, but not beyond the case's own where that is
/// enough.
std::string needed_of_ram(const double needed, const double own, const Measure measure,
                          const BenchCard &card)
{
  const bool enough = needed <= own * (1 + 1e-9);
  const auto beyond = [&](const UnitSystem units)
  { return card_value(needed, measure, Rounded::up, units) > own; };
  return enough && (beyond(UnitSystem::metric) || beyond(UnitSystem::us))
             ? big(own, measure, Rounded::down, card.units, "second")
             : big(needed, measure, Rounded::up, card.units, "second");
}

std::string ram_box(const BenchCard &card)
{
  const CaseLimits &limits = card.limits;
  const Bound       force  = force_needed(card);
  std::string       more   = "Force for the thickest coupon, " +
                     given(card.given.coupon.width, length_text, card) + " wide, in " +
                     limits.force.by;
  if (limits.strongest_force.value > 0)
    more += "; for the strongest " +
            both(limits.strongest_force.value, Measure::force, Rounded::up, card);
  return box(
      "Ram, at least",
      needed_of_ram(force.value, card.given.ram.capacity, Measure::force, card) +
          needed_of_ram(limits.stroke.value, card.given.ram.stroke, Measure::length, card) +
          element("p", more + ".") +
          element("p", force.source + ". Stroke: " + limits.stroke.source + ".", "small"));
}

std::string own_metal_words(const OwnMetal own)
{
  switch (own)
  {
  case OwnMetal::cleared:
    return "";
  case OwnMetal::elongation_not_known:
    return " The case's own metal is NOT CLEARED: its elongation is not given.";
  case OwnMetal::too_brittle:
    return " The case's own metal is NOT CLEARED: it stretches too little.";
  case OwnMetal::group_not_known:
    return " The case's own metal is NOT CLEARED: the rule depends on the group of the "
           "metal, and the case does not name it.";
  case OwnMetal::not_by_rule:
    return " The case's own metal is NOT CLEARED: the rule is not for it.";
  }
  return "";
}

/// Of a point of the face, which is stretched by more than the nominal strain: in the
/// case's metal or one that the card clears.
std::string point_stretch(const CaseLimits &limits)
{
  const double own  = stretch_of_a_point(limits.extreme, force_band(limits.extreme));
  const double most = std::max(own, card_metals(limits).most_at_a_point);
  return std::isfinite(most) ? "; a point up to " + percent_text(most)
                             : "; of a point not known";
}

/// Where it may tear although the mean over its bend does not say so.
std::string own_point_words(const CaseLimits &limits)
{
  const double elongation = limits.extreme.material.elongation;
  const double most       = stretch_of_a_point(limits.extreme, force_band(limits.extreme));
  if (limits.own_metal != OwnMetal::cleared || elongation <= 0 || most <= elongation)
    return "";
  return " A point of the case's own metal may pass its elongation of " +
         percent_text(elongation) +
         (std::isfinite(most) ? " (up to " + percent_text(most) + ")" : "") +
         ": bend the first behind a guard.";
}

/// Of the thickest coupon as the card prints it, which may be a little thinner and need
/// more length [mm].
double shortest_printed(const CaseLimits &limits)
{
  const Bound &thickest = *limits.thickest.decisive();
  double       shortest = limits.shortest.value;
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us})
  {
    const double printed =
        card_value(thickest.printed(units), Measure::length, Rounded::down, units);
    if (printed > 0)
      shortest = std::max(shortest,
                          shortest_coupon(with_thickness(limits.extreme, printed)).value);
  }
  return shortest;
}
} // namespace

bool has_length(const CaseLimits &limits)
{
  if (!limits.possible())
    return false;
  const Bound &longest  = *limits.longest.decisive();
  const double shortest = shortest_printed(limits);
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us})
    if (card_value(longest.printed(units), Measure::length, Rounded::down, units) <
        card_value(shortest, Measure::length, Rounded::up, units))
      return false;
  return true;
}

std::string limits_html(const BenchCard &card)
{
  const CaseLimits &limits  = card.limits;
  Bounds            longest = limits.longest;
  longest.none              = !has_length(limits);
  const std::string shortest =
      element("p", "At that thickness no shorter than " +
                       both(shortest_printed(limits), Measure::length, Rounded::up, card) +
                       " (check length_needed). Plunger straight for " +
                       both(limits.straight_plunger, Measure::length, Rounded::up, card) +
                       " above its round (check straight_leg).");
  const std::string stretch =
      element("p", "Yield stress. Elongation at least " + percent_text(limits.elongation) +
                       (limits.elongation > limits.stretch
                            ? " (by the rule"
                            : " (nominal, t / (2 x nose radius + t)") +
                       point_stretch(limits) + ")." + own_metal_words(limits.own_metal) +
                       own_point_words(limits));
  return limit_box("Thickest coupon", limits.thickest, Measure::length, card, "") +
         limit_box("Longest coupon", longest, Measure::length, card, shortest) +
         limit_box("Strongest " + kind_text(card.given.material), limits.strongest,
                   Measure::stress, card, stretch) +
         ram_box(card);
}
} // namespace throughbend
