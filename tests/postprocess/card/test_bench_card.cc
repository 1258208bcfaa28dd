// The bench card's page and the runs that stand on it, on made-up run folders.

#include "inputs/keys/fixture_difference.h"
#include "inputs/text/input_error.h"
#include "inputs/units/display_units.h"
#include "postprocess/card/bench_card.h"
#include "postprocess/card/card_figure.h"
#include "postprocess/card/card_limit_boxes.h"
#include "solver/limits/card_metals.h"
#include "tests/support/reference_case.h"
#include "tests/support/run_fixture.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
/// The fixture of the made-up runs, with a stronger ram.
Case the_case()
{
  Case c                    = reference_case();
  c.ram                     = {80e3, 150};
  c.fixture.shoulders.depth = 45;
  return c;
}

/// run.json of a made-up run with one text put in place of another.
void change(const std::filesystem::path &file, const std::string &from,
            const std::string &to)
{
  std::string text = content(file);
  const auto  at   = text.find(from);
  REQUIRE(at != std::string::npos);
  write_text(file, text.replace(at, from.size(), to));
}

/// A finished run that went through, in a folder of its own.
class MadeUpRun
{
public:
  MadeUpRun() { write_run(folder(), "a run", "a run"); }
  std::string folder() const { return (scratch_.path() / "made-up").string(); }

private:
  ScratchFolder scratch_;
};

CardRun taken(const std::string &folder, const Case &c)
{
  return card_run(folder, c, case_limits(c));
}

BenchCard card_of(const Case &c, const UnitSystem units = UnitSystem::metric)
{
  BenchCard card;
  card.given     = c;
  card.case_file = "jig.ini";
  card.units     = units;
  return card;
}

std::string page_of(BenchCard card)
{
  card.limits  = case_limits(card.given);
  card.program = "throughbend 0";
  return bench_card(card);
}
} // namespace

TEST_CASE("A card says what the fixture takes, in both units, with where it is from",
          "[unit][card]")
{
  const std::string html = page_of(card_of(the_case(), UnitSystem::metric));
  for (const char *words :
       {"10.5 mm", "0.41 in", "check clearance", "check stroke_needed", "check peak_force",
        "check length_needed", "case: ram.capacity",
        "80.0 kN (17.98 kip), 150.0 mm (5.90 in)", "case: friction.shoulders", "jig.ini"})
    CHECK_THAT(html, Contains(words, Catch::CaseSensitive::No));
  // The stroke that the longest coupon needs is the ram's own 5.90 in, not 5.91 in.
  CHECK(html.find("5.91 in") == html.npos);
  CHECK(is_bench_card(html));
  CHECK_FALSE(is_bench_card("<html><title>throughbend card</title></html>"));

  const std::string us = page_of(card_of(the_case(), UnitSystem::us));
  CHECK(us.find("0.41 in") < us.find("10.5 mm"));
}

TEST_CASE("A card's sentences: what to do, what is cleared, what speaks against it",
          "[unit][card][words]")
{
  BenchCard  card = card_of(the_case());
  const auto said = [&](const std::vector<std::string> &there)
  {
    const std::string html = page_of(card);
    for (const std::string &words : there)
      CHECK_THAT(html, Contains(words, Catch::CaseSensitive::No));
  };
  card.given.material.elongation = 0;
  said({"Keep the guard closed", "Eye and hand protection", "It can fly out below",
        "Grease here", "an estimate, not an acceptance",
        "the governing code and licensed practice decide", "Rule: the case names none",
        "May be bent on this plunger:", "Elongation not known: not cleared:",
        "own metal is NOT CLEARED: its elongation is not given"});
  card.given.fixture.rule  = "aws-d1-1-plunger-to-50-ksi";
  card.given.material.flow = card.given.material.flow.scaled(2); // 500 MPa
  said({"NOT AS THE RULE SAYS: plunger width", "own metal is too strong: rule aws"});
  card.given.fixture.rule        = "asme-ix-plunger-soft-haz";
  card.given.material.elongation = 0.16;
  said({"NOT CLEARED: the rule depends on the group of the metal, and the case does not "
        "name it"});
  CardRun run;
  run.record.known_case = the_case();
  run.folder            = "runs/a";
  run.found             = "jammed";
  run.contradicts       = true;
  card.runs             = {run};
  said({"DO NOT USE THESE LIMITS. A pass simulated within them is not sound: runs/a "
        "(jammed)"});
}

TEST_CASE(
    "A metal that a point of the bend stretches beyond its elongation is bent behind a "
    "guard first",
    "[unit][card]")
{
  // Nominal 20.9 % on the thickest coupon, points 25 to 34 %: 304l and 316l have 40 %, a36
  // has 23 %, s355-typical 22 % (push: 28.8 %).
  BenchCard card          = card_of(the_case());
  card.limits             = case_limits(card.given);
  const CardMetals metals = card_metals(card.limits);
  const auto       among  = [&](const char *name)
  { return std::count(metals.at_a_point.begin(), metals.at_a_point.end(), name); };
  CHECK(among("a36") == 1);
  CHECK(among("s355-typical") == 1);
  CHECK(among("304l") == 0);
  CHECK(metals.most_at_a_point > 0.3);
  const std::string html = page_of(card);
  CHECK_THAT(html, Contains("May be bent on this plunger:</strong> 304l, 316l<"));
  CHECK_THAT(html, Contains("May be bent, the first behind a guard"));
}

TEST_CASE("A card clears no metal that nobody knows", "[unit][card]")
{
  Case c                 = the_case();
  c.ram.capacity         = 10e6;
  c.material.elongation  = 0;
  const std::string html = page_of(card_of(c));
  CHECK_THAT(html, Contains("NOT CLEARED"));
  // Lists are whole: the group without an elongation has all of its names.
  const CardMetals metals = card_metals(case_limits(c));
  REQUIRE_FALSE(metals.not_known.empty());
  const std::string &name  = metals.not_known.front();
  const std::size_t  start = html.rfind("<p>", html.find(name));
  REQUIRE(start != std::string::npos);
  const std::string group = html.substr(start, html.find("</p>", start) - start);
  for (const char *unknown : {"4340-tempered-315c", "aluminium-tabulated"})
  {
    CHECK(std::count(metals.not_known.begin(), metals.not_known.end(), unknown) == 1);
    CHECK(std::count(metals.taken.begin(), metals.taken.end(), unknown) == 0);
  }
  for (const std::string &unknown : metals.not_known)
    CHECK_THAT(group, Contains(unknown));
  CHECK_THAT(group, !Contains("..."));
}

TEST_CASE("No metal that a card lists is stronger than the card allows", "[unit][card]")
{
  for (const double capacity : {40e3, 80e3, 10e6})
    for (const double thickness : {4., 6., 10.})
    {
      INFO(capacity << " N, " << thickness << " mm");
      Case c                      = the_case();
      c.ram.capacity              = capacity;
      c.coupon.thickness          = thickness;
      c.material.elongation       = 0.3;
      const CaseLimits   limits   = case_limits(c);
      const CardMetals   metals   = card_metals(limits);
      const Bound *const strength = limits.strongest.decisive();
      REQUIRE(strength != nullptr);
      REQUIRE_FALSE(metals.cleared.empty());
      for (const Material &metal : metals.cleared)
        if (same_kind(metal, c.material))
        {
          INFO(metal.grade);
          CHECK(metal.flow.initial_stress() <= strength->value * (1 + 1e-6));
        }
    }
}

TEST_CASE("A card lists plates only, and names the kind that its strength is of",
          "[unit][card]")
{
  Case c                  = the_case();
  c.ram.capacity          = 10e6;
  c.material.elongation   = 0.3;
  const CardMetals metals = card_metals(case_limits(c));
  for (const auto &list : {metals.taken, metals.not_known, metals.by_group, metals.by_rule,
                           metals.by_ram, metals.by_stretch})
    for (const char *filler : {"e7018", "e7018-typical", "e6010", "er70s-6", "6061-t6-haz"})
      CHECK(std::count(list.begin(), list.end(), filler) == 0);
  CHECK(std::count(metals.taken.begin(), metals.taken.end(), "a36") == 1);
  CHECK_THAT(page_of(card_of(c)), Contains("Strongest steel"));
  c.material.young = 70e3;
  CHECK_THAT(page_of(card_of(c)), Contains("Strongest aluminium"));
}

TEST_CASE("The card's ejection speed is check's", "[unit][card]")
{
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us})
  {
    const Case        c    = the_case();
    const Screening   own  = screen(c);
    const ScreenLine *line = own.find("ejection_speed");
    REQUIRE(line != nullptr);
    const std::string html = page_of(card_of(c, units));
    CHECK_THAT(html, Contains("at up to " + speed_text(line->value, units) + " ("));
    CHECK_THAT(html, Contains("with the case"));
  }
}

TEST_CASE("A card shows a hostile title as text", "[unit][card]")
{
  BenchCard card         = card_of(the_case());
  card.case_file         = "<i>.ini";
  card.given.title       = "</title><script>alert(1)</script>";
  const std::string html = page_of(card);
  CHECK(html.find("<script") == std::string::npos);
  CHECK(html.find("<i>") == std::string::npos);
  CHECK_THAT(html, Contains("&lt;script&gt;alert(1)"));
}

TEST_CASE(
    "A card says that the fixture is not as its rule, and where its metal is not for it",
    "[unit][card]")
{
  BenchCard         card = card_of(the_case());
  const std::string rule = "aws-d1-1-plunger-to-50-ksi", against = "class=\"warning\"";
  CHECK_THAT(page_of(card), !Contains(rule) && !Contains("NOT AS"));
  card.given.fixture.rule = rule;
  CHECK_THAT(page_of(card), Contains(rule) && Contains("NOT AS") &&
                                Contains("plunger width") && !Contains(against));
  card.given.material.flow = card.given.material.flow.scaled(2); // 500 MPa
  CHECK_THAT(page_of(card), Contains(against));
}

TEST_CASE("A finished run stands on the card; one that speaks against it makes it say so",
          "[unit][card]")
{
  const MadeUpRun   made_up;
  const std::string folder = made_up.folder();
  BenchCard         card   = card_of(the_case());
  // Its stroke of 60 mm and ram of 4 kN are its own; the coupon is as in the case.
  card.runs = {taken(folder, card.given)};
  CHECK(card.runs[0].found == "through; metal within limits");
  CHECK(card.runs[0].within);
  CHECK_FALSE(card.runs[0].contradicts);
  CHECK_THAT(page_of(card), Contains("made-up") && !Contains("DO NOT USE"));

  change(folder + "/run.json", "\"through\"", "\"over-capacity\"");
  CHECK_FALSE(taken(folder, card.given).contradicts); // a weaker ram
  change(folder + "/run.json", "\"over-capacity\"", "\"jammed\"");
  card.runs = {taken(folder, card.given)};
  CHECK(card.runs[0].contradicts);
  CHECK_THAT(page_of(card), Contains("DO NOT USE") && Contains("jammed"));
}

TEST_CASE("A run within the limits whose metal is beyond its own says so on the card",
          "[unit][card]")
{
  const MadeUpRun   made_up;
  const std::string folder = made_up.folder();
  BenchCard         card   = card_of(the_case());
  card.runs                = {taken(folder, card.given)};
  CHECK_THAT(page_of(card), !Contains("may tear"));
  change(folder + "/run.json", "\"within\"", "\"beyond\"");
  card.runs = {taken(folder, card.given)};
  REQUIRE(card.runs[0].within);
  CHECK_THAT(page_of(card), Contains("may tear") && !Contains("DO NOT USE"));
  card.runs[0].within = false;
  CHECK_THAT(page_of(card), !Contains("may tear"));
}

TEST_CASE("A card of a weld with unlike zones clears plain plate only, and says so",
          "[unit][card]")
{
  BenchCard card                 = card_of(the_case());
  card.given.weld.width          = 12;
  card.given.weld.strength_ratio = 1.02; // as good as one metal
  const std::string words        = "clears metals as plain plate";
  CHECK_THAT(page_of(card), !Contains(words));
  for (const double ratio : {0.7, 1.6})
  {
    card.given.weld.strength_ratio = ratio;
    CHECK_THAT(page_of(card), Contains(words));
  }
}

TEST_CASE("A card says NO only of what check says no of", "[unit][card]")
{
  // A flat nose: the metal bears what a half round asks, not what the corners do.
  BenchCard card                         = card_of(the_case());
  card.given.fixture.plunger.nose_radius = 16;
  card.given.weld.width                  = 12;
  card.given.weld.metal_flow.elongation  = 0.22; // 10.5 / (40 + 10.5) = 20.8 %
  card.limits                            = case_limits(card.given);
  REQUIRE(std::any_of(card.limits.refused.begin(), card.limits.refused.end(),
                      [](const ScreenLine &line)
                      {
                        return line.quantity == "nominal stretch, weld metal" &&
                               line.verdict == Verdict::close;
                      }));
  CHECK_THAT(page_of(card), Contains("check does not clear the thickest coupon: nominal "
                                     "stretch, weld metal"));
  CHECK_THAT(page_of(card), !Contains("says NO of the thickest coupon"));
}

TEST_CASE("A card's shortest coupon is long enough at the thickness that is printed",
          "[unit][card]")
{
  // 11.6 mm of room beside the plunger over 1.1, by hand 10.545 mm: printed as 10.5 mm and
  // 0.41 in.
  const BenchCard  card   = card_of(the_case());
  const CaseLimits limits = case_limits(card.given);
  const double     exact  = limits.thickest.decisive()->value,
               printed = card_value(exact, Measure::length, Rounded::down, UnitSystem::us);
  REQUIRE(printed < exact);
  const double needed =
      shortest_coupon(with_thickness(card.given, printed)).value; // the thinner needs more
  REQUIRE(needed > limits.shortest.value);
  CHECK_THAT(page_of(card),
             Contains("At that thickness no shorter than " +
                      card_figure(needed, Measure::length, Rounded::up, card.units)));
}

TEST_CASE("A card whose longest coupon would be shorter than its shortest offers no length",
          "[unit][card][words]")
{
  // The least stroke for which the limits, not rounded, leave a length to the thickest.
  BenchCard card = card_of(the_case());
  double    none = 60, some = 150;
  for (int i = 0; i < 20; ++i)
  {
    card.given.ram.stroke                              = (none + some) / 2;
    (case_limits(card.given).possible() ? some : none) = card.given.ram.stroke;
  }
  card.given.ram.stroke   = some;
  const CaseLimits limits = case_limits(card.given);
  REQUIRE(limits.possible());
  CHECK(limits.longest.decisive()->value == Approx(limits.shortest.value));
  CHECK_FALSE(has_length(limits));
  const std::string no_length = "the thickest coupon has no length with a margin",
                    none_box  = "<h2>Longest coupon</h2>\n<p class=\"value\">none</p>";
  CHECK_THAT(page_of(card), Contains(no_length) && Contains(none_box));
  card.given.ram.stroke += 5;
  CHECK(has_length(case_limits(card.given)));
  CHECK_THAT(page_of(card), !Contains(no_length) && !Contains(none_box));
}

TEST_CASE("A pass that ironed its legs speaks against limits that should prevent it",
          "[unit][card]")
{
  const MadeUpRun   made_up;
  const std::string folder = made_up.folder();
  BenchCard         card   = card_of(the_case());
  change(folder + "/run.json", "\"events\": []",
         "\"events\": [{\"kind\": \"leg ironed\"}]");
  card.runs = {taken(folder, card.given)};
  CHECK(card.runs[0].contradicts);
  CHECK_THAT(page_of(card), Contains("DO NOT USE") && Contains("leg ironed"));

  change(folder + "/run.json", "\"leg ironed\"", "\"frame touched\"");
  card.runs = {taken(folder, card.given)};
  CHECK_THAT(page_of(card), Contains("through, frame touched"));
}

TEST_CASE("A rule for groups of metals clears no metal, not the case's own either",
          "[unit][card]")
{
  Case c                      = the_case();
  c.coupon                    = {152.4, 38.1, 3.175, 0};
  c.fixture.plunger           = {52.3875, 26.19375};
  c.fixture.shoulders.radius  = 19.05;
  c.fixture.shoulders.opening = 60.325;
  c.fixture.rule              = "asme-ix-plunger-soft-haz";
  c.material.elongation       = 0.16;
  BenchCard card              = card_of(c);
  CHECK_THAT(page_of(card),
             Contains("NOT CLEARED") && Contains("<p class=\"value\">none</p>"));
  const Screening screening = screen(c);
  CHECK(std::any_of(screening.not_cleared.begin(), screening.not_cleared.end(),
                    [](const std::string &words)
                    {
                      return words.find("asme-ix-plunger-soft-haz") != std::string::npos &&
                             words.find("P-23") != std::string::npos;
                    }));
  card.given.fixture.rule.clear();
  CHECK_THAT(page_of(card), !Contains("<p class=\"value\">none</p>"));
}

TEST_CASE("The stroke that a card asks for is not rounded past the ram it was made for",
          "[unit][card]")
{
  BenchCard card         = card_of(the_case());
  card.given.ram.stroke  = 152.4; // 6 in
  const std::string page = page_of(card);
  CHECK_THAT(page, Contains("<b>152.4 mm</b>"));
}

TEST_CASE("A run that took more force than closed forms say raises the ram that is needed",
          "[unit][card]")
{
  const MadeUpRun   made_up;
  const std::string folder = made_up.folder();
  change(folder + "/run.json", "\"peak_ram_force_N\": 2000", "\"peak_ram_force_N\": 63000");
  BenchCard card = card_of(the_case());
  CHECK_THAT(page_of(card), !Contains("70.0 kN"));
  card.runs = {taken(folder, card.given)};
  CHECK_THAT(page_of(card), Contains("70.0 kN")); // 63 kN over 90 %
}

TEST_CASE("A run that its ram stopped does not hide what a stronger one gives",
          "[unit][card]")
{
  const MadeUpRun   made_up;
  const std::string folder = made_up.folder();
  const std::string file   = folder + "/run.json";
  change(file, "\"outcome\": \"through\"", "\"outcome\": \"over-capacity\"");
  BenchCard card = card_of(the_case());
  card.runs      = {taken(folder, card.given)};
  CHECK(card.runs[0].takes_more());
  CHECK_THAT(page_of(card), Contains("&gt; "));
  change(file, "\"outcome\": \"over-capacity\"",
         "\"outcome\": \"over-capacity\", \"beyond_capacity\": {\"ends\": \"through\", "
         "\"force_it_takes_N\": 81000}");
  card.runs = {taken(folder, card.given)};
  CHECK_FALSE(card.runs[0].takes_more());
  CHECK(card.runs[0].force_it_takes() == 81000);
  CHECK_THAT(page_of(card), Contains("90.0 kN") && !Contains("&gt; ")); // over 90 %
}

TEST_CASE("Runs that say nothing of this fixture are refused, with the way out",
          "[unit][card]")
{
  const ScratchFolder scratch;
  const std::string   folder = (scratch.path() / "made-up").string();
  const Case          c      = the_case();
  write_run(folder, "a run", "a run");

  Case other            = c;
  other.fixture.plunger = {42, 20};
  CHECK_THROWS_WITH(taken(folder, other),
                    Contains("another fixture") && Contains("plunger.width 40 mm") &&
                        Contains("42 mm") && !Contains("nose_radius"));

  change(folder + "/run.json", "\"finished\"", "\"running\"");
  CHECK_THROWS_WITH(taken(folder, c),
                    Contains("state running") && Contains("throughbend push " + folder));
  change(folder + "/run.json", "\"running\"", "\"finished\"");
  change(folder + "/run.json", "\"through\"", "\"undecided\"");
  CHECK_THROWS_WITH(taken(folder, c), Contains("undecided") && Contains("Leave it out"));
  change(folder + "/run.json", "\"undecided\"", "\"through\"");
  std::filesystem::remove(folder + "/case.ini");
  CHECK_THROWS_WITH(taken(folder, c), Contains("case.ini"));
  write_text(folder + "/run.json", "{\"program\": \"throughb");
  CHECK_THROWS_WITH(taken(folder, c), Contains("run.json"));
  CHECK_THROWS_WITH(taken((scratch.path() / "none").string(), c),
                    Contains("no such folder"));
}

TEST_CASE("Two cases are of one fixture when all tools are, whatever is bent in them",
          "[unit][card]")
{
  const Case here             = the_case();
  Case       there            = here;
  there.coupon.thickness      = 6;
  there.friction.shoulders    = 0.3;
  there.ram.capacity          = 1;
  there.fixture.rule          = "iso-5173-rollers";
  there.fixture.plunger.yield = 700;
  CHECK(fixture_difference(there, here).empty());
  there.fixture.frame = {90, 1.5, 1.5, 10, 1};
  const auto framed   = fixture_difference(there, here);
  REQUIRE_FALSE(framed.empty());
  CHECK_THAT(framed.front(), Contains("frame.distance 90 mm") && Contains(" 0 mm"));
  there                        = here;
  there.fixture.shoulders.kind = ShoulderKind::rollers;
  CHECK(fixture_difference(there, here).front() ==
        "shoulders.kind rollers there, solid here"); // the words, once
}

TEST_CASE(
    "A card of a metal that springs back far says that its lengths do not allow for it",
    "[unit][card]")
{
  BenchCard   card  = card_of(the_case());
  const char *words = "springs back by more than";
  CHECK_THAT(page_of(card), !Contains(words));
  card.given.material.young /= 4; // as far as a hard aluminium
  CHECK_THAT(page_of(card), Contains(words));
}
