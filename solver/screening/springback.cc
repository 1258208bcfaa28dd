#include "solver/screening/springback.h"

namespace throughbend
{
double gardiner_ratio(const double radius, const double yield, const double young,
                      const double thickness)
{
  const double x = radius * yield / (young * thickness);
  return 4 * x * x * x - 3 * x + 1;
}

double elastic_curvature(const double moment, const double young, const double poisson,
                         const double thickness)
{
  return 12 * moment * (1 - poisson * poisson) /
         (young * thickness * thickness * thickness);
}
} // namespace throughbend
