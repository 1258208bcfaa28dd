#pragma once

namespace throughbend
{
/// Where a text stands relative to its point.
enum class Anchor
{
  left,
  middle,
  right
};
} // namespace throughbend
