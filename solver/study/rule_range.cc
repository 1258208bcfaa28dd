#include "solver/study/rule_range.h"

#include "inputs/catalogue/fixture_by_rule.h"
#include "inputs/text/input_error.h"

#include <cmath>

namespace throughbend
{
std::optional<Range> rule_range(const Case &c, const std::string &key)
try
{
  if (c.fixture.rule.empty())
    return std::nullopt;
  const RuleComparison comparison = compare_with_rule(built_in_rules(), c.fixture.rule, c);
  if (key == "coupon.thickness")
  {
    Range range = comparison.by_rule.rule.thickness.range;
    if (std::isinf(range.low) && std::isinf(range.high))
      return std::nullopt;
    if (std::isfinite(range.high))
      range.high = std::max(range.high, comparison.by_rule.rule.thickness.upper());
    return range;
  }
  for (const ComparisonRow &row : comparison.rows)
    if (row.key == key)
      for (const RuleDimension &dimension : comparison.by_rule.dimensions)
        if (dimension.words == row.words)
        {
          if (dimension.limited())
            return dimension.limits;
          Range about;
          about.low  = dimension.value - comparison.tolerance;
          about.high = dimension.value + comparison.tolerance;
          return about;
        }
  return std::nullopt;
}
catch (const InputError &)
{
  return std::nullopt;
}
} // namespace throughbend
