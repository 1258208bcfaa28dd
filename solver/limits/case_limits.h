#pragma once
// How far a fixture goes: the thickest, longest, shortest and strongest coupon that it
// takes with the rest of the case as it is, and the least ram for them. Found by asking
// check's own lines again and again, so that the two cannot differ; an estimate, with the
// margins of solver/screening/margins. Knows no run and no page.

#include "solver/limits/card_study.h"
#include "solver/screening/screening.h"

#include <limits>
#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// One thing that sets a bound, and where its number comes from.
struct Bound
{
  double      value = 0;  ///< [mm], or [MPa]
  std::string by;         ///< `room beside the plunger`
  std::string source;     ///< line of check, key of the case, or clause of a rule
  double      us     = 0; ///< the same limit as a rule prints it in ksi or inch; 0: `value`
  double      metric = 0; ///< ... in MPa or mm; 0: `value`
  Edge        edge   = Edge::closed; ///< open: the value itself is too much
  bool of_known_metals = false;      ///< stronger metals are not known to be good, no more

  /// As it is to be printed in a family of units [mm], or [MPa].
  double printed(UnitSystem units) const;
};

/// Whether the case's own metal may be bent on its plunger.
enum class OwnMetal
{
  cleared,
  elongation_not_known,
  group_not_known, ///< the rule is for groups of metals, which a case does not name
  too_brittle,     ///< check says no of its stretch
  not_by_rule
};

/// The least of several bounds decides.
struct Bounds
{
  std::vector<Bound> all;          ///< those that there are
  bool               none = false; ///< nothing passes; `all` says by what

  const Bound *decisive() const; ///< null without any bound
};

/// A coupon at all of these bounds at once keeps check's margins, if its metal springs back
/// by no more than usual (margins::usual_springback). So does a thinner one that is no
/// shorter than its own shortest_coupon: the wider gap asks for more length.
struct CaseLimits
{
  Bounds thickest;  ///< [mm]
  Bounds longest;   ///< [mm]
  Bound  shortest;  ///< of the thickest coupon; thinner ones need more [mm]
  Bounds strongest; ///< yield stress [MPa]: of rule, ram, and metals that are cleared

  double straight_plunger = 0; ///< above the bend, with the longest coupon [mm]
  double stretch          = 0; ///< nominal, of the thickest coupon's convex face [-]
  double elongation       = 0; ///< that a metal must have, by that and by the rule [-]
  Bound  force;                ///< ram at least, with the case's metal [N]
  Bound  strongest_force;      ///< with the strongest metal; 0: the case's is it [N]
  Bound  dry_force;            ///< with the case's metal on dry shoulders [N]
  Bound  stroke;               ///< ram at least [mm]
  Bound  ejection;             ///< speed at most, of any coupon within the limits [m/s]

  OwnMetal own_metal = OwnMetal::elongation_not_known;

  /// Up to which the ram bends the case's metal, were it only stronger; infinite: any
  /// [MPa].
  double ram_yield = std::numeric_limits<double>::infinity();

  double strongest_zone = 1; ///< of the case's weld, over its plate's strength [-]

  /// What check says no of, or of a zone does not clear, with the coupon `extreme`: jack,
  /// tools, and the zones of the case's own weld in it. No limit here heeds it.
  std::vector<ScreenLine> refused;

  bool by_passes = false; ///< some bound is of simulated passes, each along one key alone

  std::optional<RuleComparison> rule; ///< with fixture.rule, if one is named

  Case extreme; ///< the case with the coupon that is thickest and longest at once
  bool possible() const { return !thickest.none && !longest.none; }
};

/// The case must be valid. Throws InputError for a fixture.rule that the catalogue does not
/// have. Limits of passes stand where closed forms of room, frame, stroke and force stood;
/// those of rules, the frame's opening and known metals stay.
CaseLimits case_limits(const Case &c, const PassLimits &passes = {});

/// The case with a coupon of another thickness [mm]: the frame's opening stays where it is.
Case with_thickness(const Case &c, double thickness);

/// No plate yields later (from memory): beyond, a strength is no bound worth telling [MPa].
constexpr double strongest_plate = 2000;

/// check's length needed: support until the legs stand, laid off centre by eye [mm].
Bound shortest_coupon(const Case &c);

/// Whether the ram bends the coupon with check's margin.
bool ram_bends(const Case &c);
bool ram_bends(const Case &c, const ForceBand &band);

/// The largest value in a range up to which something holds, if it holds at `low`; `high`
/// if it holds everywhere. Walks up in steps of a thirtieth before it halves, so that it
/// finds the first failure.
template <class Holds>
std::optional<double> largest_that(const double low, const double high, const Holds &holds)
{
  if (!holds(low))
    return std::nullopt;
  double    good = low, bad = high;
  const int steps = 30;
  for (int i = 1; i <= steps; ++i)
  {
    bad = low + (high - low) * i / steps;
    if (!holds(bad))
      break;
    good = bad;
  }
  if (good == high)
    return high;
  for (int i = 0; i < 30; ++i)
  {
    const double middle          = (good + bad) / 2;
    (holds(middle) ? good : bad) = middle;
  }
  return good;
}
} // namespace throughbend
