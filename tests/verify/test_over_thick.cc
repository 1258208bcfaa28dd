// Whole passes of coupons that are thicker than the room beside the plunger: their legs are
// ironed at the force that the slip-line field of a flat slab has, the force does not
// ripple as the cells pass the shoulder, and the ram's work goes where the record says.

#include "tests/verify/ironed_stretch.h"
#include "tests/verify/ladder.h"
#include "tests/verify/slip_lines.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdio>

using namespace throughbend;

namespace
{
constexpr double R = 19.05, room = 11.15, width = 38.1, yield = 250;

/// The conditions of the rung `ironing`: perfectly plastic, a plunger without friction.
Case slab(double over, double mu)
{
  Case c                      = over_thick(room + over);
  c.coupon                    = {170, width, room + over, 0};
  c.material.young            = 200000;
  c.material.flow             = perfectly_plastic(yield);
  c.fixture.plunger           = {38.1, 19.05};
  c.fixture.shoulders.radius  = R;
  c.fixture.shoulders.opening = 38.1 + 2 * room;
  c.friction                  = {0, mu, 0};
  return c;
}

double slip_line_force(double over, double mu) ///< of both legs [kN]
{
  const double two_k = 2 * yield / std::sqrt(3.);
  const double bite  = R * std::sin(std::acos(1 - over / R));
  return 2 * width * two_k * slip_lines::indentation_pressure((2 * room + over) / bite) *
         (over + mu * bite) / 1000;
}
} // namespace

TEST_CASE("A pass irons over-thick legs as the slip lines say, without ripple", "[verify]")
{
  Rung       rung("over_thick", "Passes of over-thick coupons",
                  "Slip lines: Hill (1950) The Mathematical Theory of Plasticity, slab between "
                        "narrow smooth dies, its integral evaluated here, as in the rung `ironing`. No "
                        "ripple and balanced work: by reasoning");
  const auto rows = [&](const std::string &name, const IronedStretch &found, double ripple)
  {
    rung.row("ripple of the ram force, " + name + " [-]", 0, found.ripple, no_more(ripple));
    rung.row("ram work less energies over the ironed stretch / ram work, " + name + " [-]",
             0, found.balance, within(0.005));
  };
  for (const double mu : {0., 0.1})
  {
    char name[40];
    std::snprintf(name, sizeof name, "1.00 mm over, mu %.2f", mu);
    // Over this travel the leg is drawn; then its end comes.
    const IronedStretch found = ironed_stretch(push(slab(1, mu)), 62, mu > 0 ? 80. : 72.);
    rung.row(std::string("force of both legs, slip-line pressure on the bite, ") + name +
                 " [kN]",
             slip_line_force(1, mu), found.force / 1000, within_percent(15));
    rows(name, found, 0.05);
  }
  for (const double thickness : {12., 12.4})
  {
    char name[40];
    std::snprintf(name, sizeof name, "%.1f mm in 11.6 mm", thickness);
    rows(name, ironed_stretch(push(over_thick(thickness)), 65, 85), 0.02);
  }
  rung.note("The leg is straight where it is drawn, and no friction acts on the plunger's "
            "side, so the ram force is that of drawing both legs. The tolerance is that of "
            "the rung `ironing`, which leaves out the bulge before the shoulder.");
  rung.note(
      "A ripple of 2 % is what the default mesh is laid out for, not a property of any "
      "coupon. Metal without hardening ripples more: its tolerance is that of the "
      "rung `ironing`. The series over thickness, mesh and step stands in "
      "`ironing_series.md`.");
}

TEST_CASE("Cells for a leg that all but fills its room tell the strain of the others",
          "[verify]")
{
  // A quarter of a millimetre of room changes the bend little; the cells for ironing begin
  // in between. With an innermost layer of half the thickness they told 5 % less strain.
  for (const MeshLevel level : {MeshLevel::quick, MeshLevel::standard})
  {
    Case c                      = reference_case();
    c.mesh.level                = level;
    c.fixture.shoulders.opening = c.fixture.plunger.width + 2 * 10.5;
    const PassRecord roomy      = push(c);
    c.fixture.shoulders.opening = c.fixture.plunger.width + 2 * 10.25;
    const PassRecord tight      = push(c);
    INFO("level " << int(level));
    CHECK(largest_outer_strain(tight) == Approx(largest_outer_strain(roomy)).epsilon(0.03));
  }
}
