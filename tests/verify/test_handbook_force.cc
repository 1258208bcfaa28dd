// Peak force of the guided bend against the formula that handbooks give for V and air
// bending. A plausibility check.

#include "tests/verify/ladder.h"
#include "tests/verify/pass_figures.h"
#include "tests/verify/small_jig.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;

TEST_CASE("The peak force is what handbooks say", "[verify]")
{
  Rung rung("handbook_force", "Peak force against the handbook's bending formula",
            "F = K w t^2 UTS / opening, K 1.2 to 1.33 for V and air bending (Kalpakjian & "
            "Schmid; Groover; ASM Handbook 14B; Lange 1985; from memory)");
  Case c               = small_jig(0.1);
  c.material.flow      = mild_steel();
  c.friction.plunger   = 0.1;
  c.ram.stroke         = 45;
  const PassRecord run = push(c);
  // Considere: the load's maximum on s(p) exp(-p), where p = n - e0.
  const FlowCurve &flow     = c.material.flow;
  const double     p        = flow.exponent - flow.prestrain;
  const double     strength = flow.stress(p) * std::exp(-p);
  const double     K        = peak(run).force * c.fixture.shoulders.opening /
                   (c.coupon.thickness * c.coupon.thickness * strength);
  rung.row("tensile strength of the curve [MPa]", 426, strength, within(0.5));
  rung.row("K at friction 0.1, lower bound [-]", 1.2, K, no_less());
  rung.row("K at friction 0.1, upper bound [-]", 1.33, K, no_more());
  rung.note("A plausibility check: the formula knows neither friction nor radii. Greased "
            "steel is taken as 0.1.");
}
