// Limits of a study on a card. Passes are made up; margins are those of check.

#include "inputs/keys/case_reader.h"
#include "inputs/keys/case_text.h"
#include "inputs/text/input_error.h"
#include "postprocess/card/bench_card.h"
#include "solver/limits/card_study.h"
#include "solver/limits/case_limits.h"
#include "tests/support/case_texts.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
const std::string yard =
    coupon_section + metal_section +
    "hardening = 150 MPa\nelongation = 0.3\n"
    "[plunger]\nwidth = 40 mm\n[shoulders]\nradius = 20 mm\nopening = 66 mm\n"
    "[friction]\nplunger = 0.12\nshoulders = 0.12\n"
    "[ram]\ncapacity = 80 kN\nstroke = 120 mm\n";

Case yard_case(const std::vector<std::string> &overrides = {})
{
  return case_of(yard, overrides);
}

StudyPass pass(const double value, const double force_share,
               const std::string &outcome = "through")
{
  StudyPass made;
  made.values                      = {value};
  made.outcome                     = outcome;
  made.accuracy                    = "sound";
  made.metal                       = "within";
  made.figures["peak_ram_force_N"] = force_share * 80000;
  made.figures["capacity_margin"]  = 1 - force_share;
  made.figures["stroke_margin"]    = 0.5;
  return made;
}

StudyRecord study(const std::vector<StudyPass> &passes,
                  const std::string &key = "coupon.thickness", const double own = 10)
{
  StudyRecord record;
  record.kind      = StudyKind::limit;
  record.case_text = effective_text(yard_case());
  record.keys      = {{key, "mm", 1, own}};
  record.passes    = passes;
  record.whole     = true;
  return record;
}

PassLimits limits_of(const StudyRecord &record)
{
  return pass_limits(record, "limits", yard_case());
}
} // namespace

TEST_CASE("a limit is the end of the sound passes less check's margins", "[unit][card]")
{
  // Passes come in any order.
  const PassLimits limits =
      limits_of(study({pass(12, 0.62), pass(9, 0.4), pass(12.1, 1, "jammed"), pass(10, 0.5),
                       pass(11, 0.55)}));
  REQUIRE(limits.thickness);
  CHECK(limits.thickness->good == 12);
  CHECK(limits.thickness->value == Approx(12 / 1.1));     // a tenth of t as room
  CHECK(limits.thickness->force == Approx(0.55 * 80000)); // of the pass at 11 mm
  CHECK_THAT(limits.thickness->source, Contains("study limits") && Contains("12 mm") &&
                                           Contains("jammed at 12.1 mm"));
  CHECK_FALSE(limits.length);
  // A long path is told by its end.
  CHECK_THAT(pass_limits(study({pass(9, 0.4), pass(10, 0.5), pass(11, 0.55)}),
                         "/a/very/long/way/to/plate-limits/", yard_case())
                 .thickness->source,
             Contains("study plate-limits:") && !Contains("very"));

  // The passes stand, force or no force, only as far as the ram has its tenth left.
  const PassLimits weak =
      limits_of(study({pass(9, 0.8), pass(10, 0.88), pass(10.5, 0.95), pass(12, 0.99)}));
  CHECK(weak.thickness->value == 10);
  // Where nothing ends it the study's own end does.
  CHECK_THAT(weak.thickness->source, Contains("where it ends"));
}

TEST_CASE("only sound passes count", "[unit][card]")
{
  for (const char *fault : {"event", "accuracy", "metal", "undecided"})
  {
    StudyPass bad = pass(11, 0.6);
    if (fault == std::string("event"))
      bad.events = {"leg ironed"};
    if (fault == std::string("accuracy"))
      bad.accuracy = "low";
    if (fault == std::string("metal"))
      bad.metal = "beyond";
    if (fault == std::string("undecided"))
      bad.outcome = "undecided";
    // Sound again beyond: does not help.
    const PassLimits limits =
        limits_of(study({pass(9, 0.4), pass(10, 0.5), bad, pass(12, 0.6)}));
    INFO(fault);
    CHECK(limits.thickness->good == 10);
  }
}

TEST_CASE("length and yield have margins of their own", "[unit][card]")
{
  const PassLimits length = limits_of(study(
      {pass(150, 0.5), pass(170, 0.5), pass(171, 0.5, "jammed")}, "coupon.length", 160));
  // Laid off centre by 0.15 t at most: 2 x 0.15 x 10 mm, by hand.
  REQUIRE(length.length);
  CHECK(length.length->value == Approx(167));
  // Stroke ends a length, and no thickness: there the card's own length limit does.
  std::vector<StudyPass> passes      = {pass(150, 0.5), pass(160, 0.5), pass(165, 0.5),
                                        pass(170, 0.5)};
  passes[2].figures["stroke_margin"] = passes[3].figures["stroke_margin"] = 0.05;
  CHECK(limits_of(study(passes, "coupon.length", 160)).length->value == 160);
  for (std::size_t i = 0; i < passes.size(); ++i)
  {
    passes[i].values                   = {9.5 + 0.5 * static_cast<double>(i)};
    passes[i].figures["stroke_margin"] = 0.05;
  }
  CHECK(limits_of(study(passes)).thickness->good == 11);
  const PassLimits yield =
      limits_of(study({pass(240, 0.5), pass(300, 0.7), pass(350, 0.85), pass(400, 0.95)},
                      "material.yield", 250));
  REQUIRE(yield.yield);
  CHECK(yield.yield->value == 350);
}

TEST_CASE("a study that says nothing of this case is refused", "[unit][card]")
{
  const StudyRecord good = study({pass(9, 0.4), pass(10, 0.5), pass(11, 0.6)});
  StudyRecord       half = good;
  half.whole             = false;
  CHECK_THROWS_WITH(limits_of(half), Contains("not whole"));
  const auto refusal = [&](const std::vector<std::string> &overrides)
  {
    try
    {
      pass_limits(good, "limits", yard_case(overrides));
    }
    catch (const InputError &error)
    {
      return std::string(error.what());
    }
    return std::string();
  };
  CHECK(refusal({}) == "");
  CHECK_THAT(refusal({"--plunger.width", "38 mm"}), Contains("plunger.width"));
  CHECK_THAT(refusal({"--friction.shoulders", "0.2"}), Contains("friction.shoulders"));
  CHECK_THAT(refusal({"--material.yield", "300 MPa"}), Contains("material.yield"));
  CHECK_THAT(refusal({"--coupon.length", "170 mm"}), Contains("coupon.length"));
  CHECK_THAT(refusal({"--ram.capacity", "60 kN"}), Contains("ram.capacity"));
  CHECK(refusal({"--ram.capacity", "100 kN"}) == ""); // a stronger ram
  CHECK(refusal({"--mesh.level", "fine"}) == "");
  // The own coupon is not known to be sound.
  CHECK_THROWS_WITH(
      limits_of(study({pass(9, 0.4), pass(10, 0.5, "jammed"), pass(11, 0.5)})),
      Contains("none at or below")); // the words, once
  CHECK_THROWS_AS(limits_of(study({pass(10.5, 0.4), pass(11, 0.5)})), InputError);
  CHECK_THROWS_WITH(limits_of(study({pass(9, 0.4), pass(9.5, 0.5), pass(11, 1, "jammed")})),
                    Contains("beyond the last sound pass"));
  CHECK_THROWS_WITH(limits_of(study({pass(9, 0.95), pass(10, 0.96)})), Contains("margins"));
  // Thin ones drop: the card could not say so.
  CHECK_THROWS_WITH(limits_of(study({pass(8, 0.3, "dropped"), pass(9, 0.4), pass(10, 0.5),
                                     pass(11, 0.6)})),
                    Contains("8 mm") && Contains("no lower limit"));
  CHECK_THROWS_WITH(
      limits_of(study({pass(0.1, 0.4), pass(0.2, 0.5)}, "friction.frame", 0.1)),
      Contains("no passes along"));
}

TEST_CASE("passes of a map count where the other keys are the case's", "[unit][card]")
{
  StudyRecord map = study({});
  map.keys.push_back({"friction.shoulders", "", 1, 0.12});
  for (const double t : {9., 10., 11., 12.})
    for (const double friction : {0.05, 0.12, 0.2})
    {
      StudyPass made = pass(t, 0.5, t > 11 && friction > 0.1 ? "jammed" : "through");
      made.values    = {t, friction};
      map.passes.push_back(made);
    }
  CHECK(limits_of(map).thickness->good == 11);
}

TEST_CASE("limits of passes stand where closed forms stood", "[unit][card]")
{
  const Case       c      = yard_case();
  const CaseLimits closed = case_limits(c);
  CHECK_FALSE(closed.by_passes);
  const PassLimits passes = limits_of(
      study({pass(9, 0.4), pass(10, 0.5), pass(12, 0.62), pass(12.1, 1, "jammed")}));
  const CaseLimits limits = case_limits(c, passes);
  CHECK(limits.by_passes);
  REQUIRE(limits.thickest.decisive() != nullptr);
  CHECK(limits.thickest.decisive()->by == "simulated passes");
  CHECK(limits.thickest.decisive()->value == Approx(12 / 1.1));
  CHECK_THAT(limits.thickest.decisive()->source, Contains("closed forms: "));
  CHECK(limits.extreme.coupon.thickness == Approx(12 / 1.1));
  CHECK(limits.force.value == Approx(0.62 * 80000 / 0.9));
  for (const Bound &bound : limits.thickest.all)
    CHECK(bound.by != "room beside the plunger");
  // A frame's opening is still in the way.
  const Case framed =
      yard_case({"--frame.distance", "95 mm", "--frame.clearance_above", "0.5 mm"});
  CHECK(case_limits(framed, passes).thickest.decisive()->value == Approx(10.5));

  BenchCard card;
  card.given             = c;
  card.case_file         = "yard.ini";
  card.limits            = limits;
  card.program           = "throughbend test";
  const std::string html = bench_card(card);
  CHECK_THAT(html, Contains("simulated passes") && Contains("study limits") &&
                       Contains("10.9 mm") && Contains("one change at a time"));
  card.limits = closed;
  CHECK_THAT(bench_card(card), !Contains("simulated passes") && Contains("hold together"));
}
