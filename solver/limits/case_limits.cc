#include "solver/limits/case_limits.h"

#include "inputs/catalogue/lubricant_catalogue.h"
#include "inputs/units/nominal_strain.h"
#include "solver/limits/card_metals.h"
#include "solver/screening/ejection.h"
#include "solver/screening/jack_work.h"
#include "solver/screening/length_needed.h"
#include "solver/screening/margins.h"
#include "solver/screening/screen_parts.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
const ScreenLine &line(const ScreenSection &section, const std::string &key)
{
  return *std::find_if(section.lines.begin(), section.lines.end(),
                       [&](const ScreenLine &l) { return l.key == key; });
}

bool ok(const ScreenSection &section, const std::string &key)
{
  return line(section, key).verdict == Verdict::ok;
}

std::string check_line(const std::string &key, const Formula &formula)
{
  return "check " + key + ": " + formula.name;
}

std::string by_percent(const double share)
{
  return std::to_string(std::lround(100 * share)) + " %";
}

/// Of a weld's zone, which has a metal of its own.
bool is_of_a_zone(const ScreenLine &line)
{
  return line.key.rfind("nominal_elongation_", 0) == 0;
}

Case with_length(Case c, const double length)
{
  c.coupon.length = length;
  return c;
}

/// Laid as far off centre as happens by eye.
Case laid(Case c)
{
  c.coupon.offset = std::abs(c.coupon.offset) + margins::laid_by_eye * c.coupon.thickness;
  return c;
}

Case stronger(Case c, const double factor)
{
  c.material.flow = c.material.flow.scaled(factor);
  return c;
}

/// check's line on the peak force; none where the ends slip off unbent.
std::optional<ScreenLine> peak_force(const Case &c, const ForceBand &band)
{
  const ScreenSection force = screen_force(c, band);
  for (const ScreenLine &l : force.lines)
    if (l.key == "peak_force")
      return l;
  return std::nullopt;
}

std::optional<ScreenLine> peak_force(const Case &c)
{
  return peak_force(c, force_band(c));
}

/// Without the weld, whose shape may not go with another thickness: forces are asked for
/// all of the coupon as strong as its strongest zone. And without a taper, for limits are
/// those of the thickest place.
Case plain(Case c)
{
  c.weld         = {};
  c.coupon.taper = 0;
  return c;
}

/// Flow stress of the case's strongest zone over its plate's, at least 1 [-].
double strongest_zone(const Case &c)
{
  Case welded         = c;
  welded.coupon.taper = 0;
  const double own    = force_band(plain(c)).peak.force.high;
  return own > 0 ? std::max(1., force_band(welded).peak.force.high / own) : 1.;
}

void put(Bounds &bounds, const std::optional<double> value, const double otherwise,
         const std::string &by, const std::string &source)
{
  bounds.none = bounds.none || !value;
  bounds.all.push_back({value.value_or(otherwise), by, source});
}

const std::string room_words   = "room beside the plunger";
const std::string frame_words  = "frame: the ends stay inside its plates";
const std::string stroke_words = "stroke of the ram";
const std::string force_words  = "force of the ram";
const std::string jack_words   = "usual ceiling of the jack's gauge";

/// What ends first: nine tenths of the ram's rating, or the force at that ceiling.
bool jack_ends_first(const Ram &ram)
{
  return ram.jack.present() &&
         jack_ceiling(ram.jack) < margins::rating_share * ram.capacity;
}

std::string ram_words(const Ram &ram)
{
  return jack_ends_first(ram) ? jack_words : force_words;
}

/// Puts the limit of passes where closed forms stood, and says what those were.
void stand_in(Bounds &bounds, const std::optional<PassLimit> &limit,
              const std::vector<std::string> &for_these, const UnitKind kind)
{
  if (!limit)
    return;
  std::string        closed;
  std::vector<Bound> kept;
  for (const Bound &bound : bounds.all)
    if (std::find(for_these.begin(), for_these.end(), bound.by) == for_these.end())
      kept.push_back(bound);
    else if (!bounds.none)
      closed += (closed.empty() ? "; closed forms: " : ", ") +
                to_text(bound.value, kind, UnitSystem::metric);
  kept.push_back({limit->value, limit->by, limit->source + closed});
  bounds.all  = kept;
  bounds.none = false;
}

// As the keys coupon.thickness and coupon.length have it.
constexpr double least_thickness = 0.2, most_length = 3000; // [mm]

const Lubricant &dry_friction()
{
  return built_in_lubricants().row("dry-mill-scale");
}

Bounds thickness_bounds(const Case &c, const std::optional<RuleComparison> &rule)
{
  Bounds              bounds{{}, false};
  const ScreenSection fit  = screen_fit(c, {});
  const double        room = line(fit, "pinch_thickness").value;
  put(bounds,
      largest_that(least_thickness, room,
                   [&](const double t)
                   {
                     const ScreenSection at = screen_fit(with_thickness(c, t), {});
                     return ok(at, "clearance") && ok(at, "pinch_thickness");
                   }),
      room, room_words,
      check_line("clearance", line(fit, "clearance").formula) + ", at least " +
          by_percent(margins::clearance_share) + " of the thickness");
  if (c.fixture.frame.present())
    bounds.all.push_back({c.coupon.thickness + c.fixture.frame.clearance_above,
                          "opening of the frame",
                          "case: coupon.thickness + frame.clearance_above"});
  if (rule)
    if (const RangeCell &cell = rule->by_rule.rule.thickness;
        std::isfinite(cell.range.high))
    {
      // A coupon of 10 mm is within the rule's 3/8 in (10 mm).
      const bool own_needs_it =
          c.coupon.thickness > cell.range.high && cell.takes(c.coupon.thickness);
      const FixtureRule &row = rule->by_rule.rule;
      Bound bound{own_needs_it ? cell.upper() : cell.range.high, "rule " + row.rule,
                  row.standard + ", " + row.clause + ": thickness " + cell.both_texts()};
      // Each family as the rule prints it, 3/8 in (10 mm), but never above the value: that
      // is what the other limits were found for.
      const bool by_inch = row.units == RuleUnits::us;
      bound.us           = std::min(bound.value, (by_inch ? cell.range : cell.other).high);
      bound.metric       = std::min(bound.value, (by_inch ? cell.other : cell.range).high);
      bounds.all.push_back(bound);
    }
  return bounds;
}

Bounds length_bounds(const Case &c, const double shortest)
{
  Bounds     bounds{{}, false};
  const auto longest = [&](const Case &placed, const std::string &key)
  {
    return largest_that(shortest, most_length,
                        [&](const double length)
                        { return ok(screen_length(with_length(placed, length)), key); });
  };
  const std::string off = "; laid off centre by " + by_percent(margins::laid_by_eye) +
                          " of the thickness at most";
  const ScreenSection lengths = screen_length(c);
  if (c.fixture.frame.present())
    put(bounds, longest(c, "frame_length"), shortest, frame_words,
        check_line("frame_length", line(lengths, "frame_length").formula));
  put(bounds, longest(laid(c), "stroke_needed"), shortest, stroke_words,
      check_line("stroke_needed", line(lengths, "stroke_needed").formula) + ", up to " +
          by_percent(margins::rating_share) + " of ram.stroke" + off);
  return bounds;
}

/// `weld` = strength of the strongest zone over the plate's.
void add_ram(CaseLimits &limits, const Case &c, const double weld)
{
  const Case        most = stronger(limits.extreme, weld);
  const std::string force_source =
      "check peak_force: upper end of the band of the beam that wraps the nose, over " +
      by_percent(margins::rating_share);
  if (const auto peak = peak_force(most))
    limits.force = {*peak->high / margins::rating_share,
                    weld > 1 ? "the case's strongest zone" : "the case's metal",
                    force_source};
  Case dry                         = most;
  dry.friction.shoulders           = dry_friction().typical;
  dry.friction.other_left_shoulder = -1;
  if (const auto peak = peak_force(dry))
    limits.dry_force = {*peak->high / margins::rating_share, "dry shoulders",
                        force_source + "; friction of " + dry_friction().name + " (" +
                            dry_friction().source + ")"};
  const ScreenLine stroke = line(screen_length(laid(most)), "stroke_needed");
  limits.stroke           = {stroke.value / margins::rating_share, "the longest coupon",
                             check_line("stroke_needed", stroke.formula) + ", over " +
                                 by_percent(margins::rating_share)};

  const double yield  = c.material.flow.initial_stress();
  const Bound *metal  = limits.strongest.decisive();
  const double factor = metal ? std::max(1., metal->value / yield) : 1.;
  if (const auto peak = peak_force(stronger(most, factor)); peak && factor > 1)
    limits.strongest_force = {*peak->high / margins::rating_share, metal->by, force_source};
  // The lightest coupon leaves fastest.
  const Case   light  = stronger(with_length(most, limits.shortest.value), factor);
  const double energy = force_band(light).freed_energy;
  limits.ejection     = {ejection_bound(light.coupon, light.material.density, energy),
                         "the strongest and shortest coupon",
                         "check ejection_speed: sqrt(2 E / m), all elastic energy into motion"};
}

/// A rule's limit of the yield, in both families as it is printed.
Bound yield_by_rule(const FixtureRule &rule)
{
  const RangeCell &cell = rule.yield;
  Bound            bound;
  bound.value  = cell.upper();
  bound.by     = "rule " + rule.rule;
  bound.source = rule.standard + ", " + rule.clause + ": yield " + cell.both_texts();
  bound.us     = rule.units == RuleUnits::us ? cell.range.high : cell.other.high;
  bound.metric = rule.units == RuleUnits::us ? cell.other.high : cell.range.high;
  bound.edge   = cell.range.high_edge;
  return bound;
}

OwnMetal own_metal(const CaseLimits &limits, const Case &c)
{
  if (limits.rule && metal_mismatch(built_in_rules(), limits.rule->by_rule.rule.rule,
                                    metal_of_case(c.material, c.coupon.thickness)))
    return OwnMetal::not_by_rule;
  // A rule asks for the elongation; without one a limit strain tells what the metal bears.
  if (c.material.elongation <= 0 && (limits.rule || c.material.limit_strain <= 0))
    return OwnMetal::elongation_not_known;
  if (limits.rule && goes_by_group(limits.rule->by_rule.rule))
    return OwnMetal::group_not_known;
  return bears_stretch(limits.extreme, force_band(limits.extreme)) ? OwnMetal::cleared
                                                                   : OwnMetal::too_brittle;
}

/// Stronger metals of the case's kind are cleared as far as some are known that have the
/// elongation; without one the case's own is the limit, if it is cleared itself.
void add_known_metals(CaseLimits &limits, const Case &c)
{
  const CardMetals metals = card_metals(limits);
  Bound            known;
  known.of_known_metals = true;
  known.by     = "no " + kind_text(c.material) + " with a known elongation is cleared";
  known.source = "catalogue of materials; case: material.elongation";
  if (limits.own_metal == OwnMetal::group_not_known)
  {
    known.by     = "rule " + limits.rule->by_rule.rule.rule + " is for groups of metals";
    known.source = "neither the case nor the catalogue names the group of a metal";
  }
  if (limits.own_metal == OwnMetal::cleared)
  {
    known.value  = c.material.flow.initial_stress();
    known.by     = "the case's own metal";
    known.source = "case: material; stronger ones are not cleared";
  }
  for (const Material &metal : metals.cleared)
    if (const double yield = metal.flow.initial_stress();
        same_kind(metal, c.material) && yield > known.value * (1 + 1e-6))
    {
      known.value = yield;
      known.by    = "strongest " + kind_text(c.material) + " whose elongation is enough, " +
                 metal.grade;
      known.source = "catalogue of materials: elongation known and enough; stronger ones "
                     "are not cleared";
    }
  limits.strongest.none = known.value <= 0;
  limits.strongest.all.push_back(known);
}

void add_strength(CaseLimits &limits, const Case &c, const double weld,
                  const std::optional<PassLimit> &by_passes)
{
  const double yield = c.material.flow.initial_stress();
  if (limits.rule && std::isfinite(limits.rule->by_rule.rule.yield.range.high))
    limits.strongest.all.push_back(yield_by_rule(limits.rule->by_rule.rule));
  // At least 1: the thickness was chosen so that the ram bends the case's metal.
  const double reserve =
      largest_that(1., std::max(1., strongest_plate / yield),
                   [&](const double k)
                   { return ram_bends(stronger(limits.extreme, k * weld)); })
          .value_or(1);
  if (reserve * yield < strongest_plate)
    put(limits.strongest, reserve * yield, yield, ram_words(c.ram),
        jack_ends_first(c.ram)
            ? "check gauge_pressure: the case's flow curve scaled until the gauge stands "
              "at "
              "its usual ceiling"
            : "check peak_force: the case's flow curve scaled until the band's upper end "
              "is " +
                  by_percent(margins::rating_share) + " of ram.capacity");
  stand_in(limits.strongest, by_passes, {force_words, jack_words}, UnitKind::stress);
  for (const Bound &bound : limits.strongest.all)
    if (bound.by == force_words || bound.by == jack_words ||
        (by_passes && bound.by == by_passes->by))
      limits.ram_yield = std::min(limits.ram_yield, bound.value);
  limits.own_metal = own_metal(limits, c);
  add_known_metals(limits, c);
}
} // namespace

double Bound::printed(const UnitSystem units) const
{
  const double own = units == UnitSystem::us ? us : metric;
  return own > 0 ? own : value;
}

const Bound *Bounds::decisive() const
{
  const auto least =
      std::min_element(all.begin(), all.end(),
                       [](const Bound &a, const Bound &b) { return a.value < b.value; });
  return least == all.end() ? nullptr : &*least;
}

Bound shortest_coupon(const Case &c)
{
  // The need does not depend on the length, but the line wants a case that has one.
  const ScreenLine need = line(screen_length(c), "length_needed");
  return {need.value, "support until the legs stand",
          check_line("length_needed", need.formula)};
}

bool ram_bends(const Case &c, const ForceBand &band)
{
  const auto peak = peak_force(c, band);
  if (!peak || peak->verdict != Verdict::ok)
    return false;
  const ScreenSection jack = screen_jack(c, band);
  return jack.lines.empty() || ok(jack, "gauge_pressure");
}

bool ram_bends(const Case &c)
{
  return ram_bends(c, force_band(c));
}

Case with_thickness(const Case &c, const double thickness)
{
  Case other             = c;
  other.coupon.thickness = thickness;
  if (c.fixture.frame.present())
    other.fixture.frame.clearance_above =
        c.fixture.frame.clearance_above - (thickness - c.coupon.thickness);
  return other;
}

CaseLimits case_limits(const Case &given, const PassLimits &passes)
{
  const Case   c    = plain(given);
  const double weld = strongest_zone(given);
  CaseLimits   limits{};
  limits.strongest_zone = weld;
  if (!c.fixture.rule.empty())
    limits.rule = compare_with_rule(built_in_rules(), c.fixture.rule, c);
  limits.thickest  = thickness_bounds(c, limits.rule);
  double thickness = limits.thickest.decisive()->value;

  // Long enough that no end slips off while the ram is asked; the force is the same for any
  // that is longer.
  const auto supported = [&](const double t)
  {
    const Case at = with_thickness(c, t);
    return with_length(at, std::max(c.coupon.length, shortest_coupon(at).value));
  };
  put(limits.thickest,
      largest_that(least_thickness, thickness,
                   [&](const double t) { return ram_bends(stronger(supported(t), weld)); }),
      least_thickness, ram_words(c.ram),
      jack_ends_first(c.ram)
          ? "check gauge_pressure: the gauge at most at its usual ceiling"
          : "check peak_force: the band's upper end at most " +
                by_percent(margins::rating_share) + " of ram.capacity, with the case's " +
                (weld > 1 ? "strongest zone" : "metal"));
  if (limits.thickest.all.back().value == thickness) // not the ram, something before it
    limits.thickest.all.pop_back();
  stand_in(limits.thickest, passes.thickness, {room_words, force_words, jack_words},
           UnitKind::length);
  thickness = limits.thickest.decisive()->value;

  const Case at   = with_thickness(c, thickness);
  limits.shortest = shortest_coupon(at);
  limits.longest  = length_bounds(at, limits.shortest.value);
  stand_in(limits.longest, passes.length, {frame_words, stroke_words}, UnitKind::length);
  limits.extreme          = with_length(at, limits.longest.decisive()->value);
  limits.straight_plunger = straight_leg_length(laid(limits.extreme));
  limits.stretch          = nominal_strain(c.fixture.plunger.bend_diameter(), thickness);
  limits.elongation       = limits.stretch;
  if (limits.rule)
    limits.elongation =
        std::max(limits.stretch, limits.rule->by_rule.rule.elongation.range.low);
  add_strength(limits, c, weld, passes.yield);
  add_ram(limits, c, weld);
  limits.by_passes     = passes.thickness || passes.length || passes.yield;
  const Case      most = stronger(limits.extreme, weld);
  const ForceBand band = force_band(most);
  for (const ScreenSection &section : {screen_jack(most, band), screen_tools(most, band)})
    for (const ScreenLine &each : section.lines)
      if (each.verdict == Verdict::no)
        limits.refused.push_back(each);
  // A zone's nominal stretch asks for the coupon's thickness, not for the weld's shape.
  Case welded = limits.extreme;
  welded.weld = given.weld;
  for (const ScreenLine &each : screen_strain(welded, band).lines)
    if (refuses_stretch(each) && is_of_a_zone(each))
      limits.refused.push_back(each);
  if (passes.thickness)
    limits.force = {passes.thickness->force / margins::rating_share, "the case's metal",
                    "largest ram force of the study's passes up to there, over " +
                        by_percent(margins::rating_share)};
  return limits;
}
} // namespace throughbend
