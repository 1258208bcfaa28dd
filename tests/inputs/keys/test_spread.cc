// The section [spread]: how it is written, what it refuses, what catalogues give.
// Numbers of cases are invented unless a source stands beside them.

#include "inputs/catalogue/catalogue_texts.h"
#include "inputs/keys/case_help.h"
#include "inputs/keys/case_reader.h"
#include "inputs/keys/case_text.h"
#include "inputs/keys/spread.h"
#include "inputs/keys/starter_case.h"
#include "inputs/keys/strength_spread.h"
#include "tests/support/case_texts.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
const std::string yard =
    coupon_section +
    "[plunger]\nwidth = 4t\n[shoulders]\nradius = 20 mm\nopening = 63.2 mm\n"
    "[ram]\ncapacity = 80 kN\nstroke = 120 mm\n";
const std::string voce = metal_section;

CaseReading with_spread(const std::string &lines, const std::string &metal = voce)
{
  return read_case_text(yard + metal + "[spread]\n" + lines, "yard.ini", {});
}

ScatterLaw law(const std::string &text, const UnitKind kind, const double own = 0)
{
  const ScatterReading reading = read_scatter(text, kind, own);
  INFO(text << ": " << reading.error);
  REQUIRE(reading.error.empty());
  return reading.law;
}

std::string error_of(const std::string &text, const UnitKind kind)
{
  return read_scatter(text, kind, 1).error;
}
} // namespace

TEST_CASE("tolerances as they stand on drawings", "[unit][spread]")
{
  for (const char *text :
       {"9.53 mm +- 0.10 mm", "9.53 mm +/- 0.1 mm", "9.53 mm \xC2\xB1 0.1 mm",
        "9.53 mm +0.1 mm -0.1 mm", "uniform 9.43 mm 9.63 mm", "uniform 9.43 mm, 9.63 mm"})
  {
    const ScatterLaw read = law(text, UnitKind::length);
    INFO(text);
    CHECK(read.kind == ScatterKind::uniform);
    CHECK(read.least() == Approx(9.43).epsilon(1e-12));
    CHECK(read.largest() == Approx(9.63).epsilon(1e-12));
  }
  const ScatterLaw about_own = law("+- 0.2 mm", UnitKind::length, 10);
  CHECK(about_own.least() == Approx(9.8));
  CHECK(about_own.largest() == Approx(10.2));
  const ScatterLaw uneven = law("10 mm +0.3 mm -0.1 mm", UnitKind::length);
  CHECK(uneven.least() == Approx(9.9));
  CHECK(uneven.largest() == Approx(10.3));
  const ScatterLaw share = law("350 MPa +- 10 %", UnitKind::stress);
  CHECK(share.least() == Approx(315));
  CHECK(share.largest() == Approx(385));
  // 1/2 in is 12.7 mm by definition of the inch (25.4 mm).
  const ScatterLaw inch = law("1/2 in +- 0.01 in", UnitKind::length);
  CHECK(inch.least() == Approx(12.7 - 0.254));
  CHECK(inch.largest() == Approx(12.7 + 0.254));
}

TEST_CASE("laws with blanks or commas between their values", "[unit][spread]")
{
  const ScatterLaw normal =
      law("normal 350 MPa 15 MPa limits 320 MPa 400 MPa", UnitKind::stress);
  CHECK(normal.kind == ScatterKind::normal);
  CHECK(normal.first == 350);
  CHECK(normal.second == 15);
  CHECK(normal.low == 320);
  CHECK(normal.high == 400);
  const ScatterLaw triangle = law("triangular 0.05 0.1 0.15", UnitKind::ratio);
  CHECK(triangle.first == 0.05);
  CHECK(triangle.second == 0.1);
  CHECK(triangle.third == 0.15);
  const ScatterLaw lognormal = law("lognormal 300 MPa 1.07", UnitKind::stress);
  CHECK(lognormal.first == 300);
  CHECK(lognormal.second == 1.07);
  const ScatterLaw inches = law("uniform 1 1/2 in 2 in", UnitKind::length);
  CHECK(inches.first == Approx(38.1));
  CHECK(inches.second == Approx(50.8));
}

TEST_CASE("a law reads back from its text as the very same", "[unit][spread]")
{
  for (const char *text :
       {"9.53 mm +- 0.10 mm", "normal 9.5 mm 0.07 mm", "triangular 9 mm 9.5 mm 10.1 mm",
        "lognormal 9.5 mm 1.02", "normal 9.5 mm 0.07 mm limits 9.3 mm 9.8 mm"})
  {
    const ScatterLaw once  = law(text, UnitKind::length);
    const ScatterLaw again = law(exact_text(once, UnitKind::length), UnitKind::length);
    INFO(exact_text(once, UnitKind::length));
    CHECK(again.kind == once.kind);
    CHECK(again.first == once.first);
    CHECK(again.second == once.second);
    CHECK(again.third == once.third);
    CHECK(again.low == once.low);
    CHECK(again.high == once.high);
  }
}

TEST_CASE("what is no law is refused with the cure", "[unit][spread]")
{
  CHECK_THAT(error_of("9.5 mm", UnitKind::length), Contains("9.5 mm +- 1 %"));
  CHECK_THAT(error_of("gaussian 1 mm 2 mm", UnitKind::length), Contains("is no law"));
  CHECK_THAT(error_of("norml 1 mm 2 mm", UnitKind::length), Contains("'normal'"));
  CHECK_THAT(error_of("normal 350 MPa 15", UnitKind::stress),
             Contains("each with its unit"));
  CHECK_THAT(error_of("normal 350 MPa, 15", UnitKind::stress), Contains("unit is missing"));
  CHECK_THAT(error_of("normal 350 MPa", UnitKind::stress), Contains("STANDARD DEVIATION"));
  CHECK_THAT(error_of("normal 350 MPa 0 MPa", UnitKind::stress), Contains("above 0"));
  CHECK_THAT(error_of("uniform 10 mm 9 mm", UnitKind::length), Contains("below"));
  CHECK_THAT(error_of("triangular 1 mm 3 mm 2 mm", UnitKind::length), Contains("rise"));
  CHECK_THAT(error_of("lognormal 300 MPa 0.9", UnitKind::stress), Contains("above 1"));
  CHECK_THAT(error_of("9 mm +- 0.1", UnitKind::length), Contains("tolerance"));
  CHECK_THAT(error_of("9 mm +- 0 mm", UnitKind::length), Contains("above 0"));
  CHECK_THAT(error_of("9 mm +- -1 mm", UnitKind::length), Contains("above 0"));
  CHECK_THAT(error_of("0.1 +- 10 %", UnitKind::ratio), Contains("share of the value"));
  CHECK_THAT(error_of("normal 1 mm 0.1 mm limits 2 mm 3 mm", UnitKind::length),
             Contains("nothing"));
  CHECK_THAT(error_of("", UnitKind::length), Contains("no value"));
}

TEST_CASE("a case with [spread] gives its laws beside the case", "[unit][spread]")
{
  const CaseReading reading = with_spread("coupon.thickness = +- 0.2 mm\n"
                                          "friction.shoulders = triangular 0.05 0.1 0.15\n"
                                          "friction.plunger = as friction.shoulders\n");
  INFO(error_list(reading.errors));
  REQUIRE(reading.value);
  REQUIRE(reading.spreads.size() == 3);
  CHECK(reading.spreads[0].key == "coupon.thickness");
  CHECK(reading.spreads[0].law.least() == Approx(9.8));
  CHECK_THAT(reading.spreads[0].source, Contains("JCGM 100:2008"));
  CHECK(reading.spreads[2].follows == "friction.shoulders");
  // A pass is the same with and without.
  CHECK(case_hash(*reading.value) == case_hash(*with_spread("").value));

  // What is printed reads back as the same.
  const std::string printed = effective_text(*reading.value) + spread_text(reading.spreads);
  const CaseReading again   = read_case_text(printed, "again.ini", {});
  INFO(printed << error_list(again.errors));
  REQUIRE(again.spreads.size() == 3);
  for (std::size_t i = 0; i < 3; ++i)
  {
    CHECK(again.spreads[i].key == reading.spreads[i].key);
    CHECK(again.spreads[i].follows == reading.spreads[i].follows);
    CHECK(again.spreads[i].law.first == reading.spreads[i].law.first);
    CHECK(again.spreads[i].law.second == reading.spreads[i].law.second);
  }
}

TEST_CASE("a law on the command line takes the place of the file's", "[unit][spread]")
{
  const CaseReading reading =
      read_case_text(yard + voce + "[spread]\ncoupon.thickness = +- 0.2 mm\n", "yard.ini",
                     {"--spread.coupon.thickness", "+- 0.5 mm"});
  INFO(error_list(reading.errors));
  REQUIRE(reading.spreads.size() == 1);
  CHECK(reading.spreads[0].law.least() == Approx(9.5));
}

TEST_CASE("all that is wrong with [spread] is told at once", "[unit][spread]")
{
  const CaseReading reading = with_spread("coupon.thicknes = +- 0.2 mm\n"
                                          "coupon.width = 38 mm\n"
                                          "mesh.level = +- 1\n"
                                          "solver.largest_step = +- 10 %\n"
                                          "material.strength = catalogue\n"
                                          "shoulders.radius = catalogue\n"
                                          "friction.plunger = as friction.sholders\n"
                                          "friction.left_shoulder = as friction.shoulders\n"
                                          "coupon.offset = normal 0 mm 200 mm\n");
  CHECK_FALSE(reading.value);
  const std::string list = error_list(reading.errors);
  CHECK_THAT(list, Contains("did you mean 'spread.coupon.thickness'?"));
  CHECK_THAT(list, Contains("does not scatter"));
  CHECK_THAT(list, Contains("takes no number"));
  CHECK_THAT(list, Contains("setting of the computation"));
  CHECK_THAT(list, Contains("only: law swift, ludwik"));
  CHECK_THAT(list, Contains("no catalogue has the scatter"));
  CHECK_THAT(list, Contains("did you mean 'friction.shoulders'?"));
  CHECK_THAT(list, Contains("reaches to -800 mm"));
  CHECK(reading.errors.size() == 8);
  for (const CaseError &error : reading.errors)
    CHECK_THAT(error.place, Contains("yard.ini:"));
}

TEST_CASE("a key that follows needs one that scatters", "[unit][spread]")
{
  CHECK_THAT(error_list(with_spread("friction.plunger = as friction.shoulders\n").errors),
             Contains("follows a key that does not scatter"));
  CHECK_THAT(error_list(with_spread("friction.plunger = as friction.shoulders\n"
                                    "friction.shoulders = as friction.left_shoulder\n"
                                    "friction.left_shoulder = +- 0.02\n")
                            .errors),
             Contains("itself follows another"));
  CHECK_THAT(error_list(with_spread("friction.plunger = as friction.plunger\n").errors),
             Contains("follows itself"));
  CHECK_THAT(error_list(with_spread("friction.plunger = as coupon.width\n"
                                    "coupon.width = +- 1 mm\n")
                            .errors),
             Contains("is no ratio"));
}

TEST_CASE("a value twice, and a value outside of its own law", "[unit][spread]")
{
  CHECK_THAT(
      error_list(with_spread("coupon.width = +- 1 mm\ncoupon.width = +- 2 mm\n").errors),
      Contains("given twice"));
  const CaseReading reading = with_spread("coupon.thickness = 9.53 mm +- 0.1 mm\n");
  REQUIRE(reading.value);
  REQUIRE(reading.remarks.size() == 1);
  CHECK_THAT(reading.remarks.front(), Contains("own value, 10 mm, lies outside"));
}

TEST_CASE("strength by catalogue: real plate against the least of its standard",
          "[unit][spread]")
{
  CHECK(
      read_strength_spreads(strength_spreads_csv(), "strength_spreads.csv").faults.empty());
  // EN 1993-1-1:2022, table E.1, from memory: S355 has a mean of 1.20 times its least value
  // and a coefficient of variation of 5 %.
  const CaseReading s355 =
      with_spread("material.strength = catalogue\n", "[material]\ngrade = s355\n");
  INFO(error_list(s355.errors));
  REQUIRE(s355.spreads.size() == 1);
  const ScatterLaw law = s355.spreads[0].law;
  CHECK(law.kind == ScatterKind::lognormal);
  const double sigma = std::log(law.second);
  // Mean and variance of a lognormal law: exp(mu + sigma^2/2), (exp(sigma^2) - 1) mean^2.
  CHECK(law.first * std::exp(sigma * sigma / 2) ==
        Approx(1.2 * s355.value->material.flow.strength));
  CHECK(std::sqrt(std::expm1(sigma * sigma)) == Approx(0.05));
  CHECK_THAT(s355.spreads[0].source,
             Contains("EN 1993-1-1:2022") && Contains("from memory"));

  // A certificate's figure is its own mean.
  const CaseReading own = with_spread("material.yield = catalogue\n");
  REQUIRE(own.spreads.size() == 1);
  const double s = std::log(own.spreads[0].law.second);
  CHECK(own.spreads[0].law.first * std::exp(s * s / 2) == Approx(250));
  CHECK_THAT(own.spreads[0].source, Contains("assumed"));
}

TEST_CASE("friction by catalogue has the lubricant's range", "[unit][spread]")
{
  const CaseReading none = with_spread("friction.shoulders = catalogue\n");
  REQUIRE(none.spreads.size() == 1);
  CHECK(none.spreads[0].law.kind == ScatterKind::triangular);
  // Row grease of lubricants.csv: common practice, no source.
  CHECK(none.spreads[0].law.first == 0.05);
  CHECK(none.spreads[0].law.second == 0.1);
  CHECK(none.spreads[0].law.third == 0.15);
  CHECK_THAT(none.spreads[0].source, Contains("grease is assumed"));
  const CaseReading dry = with_spread("friction.shoulders = catalogue\n",
                                      voce + "[friction]\nlubricant = dry-mill-scale\n");
  REQUIRE(dry.spreads.size() == 1);
  CHECK(dry.spreads[0].law.third == 0.35);
}

TEST_CASE("help and starter tell of [spread]", "[unit][spread]")
{
  CHECK_THAT(help_text(), Contains("[spread]") && Contains("JCGM"));
  CHECK_THAT(starter_text(), Contains("[spread]"));
  const CaseReading starter = read_case_text(starter_text(), "starter", {});
  CHECK(starter.errors.empty());
  CHECK(starter.spreads.empty());
}
