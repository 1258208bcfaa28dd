#pragma once
// How far our value may be from a published one, and whether it is. For the rungs of the
// ladder and for the tool that keeps their table.

#include <cmath>

namespace throughbend
{
/// How far ours may be from the published value.
struct Tolerance
{
  enum class Measure
  {
    relative, ///< |ours - published| <= size |published|
    absolute, ///< |ours - published| <= size
    at_most,  ///< published is an upper bound: ours <= published + size
    at_least  ///< published is a lower bound: ours >= published - size
  };
  Measure measure = Measure::relative;
  double  size    = 0;

  bool allows(double ours, double published) const
  {
    switch (measure)
    {
    case Measure::relative:
      return std::abs(ours - published) <= size * std::abs(published);
    case Measure::absolute:
      return std::abs(ours - published) <= size;
    case Measure::at_most:
      return ours <= published + size;
    case Measure::at_least:
      break;
    }
    return ours >= published - size;
  }
};

inline Tolerance within_percent(double percent)
{
  return {Tolerance::Measure::relative, percent / 100};
}
inline Tolerance within(double difference)
{
  return {Tolerance::Measure::absolute, difference};
}
inline Tolerance no_more(double slack = 0)
{
  return {Tolerance::Measure::at_most, slack};
}
inline Tolerance no_less(double slack = 0)
{
  return {Tolerance::Measure::at_least, slack};
}
} // namespace throughbend
