#include "solver/screening/plastic_moment.h"

#include <cmath>

namespace throughbend
{
double width_factor(const WidthState state)
{
  return state == WidthState::narrow ? 1. : 2 / std::sqrt(3.);
}

double plastic_moment(const double yield, const double width, const double thickness,
                      const WidthState state)
{
  return width_factor(state) * yield * width * thickness * thickness / 4;
}

double moment_share(const double curvature)
{
  return curvature < 1 ? 2 * curvature / 3 : 1 - 1 / (3 * curvature * curvature);
}
} // namespace throughbend
