#include "solver/mechanics/contact_law.h"

#include <cassert>
#include <cmath>

namespace throughbend
{
NormalResponse normal_response(double gap, const ContactStiffness &stiffness)
{
  assert(stiffness.onset >= 0 && stiffness.normal > 0 && "springs need a stiffness");
  const double d = stiffness.band - gap, k = stiffness.normal, onset = stiffness.onset;
  if (d <= 0)
    return {};
  if (d < onset)
    return {k * d * d / (2 * onset), k * d / onset, k * d * d * d / (6 * onset)};
  const double firm = d - onset / 2;
  return {k * firm, k, k * firm * firm / 2 + k * onset * onset / 24};
}

FrictionResponse friction_response(const Tangential &old_stress, const Tangential &slip,
                                   double pressure, double friction,
                                   const ContactStiffness &stiffness)
{
  assert(pressure >= 0 && friction >= 0 && "friction would push the coupon along");
  FrictionResponse response;
  const double     k     = stiffness.tangential;
  const Tangential trial = {old_stress[0] - k * slip[0], old_stress[1] - k * slip[1]};
  const double     size  = std::hypot(trial[0], trial[1]);
  const double     limit = friction * pressure;
  if (size <= limit)
  {
    response.stress        = trial;
    response.by_slip[0][0] = response.by_slip[1][1] = -k;
    return response;
  }
  const Tangential direction = {trial[0] / size, trial[1] / size};
  response.slipping          = true;
  for (int i = 0; i < 2; ++i)
  {
    response.stress[i]      = limit * direction[i];
    response.by_pressure[i] = friction * direction[i];
    for (int j = 0; j < 2; ++j)
      response.by_slip[i][j] = -k * limit / size * ((i == j) - direction[i] * direction[j]);
  }
  return response;
}
} // namespace throughbend
