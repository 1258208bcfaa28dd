// How far a fixture goes: bounds by hand, and against check's own lines just inside and
// just outside of them.

#include "inputs/keys/material_catalogue.h"
#include "postprocess/card/card_figure.h"
#include "solver/limits/card_metals.h"
#include "solver/limits/case_limits.h"
#include "solver/screening/margins.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
/// Reference case R with a ram that has something to say, without and with a frame.
Case with_ram()
{
  Case c = reference_case();
  c.ram  = {80e3, 150};
  return c;
}
Case framed()
{
  Case c          = with_ram();
  c.fixture.frame = {90, 1.5, 1.5, 10, 1};
  return c;
}

Verdict verdict(const Case &c, const std::string &key)
{
  const Screening   screening = screen(c);
  const ScreenLine *line      = screening.find(key);
  INFO(key);
  REQUIRE(line != nullptr);
  return line->verdict;
}

double decided(const Bounds &bounds, const std::string &by)
{
  const Bound *bound = bounds.decisive();
  REQUIRE(bound != nullptr);
  CHECK_THAT(bound->by, Contains(by));
  CHECK_FALSE(bound->source.empty());
  return bound->value;
}
/// One of the bounds, by what sets it.
double bound_by(const Bounds &bounds, const std::string &by)
{
  for (const Bound &bound : bounds.all)
    if (bound.by.find(by) != by.npos)
      return bound.value;
  FAIL("no bound by " << by);
  return 0;
}
} // namespace

TEST_CASE("A search finds the first failure, all, or nothing", "[unit][card]")
{
  const auto below_7 = [](const double x) { return x < 7; };
  CHECK(*largest_that(0., 10., below_7) == Approx(7));
  CHECK(*largest_that(0., 5., below_7) == 5);
  CHECK_FALSE(largest_that(8., 10., below_7).has_value());
  // Holds again further on, which must not tempt it.
  CHECK(*largest_that(0., 10., [](const double x) { return x < 3 || x > 6; }) == Approx(3));
}

TEST_CASE("The thickest coupon leaves a tenth of itself beside the plunger", "[unit][card]")
{
  // By hand: (63.2 - 40) / 2 = 11.6 = 1.1 t.
  const CaseLimits limits = case_limits(with_ram());
  CHECK(decided(limits.thickest, "room") == Approx(11.6 / 1.1));
  CHECK(limits.stretch == Approx(11.6 / 1.1 / (40 + 11.6 / 1.1)));
  CHECK(limits.possible());
}

TEST_CASE("The frame's opening stays where it is for a thicker coupon", "[unit][card]")
{
  Case c                          = framed();
  c.fixture.frame.clearance_above = 0.3;
  const CaseLimits limits         = case_limits(c);
  CHECK(decided(limits.thickest, "opening of the frame") == Approx(10.3));
  CHECK(with_thickness(c, 9.6).fixture.frame.clearance_above == Approx(0.7));
}

TEST_CASE("The longest coupon stays inside the frame, even laid by eye", "[unit][card]")
{
  const CaseLimits limits = case_limits(framed());
  const double     t      = limits.thickest.decisive()->value;
  // By hand: 2 (90 - 0.15 t).
  CHECK(decided(limits.longest, "frame") == Approx(180 - 0.3 * t));
  CHECK(limits.shortest.value < limits.longest.decisive()->value);
}

TEST_CASE("Without a frame the stroke of the ram bounds the length", "[unit][card]")
{
  Case c              = with_ram();
  c.ram.stroke        = 120;
  CaseLimits   limits = case_limits(c);
  const double L      = decided(limits.longest, "stroke");
  CHECK(limits.stroke.value == Approx(120));
  // The travel grows by half of the length.
  c.ram.stroke = 130;
  CHECK(decided(case_limits(c).longest, "stroke") == Approx(L + 2 * 0.9 * 10));
}

TEST_CASE("A coupon at all bounds at once is ok to check, and a little more is not",
          "[unit][card]")
{
  for (const Case &c : {with_ram(), framed()})
  {
    const CaseLimits limits = case_limits(c);
    const Case       most   = limits.extreme;
    for (const std::string key :
         {"clearance", "pinch_thickness", "stroke_needed", "peak_force", "length_needed"})
      CHECK(verdict(most, key) == Verdict::ok);
    CHECK(verdict(with_thickness(most, 1.001 * most.coupon.thickness), "clearance") !=
          Verdict::ok);
    Case longer          = most;
    longer.coupon.offset = 0.15 * most.coupon.thickness;
    longer.coupon.length += 0.1;
    CHECK(verdict(longer, c.fixture.frame.present() ? "frame_length" : "stroke_needed") !=
          Verdict::ok);
  }
}

TEST_CASE("A weak ram makes the thickest coupon thinner, and is then just enough",
          "[unit][card]")
{
  Case c                  = with_ram();
  c.ram.capacity          = 20e3;
  const CaseLimits limits = case_limits(c);
  const double     t      = decided(limits.thickest, "force of the ram");
  CHECK(t < 9);
  CHECK(limits.force.value == Approx(20e3).epsilon(1e-3));
  CHECK(bound_by(limits.strongest, "force of the ram") == Approx(250).epsilon(1e-3));
  CHECK(limits.strongest_force.value < 1.01 * limits.force.value);
}

TEST_CASE(
    "A jack that comes to its ceiling bounds thickness and strength as a weak ram does",
    "[unit][card]")
{
  Case         c     = with_ram();
  const double plain = case_limits(c).thickest.decisive()->value;
  c.ram.jack.bore    = 24; // 70 MPa pi / 4 24^2 = 31.67 kN by hand
  const double jack  = decided(case_limits(c).thickest, "ceiling of the jack");
  c.ram.jack         = {};
  c.ram.capacity     = 31.67e3 / margins::rating_share;
  CHECK(jack < plain);
  CHECK(jack == Approx(case_limits(c).thickest.decisive()->value).epsilon(1e-3));
}

TEST_CASE("A stronger weld asks for a stronger ram", "[unit][card]")
{
  Case             c    = with_ram();
  const CaseLimits base = case_limits(c);
  c.weld.width          = 12;
  c.weld.strength_ratio = 1.2;
  const CaseLimits with = case_limits(c);
  // Young's modulus stays, so the elastic core keeps its share.
  CHECK(with.force.value == Approx(1.2 * base.force.value).epsilon(0.005));
  CHECK(with.ejection.value > base.ejection.value);
}

TEST_CASE("A zone of the weld that check refuses is named", "[unit][card]")
{
  Case c                       = with_ram(); // nominal stretch 10 / 50
  c.weld.width                 = 12;
  c.weld.metal_flow.elongation = 0.25;
  CHECK(case_limits(c).refused.empty());
  c.weld.metal_flow.elongation = 0.05;
  REQUIRE(case_limits(c).refused.size() == 1);
  CHECK(case_limits(c).refused[0].key == "nominal_elongation_weld");
}

TEST_CASE("A zone of the weld is judged on the thickest coupon, not on the case's own",
          "[unit][card]")
{
  // By hand: the thickest is 10.545 mm, stretched by 10.545 / 50.545 = 20.86 %.
  Case c                   = with_ram();
  c.weld.width             = 12;
  c.weld.haz_width         = 3;
  c.coupon.thickness       = 8; // 16.7 %
  ZoneFlow &haz            = c.weld.haz_flow;
  haz.elongation           = 0.2;
  const CaseLimits of_thin = case_limits(c);
  REQUIRE(of_thin.refused.size() == 1);
  CHECK(of_thin.refused[0].key == "nominal_elongation_haz");
  CHECK(of_thin.refused[0].value == Approx(of_thin.stretch));
  const Case thickest = with_thickness(c, of_thin.thickest.decisive()->value);
  CHECK(verdict(thickest, "nominal_elongation_haz") == Verdict::no);
  // 21.9 % of a coupon that is too thick for the fixture is nothing that the card allows.
  c.coupon.thickness = 11.2;
  haz.elongation     = 0.21;
  CHECK(case_limits(c).refused.empty());
}

TEST_CASE("Tools that check refuses are named", "[unit][card]")
{
  Case c                    = with_ram();
  c.fixture.shoulders.yield = 1800;
  CHECK(case_limits(c).refused.empty());
  c.fixture.shoulders.yield = 200;
  bool named                = false;
  for (const ScreenLine &line : case_limits(c).refused)
    named = named || line.key == "shoulder_pressure";
  CHECK(named);
}

TEST_CASE("The strongest metal brings the band's upper end to nine tenths of the ram",
          "[unit][card]")
{
  const Case       c      = with_ram();
  const CaseLimits limits = case_limits(c);
  const double     yield  = bound_by(limits.strongest, "force of the ram");
  CHECK(yield > 250);
  Case strong          = limits.extreme;
  strong.material.flow = c.material.flow.scaled(yield / 250);
  CHECK(*screen(strong).find("peak_force")->high == Approx(0.9 * 80e3).epsilon(1e-4));
  // What the card clears may be less than what the ram could bend, and asks for less.
  CHECK(limits.strongest.decisive()->value <= yield);
  strong.material.flow = c.material.flow.scaled(limits.strongest.decisive()->value / 250);
  CHECK(*screen(strong).find("peak_force")->high ==
        Approx(0.9 * limits.strongest_force.value).epsilon(1e-4));
  // Grease gone, the ram needs more.
  CHECK(limits.dry_force.value > 1.1 * limits.force.value);
  CHECK(limits.ejection.value > screen(limits.extreme).find("ejection_speed")->value);
}

TEST_CASE("A rule bounds thickness and strength, and sorts the catalogue's metals",
          "[unit][card]")
{
  // AWS D1.1 as the catalogue has it: up to 3/8 in and 50 ksi on the 1-1/2 in plunger.
  Case c                      = with_ram();
  c.coupon.thickness          = 9.525;
  c.fixture.plunger           = {38.1, 19.05};
  c.fixture.shoulders.opening = 60.325;
  c.fixture.rule              = "aws-d1-1-plunger-to-50-ksi";
  const CaseLimits limits     = case_limits(c);
  CHECK(decided(limits.thickest, "rule") == Approx(9.525));
  CHECK(decided(limits.strongest, "") == Approx(345));
  const CardMetals metals = card_metals(limits);
  const auto holds = [](const std::vector<std::string> &names, const std::string &name)
  { return std::find(names.begin(), names.end(), name) != names.end(); };
  CHECK(holds(metals.taken, "a36"));
  CHECK(holds(metals.by_rule, "s690ql"));     // 690 MPa
  CHECK(holds(metals.by_stretch, "6061-t6")); // 8 % against 20 %
  CHECK_FALSE(holds(metals.taken, "kestrel-haven-plate"));

  c.fixture.rule            = "";
  c.ram.capacity            = 45e3;
  const CardMetals by_force = card_metals(case_limits(c));
  CHECK(by_force.by_rule.empty());
  CHECK_FALSE(by_force.by_ram.empty());
}

TEST_CASE("A thinner coupon must be longer to keep its support", "[unit][card]")
{
  const Case c = with_ram();
  CHECK(shortest_coupon(with_thickness(c, 6)).value >
        1.1 * shortest_coupon(with_thickness(c, 10)).value);
  // And is then bent with a margin, too.
  Case thin          = with_thickness(c, 9);
  thin.coupon.length = shortest_coupon(thin).value + 0.1;
  for (const char *key : {"length_needed", "clearance", "stroke_needed", "peak_force"})
    CHECK(verdict(thin, key) == Verdict::ok);
}

TEST_CASE("A ram that bends any plate clears no metal that nobody knows", "[unit][card]")
{
  Case c                = with_ram();
  c.ram.capacity        = 10e6;
  c.material.elongation = 0;
  CaseLimits limits     = case_limits(c);
  // Of the catalogue's steels for a nose of 4 t, the strongest with a known elongation.
  CHECK(decided(limits.strongest, "steel whose elongation is enough") < 406);
  CHECK(limits.own_metal == OwnMetal::elongation_not_known);
  // Nothing in the catalogue stretches by 60 %: none is cleared, and no figure stands
  // there.
  Case sharp                      = c;
  sharp.fixture.plunger           = {6, 3};
  sharp.fixture.shoulders.opening = 29.2;
  limits                          = case_limits(sharp);
  CHECK(limits.strongest.none);
  // The case's own metal counts, when its elongation is told.
  c.material.elongation = 0.3;
  c.material.flow       = c.material.flow.scaled(3); // 750 MPa
  limits                = case_limits(c);
  CHECK(limits.own_metal == OwnMetal::cleared);
  CHECK(decided(limits.strongest, "the case's own metal") == Approx(750));
  c.material.elongation = 0.05;
  CHECK(case_limits(c).own_metal == OwnMetal::too_brittle);
  c.material.elongation   = 0;
  c.material.limit_strain = 0.6; // log: it bears far more than the bend asks of it
  CHECK(case_limits(c).own_metal == OwnMetal::cleared);
  c.material.limit_strain = 0.05;
  CHECK(case_limits(c).own_metal == OwnMetal::too_brittle);
}

TEST_CASE("No metal is cleared that the sheet calls too strong or too brittle",
          "[unit][card]")
{
  Case c                = with_ram();
  c.material.elongation = 0.22;
  const auto holds_all  = [&](const CaseLimits &limits)
  {
    const CardMetals metals = card_metals(limits);
    for (const Material &metal : metals.cleared)
    {
      INFO(metal.grade << ", ram " << c.ram.capacity);
      CHECK(metal.flow.initial_stress() <= limits.strongest.decisive()->value * 1.00001);
      CHECK(metal.elongation >= limits.elongation);
    }
    return metals.cleared.size();
  };
  std::size_t cleared = 0;
  for (const double capacity : {40e3, 60e3, 66e3, 72e3, 78e3, 84e3, 90e3, 120e3})
  {
    c.ram.capacity = capacity;
    cleared += holds_all(case_limits(c));
  }
  CHECK(cleared > 8);
  // Corners of 10 mm under a plunger 40 mm wide: 10 / 30 about them, 10 / 50 is nominal
  // for a half round only.
  const std::size_t round       = holds_all(case_limits(c));
  c.fixture.plunger.nose_radius = 10;
  const CaseLimits flat         = case_limits(c);
  CHECK(flat.elongation > 0.3);
  CHECK(holds_all(flat) < round);
  CHECK(flat.own_metal == OwnMetal::too_brittle);
}

TEST_CASE("A metal without a known elongation is never cleared", "[unit][card]")
{
  const auto holds = [](const std::vector<std::string> &names, const std::string &name)
  { return std::find(names.begin(), names.end(), name) != names.end(); };
  for (const char *rule : {"", "asme-ix-plunger-general", "aws-d1-1-plunger-to-50-ksi",
                           "asme-ix-plunger-p52", "iso-5173-rollers"})
  {
    Case c                      = with_ram();
    c.ram.capacity              = 1e6;
    c.coupon.thickness          = 9.525;
    c.fixture.plunger           = {38.1, 19.05};
    c.fixture.shoulders.opening = 60.325;
    c.fixture.rule              = rule;
    const CaseLimits limits     = case_limits(c);
    const CardMetals metals     = card_metals(limits);
    INFO(rule);
    for (const MaterialRow &row : built_in_materials().rows())
    {
      INFO(row.grade());
      if (row.material.elongation <= 0 || row.material.elongation < limits.stretch)
        CHECK_FALSE(holds(metals.taken, row.grade()));
    }
    for (const char *brittle : {"4340-tempered-315c", "6061-t6-fit", "2024-t3"})
      CHECK_FALSE(holds(metals.taken, brittle));
    const bool by_group = std::string(rule) == "asme-ix-plunger-p52";
    CHECK(holds(by_group ? metals.by_group : metals.taken, "a36"));
    // 345 MPa is 50 ksi: the commonest structural steel is for the small plunger.
    CHECK(holds(by_group ? metals.by_group : metals.taken, "a572-50"));
    if (std::string(rule) == "asme-ix-plunger-general")
    {
      // An ordinary steel, not what the ram could bend.
      CHECK(limits.strongest.decisive()->value < 406);
      CHECK(limits.elongation == Approx(0.2));
    }
  }
}

TEST_CASE("A rule's limit is printed as the rule prints it, in both families",
          "[unit][card]")
{
  Case c                      = with_ram();
  c.coupon.thickness          = 9.525;
  c.fixture.plunger           = {38.1, 19.05};
  c.fixture.shoulders.opening = 60.325;
  c.fixture.rule              = "aws-d1-1-plunger-to-50-ksi";
  const CaseLimits limits     = case_limits(c);
  const Bound     *rule       = nullptr;
  for (const Bound &bound : limits.strongest.all)
    if (bound.by.find("rule") == 0)
      rule = &bound;
  REQUIRE(rule != nullptr);
  CHECK(rule->printed(UnitSystem::metric) == Approx(345));
  CHECK(rule->printed(UnitSystem::us) == Approx(344.738).epsilon(1e-5));
  CHECK(rule->edge == Edge::closed);
  // A coupon of 10 mm is the rule's 3/8 in (10 mm).
  c.coupon.thickness        = 10;
  const CaseLimits of_ten   = case_limits(c);
  const Bound     *thickest = of_ten.thickest.decisive();
  CHECK(thickest->value >= 10);
  CHECK(thickest->printed(UnitSystem::metric) == Approx(10));
  CHECK(thickest->printed(UnitSystem::us) == Approx(9.525)); // and not 0.39 in
}

TEST_CASE("A ram without the stroke for any coupon is said to take none", "[unit][card]")
{
  Case c                  = with_ram();
  c.ram.stroke            = 30;
  const CaseLimits limits = case_limits(c);
  CHECK(limits.longest.none);
  CHECK_FALSE(limits.possible());
}

TEST_CASE("A card rounds limits down and needs up", "[unit][card]")
{
  CHECK(card_figure(10.549, Measure::length, Rounded::down, UnitSystem::metric) ==
        "10.5 mm");
  CHECK(card_figure(10.501, Measure::length, Rounded::up, UnitSystem::metric) == "10.6 mm");
  CHECK(card_figure(11.9999999, Measure::length, Rounded::down, UnitSystem::metric) ==
        "12.0 mm");
  CHECK(card_figure(9.6, Measure::length, Rounded::down, UnitSystem::us) == "0.37 in");
  CHECK(card_figure(9.525, Measure::length, Rounded::down, UnitSystem::us) == "3/8 in");
  CHECK(card_figure(100, Measure::length, Rounded::down, UnitSystem::us) == "3.93 in");
  CHECK(card_figure(35.1e3, Measure::force, Rounded::up, UnitSystem::metric) == "35.1 kN");
  // 10 kip = 44.48 kN, 50 ksi = 344.7 MPa, 8 m/s = 26.2 ft/s.
  CHECK(card_figure(44482.2, Measure::force, Rounded::up, UnitSystem::us) == "10.00 kip");
  CHECK(card_figure(344.74, Measure::stress, Rounded::down, UnitSystem::us) == "50 ksi");
  CHECK(card_figures(8, Measure::speed, Rounded::up, UnitSystem::metric) ==
        "8 m/s (27 ft/s)");
}
