// A fixture held against what a rule asks for: when a dimension is ok, close or no, and
// which way of a rule is the one compared with. Figures of the rules: test_fixture_rules.

#include "inputs/catalogue/catalogue_texts.h"
#include "inputs/catalogue/fixture_by_rule.h"
#include "inputs/catalogue/rule_choice.h"
#include "inputs/text/input_error.h"
#include "postprocess/words/rule_text.h"
#include "tests/support/made_by_rule.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
constexpr double inch = 25.4; // exact by definition

Fixture small_jig() ///< the 1-1/2 in plunger of the 3/8 in jig
{
  Fixture fixture;
  fixture.plunger           = {1.5 * inch, 0.75 * inch};
  fixture.shoulders.opening = 2.375 * inch;
  fixture.shoulders.radius  = 0.75 * inch;
  return fixture;
}

const ComparisonRow &row_of(const RuleComparison &comparison, const std::string &key)
{
  for (const ComparisonRow &row : comparison.rows)
    if (row.key == key)
      return row;
  FAIL("no row " << key);
  return comparison.rows.front();
}
} // namespace

TEST_CASE("a fixture made by the rule agrees with it in every dimension", "[unit][rules]")
{
  for (const std::string &rule : built_in_rules().names())
  {
    RuleRequest request;
    request.thickness  = 3;
    request.yield      = 300;
    request.elongation = 0.22;
    request.former     = 30;
    const auto range   = built_in_rules().rows_of(rule).front();
    if (range.yield.given() && !range.yield.range.contains(300))
      request.yield = range.yield.range.low + 1;
    if (range.elongation.given() && !range.elongation.range.contains(0.22))
      request.elongation = 0.15;
    const RuleFixture    fixture = fixture_by_rule(built_in_rules(), rule, request);
    const RuleComparison same =
        compare_with_rule(built_in_rules(), rule, fixture.fixture(), request);
    INFO(rule << "\n" << comparison_text(same, UnitSystem::metric));
    CHECK(same.worst() == Agreement::ok);
    CHECK(same.rows.size() >= 2);
  }
}

TEST_CASE("dimensions are ok, close or no by the tolerance", "[unit][rules]")
{
  RuleRequest request;
  request.thickness    = 3 * inch / 8;
  request.elongation   = 0.22;
  const auto agreement = [&](double width)
  {
    Fixture fixture       = small_jig();
    fixture.plunger.width = width;
    return row_of(compare_with_rule(built_in_rules(), "asme-ix-plunger-general", fixture,
                                    request, 0.5),
                  "plunger.width");
  };
  CHECK(agreement(38.1).agreement == Agreement::ok);
  CHECK(agreement(38.6).agreement == Agreement::ok);
  CHECK(agreement(38.7).agreement == Agreement::close);
  CHECK(agreement(37.1).agreement == Agreement::close);
  CHECK(agreement(37.0).agreement == Agreement::no);
  CHECK(agreement(40).difference == Approx(1.9));
}

TEST_CASE("a limit is not to be passed, but anything within it is good", "[unit][rules]")
{
  RuleRequest request;
  request.thickness    = 10;
  Fixture fixture      = small_jig();
  fixture.plunger      = {40, 20};
  const auto agreement = [&](double opening)
  {
    fixture.shoulders.opening = opening;
    return row_of(compare_with_rule(built_in_rules(), "iso-5173-rollers", fixture, request),
                  "shoulders.opening");
  };
  CHECK(agreement(65).agreement == Agreement::ok);
  CHECK(agreement(65).difference == 0);
  CHECK(agreement(60).agreement == Agreement::close); // above 60, not 60
  CHECK(agreement(70.2).agreement == Agreement::close);
  CHECK(agreement(72).agreement == Agreement::no);
  CHECK(agreement(72).difference == Approx(2));
}

TEST_CASE("the nearest way of a rule is the one compared with", "[unit][rules]")
{
  // The yard's fixture is the formula's for 10 mm, not the printed row's.
  Fixture yard;
  yard.plunger           = {40, 20};
  yard.shoulders.opening = 63.2;
  yard.shoulders.radius  = 20;
  RuleRequest request;
  request.thickness  = 10;
  request.elongation = 0.22;
  const RuleComparison comparison =
      compare_with_rule(built_in_rules(), "asme-ix-plunger-general", yard, request);
  CHECK(comparison.by_rule.plunger_width == 40);
  CHECK(row_of(comparison, "shoulders.opening").agreement == Agreement::ok);
  CHECK(row_of(comparison, "shoulders.radius").agreement == Agreement::close); // 20 for 19
}

TEST_CASE("a higher-strength grade on the small plunger is flagged with the rule that asks "
          "for the larger one",
          "[unit][rules]")
{
  RuleRequest request;
  request.thickness  = 3 * inch / 8;
  request.yield      = 690;
  request.elongation = 0.14;

  const RuleComparison aws = compare_with_rule(
      built_in_rules(), "aws-d1-1-plunger-to-50-ksi", small_jig(), request);
  const ComparisonRow &yield = row_of(aws, "material.yield");
  CHECK(yield.agreement == Agreement::no);
  CHECK(yield.ours == 690);
  CHECK_THAT(yield.remark, Contains("aws-d1-1-plunger-from-90-ksi") && Contains("63.5 mm"));
  CHECK(aws.worst() == Agreement::no);

  const RuleComparison family =
      compare_with_rule(built_in_rules(), "aws-d1-1-plunger", small_jig(), request);
  CHECK(family.by_rule.rule.rule == "aws-d1-1-plunger-from-90-ksi");
  CHECK(row_of(family, "plunger.width").agreement == Agreement::no);
  CHECK(row_of(family, "plunger.width").rules == Approx(2.5 * inch));

  const RuleComparison asme =
      compare_with_rule(built_in_rules(), "asme-ix-plunger-general", small_jig(), request);
  CHECK_THAT(row_of(asme, "material.elongation").remark,
             Contains("asme-ix-plunger-low-elongation"));
  // That one bends by the elongation itself, A = t / e - t, and no smaller plunger will do.
  const RuleComparison low =
      compare_with_rule(built_in_rules(), "asme-ix-plunger", small_jig(), request);
  CHECK(low.by_rule.rule.rule == "asme-ix-plunger-low-elongation");
  CHECK(row_of(low, "plunger.width").agreement == Agreement::no);
  CHECK(row_of(low, "plunger.width").rules == Approx(3 * inch / 8 / 0.14 - 3 * inch / 8));

  // A larger plunger does, and opening and strain go by it: A = 60 mm, C up to A + 2 t and
  // 1/16 in, t / (A + t) = 13.7 %.
  Fixture large             = small_jig();
  large.plunger.width       = 60;
  large.plunger.nose_radius = 30;
  large.shoulders.opening   = 60 + 3 * inch / 4 + inch / 16;
  large.shoulders.radius    = 3 * inch / 4;
  const RuleComparison more =
      compare_with_rule(built_in_rules(), "asme-ix-plunger", large, request);
  CHECK(more.worst() == Agreement::ok);
  CHECK(row_of(more, "shoulders.opening").rules == Approx(large.shoulders.opening));
  // One that suits the narrowest plunger leaves the leg no room beside this one.
  large.shoulders.opening = 3 * inch / 8 / 0.14 + 3 * inch / 8;
  CHECK(row_of(compare_with_rule(built_in_rules(), "asme-ix-plunger", large, request),
               "shoulders.opening")
            .agreement == Agreement::no);

  // And the other way round: mild steel on the small plunger is not.
  request.yield      = 250;
  request.elongation = 0.23;
  CHECK(compare_with_rule(built_in_rules(), "aws-d1-1-plunger-to-50-ksi", small_jig(),
                          request)
            .worst() == Agreement::ok);
}

TEST_CASE("a jig made to either family's figures is by the rule for coupons of both",
          "[unit][rules]")
{
  // Every rule that prints lengths twice: the jig of one family against coupons of either.
  for (const std::string &rule : built_in_rules().names())
    for (const UnitSystem made_in : {UnitSystem::us, UnitSystem::metric})
      for (const double thickness :
           {rule.find("soft-haz") != rule.npos ? inch / 8 : 3 * inch / 8,
            rule.find("soft-haz") != rule.npos ? 3. : 10.})
      {
        RuleRequest request;
        request.thickness         = thickness;
        request.elongation        = rule.find("low") != rule.npos ? 0.14 : 0.22;
        request.yield             = rule.find("from-90") != rule.npos ? 620
                                    : rule.find("50-to") != rule.npos ? 450
                                                                      : 345;
        request.former            = 38.1;
        request.units             = made_in;
        const RuleFixture by_rule = fixture_by_rule(built_in_rules(), rule, request);
        if (by_rule.rule.jig == Jig::wrap || by_rule.plunger_width <= 0)
          continue;
        Fixture jig = by_rule.fixture();
        if (jig.shoulders.radius <= 0)
          jig.shoulders.radius = 19.05;
        request.units.reset();
        INFO(rule << " for " << thickness << " mm, made in "
                  << (made_in == UnitSystem::us ? "inch" : "mm"));
        CHECK(compare_with_rule(built_in_rules(), rule, jig, request).worst() ==
              Agreement::ok);
      }
}

TEST_CASE("345 MPa is 50 ksi to a shop's own rule, too", "[unit][rules]")
{
  RangeCell own = read_range("<= 50 ksi", UnitKind::stress);
  CHECK_FALSE(own.takes(347));
  pair_by_custom(own);
  CHECK(own.takes(345));
  CHECK_FALSE(own.takes(347));
  RangeCell above = read_range("> 345 MPa and < 620 MPa", UnitKind::stress);
  pair_by_custom(above);
  for (const char *limit : {"50 ksi", "345 MPa", "90 ksi", "620 MPa"})
    CHECK_FALSE(above.takes(read_quantity(limit, UnitKind::stress).value));
  CHECK(above.takes(350));
  CHECK(above.takes(615));
  RangeCell odd = read_range("<= 355 MPa", UnitKind::stress);
  pair_by_custom(odd);
  CHECK_FALSE(odd.takes(read_quantity("52 ksi", UnitKind::stress).value));
}
