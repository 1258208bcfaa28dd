#pragma once
// By what one fixture is better than another.

namespace throughbend
{
enum class ChoiceGoal
{
  least_force, ///< the largest force of any coupon is as small as can be
  most_margin  ///< the smallest margin of any coupon is as large as can be: of the ram's
               ///< force and stroke, and of the stretch where the metal's elongation is
               ///< known
};
} // namespace throughbend
