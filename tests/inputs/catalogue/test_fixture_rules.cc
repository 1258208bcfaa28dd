// Every figure of the fixture rules against where it was found. [R]: read in a scan of the
// source, [C]: computed by hand from read figures, [M]: from memory. Sources:
//   ASME BPVC IX (2010), Fig. QW-466.1, pp. 187-188 of the scan; rows and inch figures [R];
//   AWS D1.1, guided bend jig by yield strength [M], 1-1/2 in for up to 50 ksi [R];
//   API 1104 jig [R], die radius in inch [M]; API 5L gap [R]; ISO and ASTM rules [M].

#include "inputs/catalogue/catalogue_texts.h"
#include "inputs/catalogue/fixture_by_rule.h"
#include "inputs/catalogue/rule_choice.h"
#include "inputs/text/input_error.h"
#include "inputs/units/nominal_strain.h"
#include "postprocess/words/rule_text.h"
#include "tests/support/made_by_rule.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>
#include <vector>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
constexpr double inch = 25.4; // exact by definition

double in_mm(const std::string &text)
{
  const Quantity quantity = read_quantity(text, UnitKind::length);
  INFO(text << ": " << quantity.error);
  REQUIRE(quantity.ok());
  return quantity.value;
}

How how_of(const RuleFixture &fixture, const std::string &symbol)
{
  for (const RuleDimension &dimension : fixture.dimensions)
    if (dimension.symbol == symbol)
      return dimension.how;
  FAIL("no dimension " << symbol);
  return How::invented;
}

std::string all_cautions(const RuleFixture &fixture)
{
  std::string all;
  for (const std::string &caution : fixture.cautions)
    all += caution + "\n";
  return all;
}

/// One printed row: t, A, B, C, D.
struct Printed
{
  std::string rule, t, A, B, C, D;
};

void check_row(const Printed &row)
{
  const RuleFixture fixture = made(row.rule, in_mm(row.t));
  INFO(row.rule << " at " << row.t);
  CHECK(fixture.plunger_width == Approx(in_mm(row.A)).epsilon(1e-12));
  CHECK(fixture.nose_radius == Approx(in_mm(row.B)).epsilon(1e-12));
  CHECK(fixture.opening == Approx(in_mm(row.C)).epsilon(1e-12));
  CHECK(fixture.bottom_radius == Approx(in_mm(row.D)).epsilon(1e-12));
}
} // namespace

TEST_CASE("the built-in fixture rules hold no fault", "[unit][rules]")
{
  const RuleReading reading = read_fixture_rules(fixture_rules_csv(), "fixture_rules.csv");
  CHECK(fault_list(reading.faults) == "");
  CHECK(reading.rows.size() > 60);
  CHECK(built_in_rules().rows().size() == reading.rows.size());
}

TEST_CASE("ASME IX QW-466.1: the inch rows for a fixed thickness [R]", "[unit][rules]")
{
  check_row({"asme-ix-plunger-soft-haz", "1/8 in", "2-1/16 in", "1-1/32 in", "2-3/8 in",
             "1-3/16 in"});
  check_row(
      {"asme-ix-plunger-p11", "3/8 in", "2-1/2 in", "1-1/4 in", "3-3/8 in", "1-11/16 in"});
  check_row(
      {"asme-ix-plunger-p51", "3/8 in", "3 in", "1-1/2 in", "3-7/8 in", "1-15/16 in"});
  check_row(
      {"asme-ix-plunger-p52", "3/8 in", "3-3/4 in", "1-7/8 in", "4-5/8 in", "2-5/16 in"});
  check_row(
      {"asme-ix-plunger-general", "3/8 in", "1-1/2 in", "3/4 in", "2-3/8 in", "1-3/16 in"});
}

TEST_CASE("ASME IX QW-466.1: the millimetre rows, C and D of three groups [C]",
          "[unit][rules]")
{
  check_row(
      {"asme-ix-plunger-soft-haz", "3 mm", "52.4 mm", "26.2 mm", "60.4 mm", "30.2 mm"});
  check_row({"asme-ix-plunger-p11", "10 mm", "63.5 mm", "31.8 mm", "85.7 mm", "42.9 mm"});
  check_row({"asme-ix-plunger-p51", "10 mm", "76.2 mm", "38.1 mm", "98.4 mm", "49.2 mm"});
  check_row({"asme-ix-plunger-p52", "10 mm", "95.2 mm", "47.6 mm", "117.5 mm", "58.7 mm"});
  check_row(
      {"asme-ix-plunger-general", "10 mm", "38.1 mm", "19.0 mm", "60.4 mm", "30.2 mm"});

  const RuleFixture p11 = made("asme-ix-plunger-p11", 10);
  CHECK(how_of(p11, "A") == How::read);
  CHECK(how_of(p11, "C") == How::computed);
  CHECK(how_of(p11, "D") == How::computed);
  CHECK(how_of(made("asme-ix-plunger-general", 10), "C") == How::read);
  CHECK(how_of(made("asme-ix-plunger-p11", 3 * inch / 8), "C") == How::read);
}

TEST_CASE("ASME IX QW-466.1: the formula rows [R]", "[unit][rules]")
{
  // Coefficients as printed: A = a t, B = b t, C = c t + c0, D = d t + d0.
  struct Formula
  {
    std::string rule;
    double      t, a, b, c, c0, d, d0;
  };
  const std::vector<Formula> rows = {
      {"soft-haz", inch / 16, 16.5, 8.25, 18.5, inch / 16, 9.25, inch / 32},
      {"p11", inch / 4, 20. / 3, 10. / 3, 26. / 3, inch / 8, 13. / 3, inch / 16},
      {"p51", inch / 4, 8, 4, 10, inch / 8, 5, inch / 16},
      {"p52", inch / 4, 10, 5, 12, inch / 8, 6, inch / 16},
      {"general", inch / 4, 4, 2, 6, inch / 8, 3, inch / 16},
      {"soft-haz", 2, 16.5, 8.25, 18.5, 1.6, 9.25, 0.8},
      {"p11", 6, 20. / 3, 10. / 3, 26. / 3, 3.2, 13. / 3, 1.6},
      {"p51", 6, 8, 4, 10, 3.2, 5, 1.6},
      {"p52", 6, 10, 5, 12, 3.2, 6, 1.6},
      {"general", 6, 4, 2, 6, 3.2, 3, 1.6}};
  for (const Formula &f : rows)
  {
    const RuleFixture fixture = made("asme-ix-plunger-" + f.rule, f.t);
    INFO(f.rule << " at " << f.t);
    CHECK(fixture.plunger_width == Approx(f.a * f.t));
    CHECK(fixture.nose_radius == Approx(f.b * f.t));
    CHECK(fixture.opening == Approx(f.c * f.t + f.c0));
    CHECK(fixture.bottom_radius == Approx(f.d * f.t + f.d0));
  }
}

TEST_CASE("ASME IX QW-466.1: a thickness with a row of its own also has the formula",
          "[unit][rules]")
{
  const std::vector<RuleFixture> both = ways("asme-ix-plunger-general", 10);
  REQUIRE(both.size() == 2);
  CHECK(both[0].plunger_width == 38.1);
  CHECK(both[1].plunger_width == 40);
  CHECK(both[1].opening == Approx(63.2));
  CHECK(ways("asme-ix-plunger-general", 6).size() == 1);
}

TEST_CASE("ASME IX QW-466.1: elongation below 20 % [R]", "[unit][rules]")
{
  // t = A e / (1 - e), that is A = t / e - t; A at most 32-7/8 t, B at most 16-7/16 t, C at
  // most A + 2t + 1/16 in, D at most C/2 + 1/32 in.
  const double      t       = 3 * inch / 8;
  const RuleFixture fixture = made("asme-ix-plunger-low-elongation", t, 0, 0.12);
  CHECK(fixture.plunger_width == Approx(t / 0.12 - t));
  CHECK(fixture.nose_radius == Approx(fixture.plunger_width / 2));
  CHECK(fixture.opening == Approx(fixture.plunger_width + 2 * t + inch / 16));
  CHECK(fixture.bottom_radius == Approx(fixture.opening / 2 + inch / 32));
  CHECK(fixture.strain() == Approx(0.12));

  const RuleFixture least = made("asme-ix-plunger-low-elongation", t, 0, 0.01);
  CHECK(least.plunger_width == Approx(32.875 * t));
  CHECK(least.nose_radius == Approx(16.4375 * t));
  CHECK(least.strain() == Approx(0.0295).margin(0.00005)); // 2.95 % [C]
  CHECK_THAT(all_cautions(made("asme-ix-plunger-low-elongation", t)),
             Contains("largest allowed"));
}

TEST_CASE("ASME IX QW-466.1: shoulder radius 3/4 in (19 mm) [R]", "[unit][rules]")
{
  CHECK(made("asme-ix-plunger-general", 3 * inch / 8).shoulder_radius ==
        Approx(0.75 * inch));
  CHECK(made("asme-ix-plunger-general", 10).shoulder_radius == 19);
  CHECK_THAT(all_cautions(made("asme-ix-plunger-general", 10)),
             Contains("hardened and greased") && Contains("1-1/2 in (38 mm) diameter"));
}

TEST_CASE("ASME IX QW-466.2 and QW-466.3 take A and B of QW-466.1 [M]", "[unit][rules]")
{
  for (const std::string group : {"soft-haz", "p11", "p51", "p52", "general"})
    for (const double t : {inch / 8, 3., inch / 16})
    {
      INFO(group << " at " << t);
      const RuleFixture plunger = made("asme-ix-plunger-" + group, t);
      const RuleFixture roller  = made("asme-ix-roller-" + group, t);
      const RuleFixture wrap    = made("asme-ix-wrap-" + group, t);
      CHECK(roller.plunger_width == plunger.plunger_width);
      CHECK(roller.nose_radius == plunger.nose_radius);
      CHECK(roller.opening == plunger.opening);
      CHECK(wrap.nose_radius == plunger.nose_radius);
      CHECK(how_of(roller, "C") == How::from_memory);
      CHECK_THAT(all_cautions(roller), Contains("current edition"));
    }
  const RuleFixture roller = made("asme-ix-roller-general", 3 * inch / 8);
  CHECK(roller.shoulder_radius == Approx(0.75 * inch));
  CHECK(roller.fixture().shoulders.kind == ShoulderKind::rollers);
  const RuleFixture wrap = made("asme-ix-wrap-general", 3 * inch / 8);
  CHECK(wrap.roller_gap == Approx(3 * inch / 8 + inch / 16));
  CHECK(wrap.opening == 0);
}

TEST_CASE("nominal strain of the ASME rows, 100 t / (A + t) [C]", "[unit][rules]")
{
  const double three_eighths = 3 * inch / 8;
  const auto   percent       = [](const RuleFixture &f) { return 100 * f.strain(); };
  CHECK(percent(made("asme-ix-plunger-soft-haz", inch / 8)) == Approx(5.71).margin(0.005));
  CHECK(percent(made("asme-ix-plunger-soft-haz", inch / 16)) == Approx(5.71).margin(0.005));
  CHECK(percent(made("asme-ix-plunger-p11", three_eighths)) == Approx(13.04).margin(0.005));
  CHECK(percent(made("asme-ix-plunger-p51", three_eighths)) == Approx(11.11).margin(0.005));
  CHECK(percent(made("asme-ix-plunger-p52", three_eighths)) == Approx(9.09).margin(0.005));
  CHECK(percent(made("asme-ix-plunger-general", three_eighths)) == Approx(20.0));
}

TEST_CASE("clearance and the thickness that pinches, from the printed figures [C]",
          "[unit][rules]")
{
  // (C - A) / 2 = 7/16 in = 11.11 mm for all 3/8 in jigs, 5/32 in = 3.97 mm for the 1/8 in
  // one; 1/16 in per side for the former. 60.4 / 38.1 mm leave 1.15 mm beside 10 mm.
  for (const std::string group : {"p11", "p51", "p52", "general"})
  {
    const RuleFixture fixture = made("asme-ix-plunger-" + group, 3 * inch / 8);
    INFO(group);
    CHECK(fixture.pinch_thickness() == Approx(7 * inch / 16));
    CHECK(fixture.clearance() == Approx(inch / 16));
  }
  CHECK(made("asme-ix-plunger-soft-haz", inch / 8).pinch_thickness() ==
        Approx(5 * inch / 32));
  CHECK(made("asme-ix-plunger-general", 10).clearance() == Approx(1.15));
}

TEST_CASE("AWS D1.1: plunger by yield strength [M, the smallest plunger R]",
          "[unit][rules]")
{
  const auto row = [](const std::string &rule, const std::string &t, const std::string &A,
                      const std::string &B, const std::string &C, const std::string &D) {
    check_row({"aws-d1-1-plunger-" + rule, t, A, B, C, D});
  };
  row("to-50-ksi", "3/8 in", "1-1/2 in", "3/4 in", "2-3/8 in", "1-3/16 in");
  row("50-to-90-ksi", "3/8 in", "2 in", "1 in", "2-7/8 in", "1-7/16 in");
  row("from-90-ksi", "3/8 in", "2-1/2 in", "1-1/4 in", "3-3/8 in", "1-11/16 in");
  row("to-50-ksi", "10 mm", "38.1 mm", "19.0 mm", "60.3 mm", "30.2 mm");
  row("50-to-90-ksi", "10 mm", "50.8 mm", "25.4 mm", "73.0 mm", "36.6 mm");
  row("from-90-ksi", "10 mm", "63.5 mm", "31.8 mm", "85.7 mm", "42.9 mm");

  // No smaller plunger for thinner plate: 1/4 in gives 14.3 % [C].
  const RuleFixture thin = made("aws-d1-1-plunger-to-50-ksi", inch / 4);
  CHECK(thin.plunger_width == Approx(1.5 * inch));
  CHECK(100 * thin.strain() == Approx(14.3).margin(0.05));
  const auto percent = [](const std::string &rule)
  { return 100 * made("aws-d1-1-plunger-" + rule, 3 * inch / 8).strain(); };
  CHECK(percent("to-50-ksi") == Approx(20.0));
  CHECK(percent("50-to-90-ksi") == Approx(15.8).margin(0.05));
  CHECK(percent("from-90-ksi") == Approx(13.0).margin(0.05));
  CHECK(how_of(thin, "A") == How::read);
  CHECK(how_of(thin, "C") == How::from_memory);
}

TEST_CASE("in a family the yield strength or the elongation decides", "[unit][rules]")
{
  const double t      = 3 * inch / 8;
  const double ksi    = 6.894757; // NIST SP 811, appendix B.8
  const auto   chosen = [&](double yield) { return made("aws-d1-1-plunger", t, yield); };
  CHECK(chosen(36 * ksi).rule.rule == "aws-d1-1-plunger-to-50-ksi");
  CHECK(chosen(50 * ksi).rule.rule == "aws-d1-1-plunger-to-50-ksi");
  CHECK(chosen(345).rule.rule == "aws-d1-1-plunger-to-50-ksi");
  CHECK(chosen(51 * ksi).rule.rule == "aws-d1-1-plunger-50-to-90-ksi");
  CHECK(chosen(89 * ksi).rule.rule == "aws-d1-1-plunger-50-to-90-ksi");
  CHECK(chosen(90 * ksi).rule.rule == "aws-d1-1-plunger-from-90-ksi");
  CHECK(chosen(620).rule.rule == "aws-d1-1-plunger-from-90-ksi");
  // In millimetres the limits are 345 and 620 MPa, 345 itself being low.
  CHECK(made("aws-d1-1-plunger", 10, 345).plunger_width == 38.1);
  CHECK(made("aws-d1-1-plunger", 10, 620).plunger_width == 63.5);
  CHECK(made("asme-ix-plunger", t, 0, 0.22).rule.rule == "asme-ix-plunger-general");
  CHECK(made("asme-ix-plunger", t, 0, 0.20).rule.rule == "asme-ix-plunger-general");
  CHECK(made("asme-ix-plunger", t, 0, 0.14).rule.rule == "asme-ix-plunger-low-elongation");
  CHECK_THAT(all_cautions(made("asme-ix-plunger", t, 0, 0.22)), Contains("-p11"));
  CHECK_THROWS_WITH(made("aws-d1-1-plunger", t),
                    Contains("yield strength") && Contains("--yield") &&
                        Contains("aws-d1-1-plunger-to-50-ksi"));
  CHECK_THROWS_WITH(made("asme-ix-plunger", t, 0, 0.01), Contains("no rule of the family"));
}

TEST_CASE("roller spacing [M]", "[unit][rules]")
{
  const auto opening = [](const std::string &rule, double former)
  {
    RuleRequest request;
    request.thickness         = 10;
    request.elongation        = 0.22;
    request.former            = former;
    const RuleFixture fixture = fixture_by_rule(built_in_rules(), rule, request);
    for (const RuleDimension &dimension : fixture.dimensions)
      if (dimension.symbol == "C")
        return dimension;
    return RuleDimension{};
  };
  // ISO 7438: l = (D + 3a) +- a/2.
  CHECK(opening("iso-7438-rollers", 50).value == 80);
  CHECK(opening("iso-7438-rollers", 50).limits.low == 75);
  CHECK(opening("iso-7438-rollers", 50).limits.high == 85);
  // ASTM E290: C = 2r + 3t +- t/2.
  CHECK(opening("astm-e290-guided", 50).value == 80);
  CHECK(opening("astm-e290-guided", 50).limits.low == 75);
  CHECK(opening("astm-e290-guided", 50).limits.high == 85);
  // ISO 5173: d + 2 t < l <= d + 3 t.
  const RuleDimension iso = opening("iso-5173-rollers", 40);
  CHECK(iso.value == 70);
  CHECK_FALSE(iso.limits.contains(60));
  CHECK(iso.limits.contains(60.01));
  CHECK(iso.limits.contains(70));
  CHECK_FALSE(iso.limits.contains(70.01));
  CHECK(iso.how == How::from_memory);
  // ISO 15614-1: former 4t from an elongation of 20 %, else 100 t / A - t.
  CHECK(made("iso-15614-1", 10, 0, 0.2).plunger_width == 40);
  CHECK(made("iso-15614-1", 10, 0, 0.14).plunger_width == Approx(1000. / 14 - 10));
  // No former, no figure that hangs on it.
  CHECK(made("iso-7438-rollers", 10).opening == 0);
  CHECK_THAT(all_cautions(made("iso-7438-rollers", 10)), Contains("former"));
}

TEST_CASE("AWS B4.0, API 1104 and API 5L", "[unit][rules]")
{
  const double t   = 3 * inch / 8;
  const auto   aws = made("aws-b4-0-plunger", t, 0, 0.2);
  CHECK(aws.plunger_width == Approx(4 * t)); // e = t / (A + t) [M]
  CHECK(aws.opening == Approx(aws.plunger_width + 2 * t + inch / 8));
  const auto api = made("api-1104-jig", t);
  CHECK(api.nose_radius == Approx(1.75 * inch));      // [R]
  CHECK(api.bottom_radius == Approx(37 * inch / 16)); // 2-5/16 in [M]
  CHECK(how_of(api, "B") == How::read);
  CHECK(how_of(api, "D") == How::from_memory);
  CHECK(made("api-1104-jig", 10).nose_radius == 45); // [R]
  CHECK(made("api-1104-jig", 10).bottom_radius == 60);
  RuleRequest request;
  request.thickness = t;
  request.former    = 60;
  CHECK(fixture_by_rule(built_in_rules(), "api-5l-gap", request).opening ==
        Approx(60 + 2 * t + inch / 8)); // B = A_gb + 2t + 1/8 in [R]
}

TEST_CASE("outer strain over A/t: t / (A + t), textbook table", "[unit][rules]")
{
  // e and its logarithms, ln(1 + e) outside and ln(1 - e) inside [C].
  struct Row
  {
    double ratio, e, outer, inner;
  };
  for (const Row &row : std::vector<Row>{{2, 33.3, 0.2877, -0.4055},
                                         {3, 25.0, 0.2231, -0.2877},
                                         {4, 20.0, 0.1823, -0.2231},
                                         {5.333, 15.8, 0.1466, -0.1719},
                                         {6.667, 13.0, 0.1226, -0.1398},
                                         {8, 11.1, 0.1054, -0.1178},
                                         {10, 9.09, 0.0870, -0.0953},
                                         {16.5, 5.71, 0.0556, -0.0588}})
  {
    const double e = nominal_strain(row.ratio * 7, 7);
    INFO(row.ratio);
    CHECK(100 * e == Approx(row.e).margin(0.05));
    CHECK(std::log1p(e) == Approx(row.outer).margin(0.00006));
    CHECK(std::log1p(-e) == Approx(row.inner).margin(0.00006));
    CHECK(plunger_for_strain(7, e) == Approx(row.ratio * 7));
    CHECK(thickness_for_strain(row.ratio * 7, e) == Approx(7));
  }
}

TEST_CASE("an over-thick coupon is told where the rule ends", "[unit][rules]")
{
  const RuleFixture fixture = made("asme-ix-plunger-general", 12);
  CHECK(fixture.thickness == 10);
  CHECK(fixture.plunger_width == 38.1);
  CHECK_THAT(all_cautions(fixture), Contains("12 mm") && Contains("ends at 10 mm") &&
                                        Contains("Machine the coupon"));
}

TEST_CASE("names that are near a rule find it", "[unit][rules]")
{
  CHECK_THROWS_WITH(made("asme-ix-plunger-genral", 10),
                    Contains("did you mean 'asme-ix-plunger-general'"));
  CHECK_THROWS_WITH(made("aws-d1-1-plungr", 10, 300), Contains("'aws-d1-1-plunger'"));
  CHECK_THROWS_WITH(made("zzzzzzzzzzzz", 10), Contains("throughbend rules"));
  CHECK_THROWS_WITH(made("asme-ix-plunger-general", 0), Contains("thickness"));
}

TEST_CASE("the printed fixture names clause, both units, and what is from memory",
          "[unit][rules]")
{
  const std::string read =
      fixture_text(ways("asme-ix-plunger-general", 3 * inch / 8, 0, 0.22),
                   built_in_coupon_rules(), built_in_surface_limits());
  INFO(read);
  CHECK_THAT(read, Contains("Fig. QW-466.1") && Contains("2010"));
  CHECK_THAT(read, Contains("1-1/2 in") && Contains("38.1 mm"));
  CHECK_THAT(read, Contains("2-3/8 in") && Contains("20.0 %"));
  CHECK_THAT(read, Contains("7/16 in (11.11 mm)"));
  CHECK_THAT(read, Contains("asme-ix-side-bend") && Contains("1/8 in"));
  CHECK_THAT(read, Contains("eye protection") && Contains("governs"));
  CHECK_THAT(all_cautions(made("asme-ix-plunger-general", 3 * inch / 8)),
             !Contains("From memory"));
  const std::string recalled =
      fixture_text(ways("aws-d1-1-plunger", 3 * inch / 8, 400), built_in_coupon_rules(),
                   built_in_surface_limits());
  CHECK_THAT(recalled, Contains("From memory: plunger width") &&
                           Contains("Confirm in the current edition of AWS D1.1"));
}

TEST_CASE("both printed figures of a limit are the limit, in every row", "[unit][rules]")
{
  // The figures as the standards print them in both families (ASME IX, AWS D1.1, API 1104:
  // see the rows; read or from memory as the rows say).
  struct Printed
  {
    const char *us, *metric;
    UnitKind    kind;
  };
  const std::vector<Printed> printed = {
      {"50 ksi", "345 MPa", UnitKind::stress}, {"90 ksi", "620 MPa", UnitKind::stress},
      {"3/8 in", "10 mm", UnitKind::length},   {"1/8 in", "3 mm", UnitKind::length},
      {"1-1/2 in", "38 mm", UnitKind::length}, {"0.5 in", "13 mm", UnitKind::length}};
  int        limits = 0;
  const auto hold   = [&](const RangeCell &cell, const std::string &rule)
  {
    if (!cell.given())
      return;
    for (const double limit : {cell.range.low, cell.range.high})
    {
      if (!std::isfinite(limit))
        continue;
      ++limits;
      INFO(rule << ": " << cell.text);
      const bool high = limit == cell.range.high;
      const bool closed =
          (high ? cell.range.high_edge : cell.range.low_edge) == Edge::closed;
      CHECK(cell.takes(limit) == closed);
      const auto pair = std::find_if(
          printed.begin(), printed.end(),
          [&](const Printed &p)
          {
            return p.kind == cell.kind &&
                   (std::abs(read_quantity(p.us, p.kind).value - limit) < 1e-6 ||
                    std::abs(read_quantity(p.metric, p.kind).value - limit) < 1e-6);
          });
      if (pair == printed.end())
      {
        // Printed in one family only: ISO's millimetres, per cents.
        CHECK((cell.kind == UnitKind::ratio || rule.rfind("iso", 0) == 0 ||
               rule.rfind("lr", 0) == 0));
        continue;
      }
      const double us     = read_quantity(pair->us, pair->kind).value,
                   metric = read_quantity(pair->metric, pair->kind).value;
      if (rule.rfind("iso", 0) == 0 || rule.rfind("lr", 0) == 0)
        continue;
      CHECK(cell.takes(us) == closed);
      CHECK(cell.takes(metric) == closed);
      // A tenth of an inch, or a ksi and a half, away is another matter on either side.
      const double step = pair->kind == UnitKind::stress ? 10. : 2.;
      CHECK(cell.takes(std::max(us, metric) + step) == (!high && !cell.fixed()));
      CHECK(cell.takes(std::min(us, metric) - step) == (high && !cell.fixed()));
    }
  };
  for (const FixtureRule &row : built_in_rules().rows())
    for (const RangeCell *cell : {&row.thickness, &row.yield, &row.elongation})
      hold(*cell, row.rule);
  for (const CouponRule &row : built_in_coupon_rules())
    for (const RangeCell *cell : {&row.for_thickness, &row.for_plate, &row.for_pipe})
      hold(*cell, row.rule);
  CHECK(limits > 80);
  // Soft metric, to a tenth of a mm, as shops write it.
  const RangeCell eighths = made("asme-ix-plunger-general", 3 * inch / 8).rule.thickness;
  CHECK(eighths.takes(9.5));
  CHECK_FALSE(eighths.takes(9.7));
}
