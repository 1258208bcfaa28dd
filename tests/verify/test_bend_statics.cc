// The guided bend against the statics of straight legs. A metal that hardens just enough to
// spread its bend (Y + 100 p) keeps one moment along the whole pass; the force and the leg
// angle that we compute must give that moment back.

#include "tests/verify/ladder.h"
#include "tests/verify/pass_figures.h"
#include "tests/verify/small_jig.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace throughbend;

namespace
{
constexpr double yield = 250, hardening = 100; // [MPa]
constexpr double radian = 3.14159265358979323846 / 180;

Case soft_case(double friction)
{
  Case c          = small_jig(friction);
  c.material.flow = linear_hardening(yield, hardening);
  // Follows the bend in the force while the hinge forms: energy to 0.5 %.
  c.solver.largest_step = 1;
  return c;
}

/// Fully plastic in plane strain, without hardening [N mm].
double full_moment(const Coupon &coupon)
{
  return 2 / std::sqrt(3.) * yield * coupon.width * coupon.thickness * coupon.thickness / 4;
}

double force(const PassSample &s)
{
  return s.ram_force;
}

std::string degrees(double angle)
{
  return std::to_string(std::lround(angle)) + " deg";
}
} // namespace

TEST_CASE("Force and leg angle of a bend that hardly hardens give one and the same moment",
          "[verify]")
{
  Rung rung(
      "bend_statics", "Straight-leg statics of the guided bend",
      "Elementary statics of two straight legs tangent to nose and shoulders, "
      "F = 2 M (cos b + mu sin b)/(a + mu t/2) (the same in Troive 2017, J. Phys. Conf. "
      "Ser. 896, 012006, abstract read); moment of the bent section from an independent "
      "integration over the thickness of finite plane-strain bending (computed), 1.042 "
      "M_p between its 0.9844 at H = 0 and 1.5638 at H = 1000 MPa");
  rung.note(
      "Jig of 38.1/60.3 mm with radii of 19.05 mm, coupon 9.525 x 38.1 x 152.4 mm, E "
      "200 GPa, 250 + 100 p MPa, friction on the shoulders alone. Without any hardening "
      "the bend gathers in kinks whose place depends on the mesh.");

  const PassRecord   free = push(soft_case(0));
  const StraightLegs legs(free.c);
  const double       M_p    = full_moment(free.c.coupon);
  const auto         moment = [&](const PassRecord &run, double angle, double friction)
  { return at_angle(run, angle, force) / legs.force_of_moment(angle * radian, friction); };

  constexpr double settled = 0.9844 + hardening / 1000 * (1.5638 - 0.9844);
  for (const double angle : {30., 40., 50., 60., 70., 75., 80.})
    rung.row("moment from force and angle / M_p, no friction, " + degrees(angle), settled,
             moment(free, angle, 0) / M_p, within_percent(6));
  for (const double angle : {20., 30., 40., 50., 60., 70., 80.})
    rung.row("travel at a leg angle of " + degrees(angle) + ", no friction [mm]",
             legs.travel(angle * radian),
             at_angle(free, angle, [](const PassSample &s) { return s.travel; }),
             within(angle < 40 ? 0.25 : 0.1));
  rung.note(
      "6 % in the moment: an elastic leg turns by about half a degree between nose and "
      "shoulder, which takes 2 %, and the shoulder's line of contact, less than a "
      "millimetre wide, makes the force swing by 2 % as it passes from face to face of "
      "the cells. At 20 deg the coupon has not yet come to lie on the nose up to the "
      "leg's tangent: the formula does not hold and is not asked, and the travel is "
      "that much smaller.");

  double work = 0, turned = 0;
  for (std::size_t i = 1; i < free.samples.size(); ++i)
  {
    const PassSample &a = free.samples[i - 1], &b = free.samples[i];
    if (a.right.angle < 30 || b.right.angle > 80)
      continue;
    work += (a.ram_force + b.ram_force) / 2 * (b.travel - a.travel);
    turned += (b.right.angle - a.right.angle) * radian;
  }
  rung.row("ram work over twice the angle turned from 30 to 80 deg / M_p", settled,
           work / (2 * turned) / M_p, within_percent(3));

  const double     friction = 0.2;
  const PassRecord rubbed   = push(soft_case(friction));
  for (const double angle : {40., 50., 60.})
    rung.row("moment from force and angle / M_p, friction 0.2, " + degrees(angle), settled,
             moment(rubbed, angle, friction) / M_p, within_percent(6));
  for (const double angle : {70., 75., 80.})
  {
    const double M = moment(rubbed, angle, friction);
    const double N =
        M / (legs.arm(angle * radian) + friction * free.c.coupon.thickness / 2);
    rung.row("same, friction 0.2, lower bound, " + degrees(angle), settled, M / M_p,
             no_less(0.06 * settled));
    rung.row("same, friction 0.2, upper bound with the load spread, " + degrees(angle),
             settled + N * free.c.coupon.thickness / 4 / M_p, M / M_p, no_more());
  }
  rung.note(
      "With friction the pull along the legs unloads the crown (its moment is less by "
      "the pull times the depth of the bend), so the moment peaks where the nose "
      "touches. A peak of slope N is met by a hinge that lies about t/4 beside it, "
      "since a bar spreads a line load over its thickness: the moment at the peak may "
      "be higher by N t/4. On a finer mesh (6 layers, 0.8 mm) it is the same.");

  rung.row("largest energy error, no friction [-]", 0, largest_energy_error(free),
           no_more(0.005));
  rung.row("largest energy error, friction 0.2 [-]", 0, largest_energy_error(rubbed),
           no_more(0.005));
}
