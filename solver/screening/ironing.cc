#include "solver/screening/ironing.h"

#include <cmath>

namespace throughbend
{
double die_angle(const Ironing &i)
{
  return std::acos(1 - i.excess / i.radius) / 2;
}

double ironing_force(const Ironing &i, const double flow_stress)
{
  if (i.excess <= 0)
    return 0;
  const double draw  = 2 / std::sqrt(3.) * flow_stress * i.room;
  const double share = i.room / (i.room + i.excess);
  const double f     = i.friction / std::tan(die_angle(i));
  if (f < 1e-6) // the limit without friction
    return draw * -std::log(share);
  return draw * (1 + f) / f * (1 - std::pow(share, f));
}

double capstan_ratio(const double friction, const double angle)
{
  return std::exp(friction * angle);
}
} // namespace throughbend
