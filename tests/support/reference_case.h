#pragma once
// Reference case R: a 10 mm coupon bent between fixed shoulders, computed twice by
// unrelated methods before this project had a solver (implicit 8-node elements; explicit
// dynamics with one-point elements). Only the case; the values stand beside the tests.

#include "inputs/case/case.h"
#include "tests/support/flow_curves.h"

namespace throughbend
{
inline Case reference_case()
{
  Case c;
  c.title                           = "reference case R";
  c.coupon                          = {160, 38, 10, 0};
  c.material.young                  = 210000;
  c.material.poisson                = 0.3;
  c.material.density                = 7850;
  c.material.flow                   = reference_plate();
  c.fixture.plunger                 = {40, 20};
  c.fixture.shoulders.kind          = ShoulderKind::solid;
  c.fixture.shoulders.radius        = 20;
  c.fixture.shoulders.opening       = 63.2;
  c.fixture.shoulders.depth         = 45;
  c.fixture.shoulders.bottom_radius = 5;
  c.friction                        = {0.12, 0.12, 0.12};
  c.ram                             = {1e9, 150};
  c.solver.residual_tolerance       = 1e-3;
  c.solver.penetration_tolerance    = 5e-4;
  c.solver.regularisation           = 1e-4;
  c.solver.step_limit               = 4000;
  return c;
}
} // namespace throughbend
