// Whole passes of flawed coupons: what symmetry, order and the limit of no flaw demand. The
// cases are invented.

#include "tests/support/reference_case.h"
#include "tests/verify/pass_figures.h"

#include <catch2/catch.hpp>

using namespace throughbend;

namespace
{
Case welded()
{
  Case c                = reference_case();
  c.mesh.level          = MeshLevel::quick;
  c.weld.preparation    = Preparation::single_v;
  c.weld.bend           = BendKind::root;
  c.weld.root_opening   = 3;
  c.weld.root_face      = 1.5;
  c.weld.included_angle = 1.0472;
  c.weld.transition     = 1;
  c.mesh.model          = ModelChoice::full;
  c.ram.stroke          = 12;
  return c;
}

double opening_at(const PassRecord &run, double travel)
{
  return at(run, travel,
            [](const PassSample &s)
            { return s.flaws.empty() ? 0. : s.flaws.front().opening; });
}
} // namespace

TEST_CASE("A deeper root flaw opens further and takes less force; a shallow one is next to "
          "none",
          "[verify]")
{
  const PassRecord sound = push(welded());
  double           force = force_at(sound, 11), opening = 0;
  for (const double depth : {0.2, 1., 2., 3.5})
  {
    Case c                     = welded();
    c.flaws.each.front().depth = depth;
    const PassRecord run       = push(c);
    INFO("depth " << depth);
    CHECK(run.finding.outcome == Outcome::stroke_out);
    if (depth == 0.2) // a fiftieth of the thickness: the force knows nothing of it
      CHECK(force_at(run, 11) == Approx(force).epsilon(0.01));
    CHECK(force_at(run, 11) < force);
    CHECK(opening_at(run, 11) > opening);
    force   = force_at(run, 11);
    opening = opening_at(run, 11);
    // In the middle of a symmetric coupon: it opens without leaning to a side.
    for (const PassSample &sample : run.samples)
    {
      CHECK(std::abs(sample.walk) < 2e-3);
      CHECK(sample.flaws.front().overlap == 0);
    }
  }
  // Rigid halves hinged at the far face would open by the turn of both legs times the
  // depth; a ligament that yields puts the hinge below that, and bends the legs besides.
  CHECK(opening > 0.5);
  CHECK(opening < 10 * 2 * std::sin(0.6));
}

TEST_CASE("A root flaw in a face bend is pressed shut and passes the load on", "[verify]")
{
  Case c                 = welded();
  c.weld.bend            = BendKind::face;
  const PassRecord sound = push(c);
  c.flaws.each.front()   = {FlawLine::centre, BendKind::root, 0, 2, 0};
  const PassRecord shut  = push(c);
  // A gap of 0.05 mm closes while the coupon still bends little: 2 mm below the face a
  // strain of 10 % over its width and that of its lips' surroundings is more than enough.
  c.flaws.each.front().width = 0.05;
  const PassRecord gap       = push(c);
  for (const PassRecord *run : {&shut, &gap})
  {
    CHECK(run->finding.outcome == Outcome::stroke_out);
    for (const double travel : {4., 8., 11.})
      CHECK(force_at(*run, travel) ==
            Approx(force_at(sound, travel)).epsilon(run == &shut ? 0.005 : 0.03));
    for (const PassSample &sample : run->samples)
      CHECK(sample.flaws.front().overlap < 5e-4 * c.coupon.thickness);
  }
  for (const PassSample &sample : shut.samples)
    CHECK(sample.flaws.front().opening < 0.02);
  CHECK(gap.samples.front().flaws.front().opening > 0.045);
  CHECK(gap.samples.back().flaws.front().overlap > 0);
}

TEST_CASE("A flaw in the middle needs half a model, open or pressed shut", "[verify]")
{
  for (const BendKind bend : {BendKind::root, BendKind::face})
  {
    Case c               = welded();
    c.weld.bend          = bend;
    c.flaws.each.front() = {FlawLine::centre, BendKind::root, 0, 2, 0};
    const PassRecord all = push(c);
    c.mesh.model         = ModelChoice::automatic;
    const PassRecord few = push(c);
    CHECK(few.dofs < 0.6 * all.dofs);
    for (const double travel : {4., 8., 11.})
    {
      CHECK(force_at(few, travel) == Approx(force_at(all, travel)).epsilon(2e-3));
      CHECK(opening_at(few, travel) ==
            Approx(opening_at(all, travel)).epsilon(2e-3).margin(1e-4));
    }
  }
}

TEST_CASE("A side wall that did not fuse opens on its own side", "[verify]")
{
  Case c               = welded();
  c.flaws.each.front() = {FlawLine::right, BendKind::root, 0, 3, 0};
  const PassRecord run = push(c);
  CHECK(run.finding.outcome == Outcome::stroke_out);
  CHECK(opening_at(run, 11) > 0.1);
  c.flaws.each.front().line = FlawLine::left;
  const PassRecord mirrored = push(c);
  CHECK(force_at(mirrored, 11) == Approx(force_at(run, 11)).epsilon(2e-3));
  CHECK(opening_at(mirrored, 11) == Approx(opening_at(run, 11)).epsilon(5e-3));
}
