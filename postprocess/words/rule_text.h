#pragma once
// A fixture by a published rule, and a comparison with it, in words for the terminal: both
// families of units, clause, how each figure is known, cautions.

#include "inputs/catalogue/coupon_rules.h"
#include "inputs/catalogue/fixture_by_rule.h"

#include <string>
#include <vector>

namespace throughbend
{
/// What the verb fixture prints: the preferred way in full, other ways of the same rule in
/// short, coupon rules and limits of open defects of the same standard.
std::string fixture_text(const std::vector<RuleFixture>  &ways,
                         const std::vector<CouponRule>   &coupons,
                         const std::vector<SurfaceLimit> &limits);

/// Dimension by dimension with ok, close or no.
std::string comparison_text(const RuleComparison &comparison, UnitSystem units);
} // namespace throughbend
