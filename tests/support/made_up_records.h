#pragma once
// Records of passes that never were, for what is decided on records. All numbers are
// invented.

#include "solver/outcome/pass_sample.h"
#include "tests/support/reference_case.h"

#include <vector>

namespace throughbend
{
/// A push at `travel` with the legs at `angle`, held by plunger and both shoulders.
inline PassSample pushing(double travel, double force, double angle)
{
  PassSample sample;
  sample.travel    = travel;
  sample.ram_force = force;
  sample.left = sample.right = {angle, 78, -5};
  sample.left.tip_x          = -78;
  const auto press           = [&](ToolPlace place, double normal)
  { sample.tool(place).normal = normal; };
  press(tool_at::plunger, force);
  press(tool_at::left_shoulder, force / 2);
  press(tool_at::right_shoulder, force / 2);
  return sample;
}

/// A record whose force rises by `slope` [N/mm] up to `travel`.
inline std::vector<PassSample> rising(double travel, double force, double slope,
                                      double angle)
{
  std::vector<PassSample> samples;
  for (double back = 10; back > -0.1; back -= 0.5)
    samples.push_back(pushing(travel - back, force - slope * back, angle));
  return samples;
}

/// R with a coupon too thick for the 11.6 mm beside the plunger.
inline Case too_thick()
{
  Case c             = reference_case();
  c.coupon.thickness = 12.5;
  return c;
}

/// R with a coupon that is longer than the plates are apart.
inline Case framed()
{
  Case c          = reference_case();
  c.coupon.length = 180;
  c.fixture.frame = {80, 1.5, 1.5, 10, 1};
  return c;
}

/// Both ends are at `tip_x` [mm], and this plate is pressed with 20 kN.
inline std::vector<PassSample> hooked_on(ToolPlace frame, double tip_x)
{
  auto        samples     = rising(20, 60e3, 2000, 25);
  PassSample &last        = samples.back();
  last.right.tip_x        = tip_x;
  last.left.tip_x         = -tip_x;
  last.tool(frame).normal = 20e3;
  return samples;
}
} // namespace throughbend
