// What a rule's fixture is told beside its figures: coupons that do not fit its jig.

#include "inputs/catalogue/fixture_by_rule.h"
#include "postprocess/words/rule_text.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
constexpr double inch = 25.4; // exact by definition

RuleFixture jig_1104(const double thickness)
{
  RuleRequest request;
  request.thickness = thickness;
  return fixture_by_rule(built_in_rules(), "api-1104-jig", request);
}

std::string text_of(const RuleFixture &fixture)
{
  return fixture_text({fixture}, {}, {});
}

const std::string no_fit = "does not fit";
} // namespace

TEST_CASE("a coupon that is too thick for a rule's fixed jig is told so, with the limit",
          "[unit][rules]")
{
  // Plunger 90 mm, die 120 mm: (120 - 90) / 2 = 15 mm.
  const RuleFixture thick = jig_1104(18);
  REQUIRE(thick.clearance() == -3);
  CHECK_FALSE(thick.fits());
  REQUIRE_FALSE(thick.cautions.empty());
  CHECK(thick.cautions.front() ==
        "A coupon 18 mm (0.709 in) thick does not fit the jig of this rule: from 15 mm "
        "(0.591 in) on, a leg has no room between plunger and shoulder.");
  CHECK_THAT(text_of(thick), Contains(no_fit));
  // No room at all is not enough either; in inch it is (4-5/8 - 3-1/2) / 2 = 9/16.
  CHECK_THAT(text_of(jig_1104(15)), Contains(no_fit));
  CHECK_THAT(text_of(jig_1104(9 * inch / 16)), Contains(no_fit) && Contains("9/16 in"));
  for (const double thickness : {5., 12., 14.9, inch / 2})
    CHECK_THAT(text_of(jig_1104(thickness)), !Contains(no_fit));
}

TEST_CASE("a rule whose opening follows the coupon has room for it", "[unit][rules]")
{
  for (const FixtureRule &row : built_in_rules().rows())
    for (const double thickness : {2., 6., 10., 3 * inch / 8})
    {
      if (row.rule == "api-1104-jig")
        continue;
      RuleRequest request;
      request.thickness  = thickness;
      request.former     = 8 * thickness;
      request.elongation = 0.2;
      INFO(row.rule << " at " << thickness << " mm");
      for (const RuleFixture &way : fixtures_by_rule(built_in_rules(), row.rule, request))
        for (const std::string &caution : way.cautions)
          CHECK_THAT(caution, !Contains(no_fit));
    }
}
