#pragma once
// What a pass is told to do where the ram's force runs out.

namespace throughbend
{
enum class AtCapacity
{
  go_on, ///< with a ram of any force, to find what the coupon would take, and back
  stop
};
} // namespace throughbend
