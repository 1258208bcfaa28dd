// Whole passes of welded coupons: what symmetry demands, and that a weld off the centre
// still comes to a physical finding. The cases are invented.

#include "tests/support/reference_case.h"
#include "tests/verify/face_watch.h"

#include <catch2/catch.hpp>

using namespace throughbend;

namespace
{
Case v_welded()
{
  Case c                = reference_case();
  c.mesh.level          = MeshLevel::quick;
  c.weld.preparation    = Preparation::single_v;
  c.weld.root_opening   = 2;
  c.weld.root_face      = 1.5;
  c.weld.included_angle = 1.0472;
  c.weld.haz_width      = 3;
  c.weld.strength_ratio = 1.3;
  c.weld.haz_ratio      = 0.9;
  c.weld.transition     = 1;
  return c;
}
} // namespace

TEST_CASE("A symmetric weld: the whole coupon is its half twice, and stays symmetric",
          "[verify]")
{
  Case c                = v_welded();
  c.ram.stroke          = 45; // past the largest force
  const PassRecord half = push(c);
  c.mesh.model          = ModelChoice::full;
  const PassRecord full = push(c);
  CHECK(full.finding.outcome == half.finding.outcome);
  CHECK(peak(full).force == Approx(peak(half).force).epsilon(1e-3));
  CHECK(largest_outer_strain(full) == Approx(largest_outer_strain(half)).epsilon(1e-3));
  for (const double travel : {5., 20., 35., 44.})
    CHECK(force_at(full, travel) == Approx(force_at(half, travel)).epsilon(1e-3));
  for (const PassSample &sample : full.samples)
  {
    CHECK(std::abs(sample.walk) < 1e-3); // [mm]
    CHECK(sample.left.angle == Approx(sample.right.angle).margin(0.01));
  }
}

TEST_CASE(
    "A weak weld off the centre, a cap, a taper: the coupon walks and still comes to a "
    "physical finding",
    "[verify]")
{
  Case c                = v_welded();
  c.weld.strength_ratio = 0.8;
  c.weld.offset         = 2;
  const FaceRecord off  = push_and_look(c);
  CHECK(off.pass.finding.outcome == Outcome::through);
  // The hinge forms in the weak weld, and the plunger draws it under its nose: to the left.
  const double walked = off.pass.samples.back().walk;
  CHECK(walked < -0.1);
  CHECK(walked > -5);
  CHECK(off.at_end.peak.zone == FaceZone::weld);
  CHECK(off.at_end.weld_inside_bend > 0);

  c                       = v_welded();
  c.weld.bend             = BendKind::root;
  c.weld.cap              = {1.5, 14};
  c.weld.toe_radius       = 1;
  c.coupon.taper          = 0.3;
  const PassRecord capped = push(c);
  CHECK(capped.finding.outcome == Outcome::through);
}

TEST_CASE("A weld of the base plate's own strength changes nothing but the mesh",
          "[verify]")
{
  // Its narrow cells take other dilatation functions, so this also shows that these do not
  // lock and do not soften.
  Case c                    = reference_case();
  c.ram.stroke              = 45;
  const PassRecord plain    = push(c);
  c.weld.width              = 12;
  c.weld.haz_width          = 4;
  c.weld.transition         = 1;
  const PassRecord matching = push(c);
  CHECK(peak(matching).force == Approx(peak(plain).force).epsilon(0.01));
  CHECK(largest_outer_strain(matching) ==
        Approx(largest_outer_strain(plain)).epsilon(0.02));
}

TEST_CASE("Leaning cells of a weld as strong as its plate tell the plate's strain",
          "[verify]")
{
  // A metal without zones has one strain, whatever the mesh follows in it. Cells that lean
  // too far told 1.26 times of it on the standard mesh. On the quick one, which leans most.
  Case c                 = reference_case();
  c.mesh.level           = MeshLevel::quick;
  c.ram.stroke           = 25;
  const PassRecord plain = push(c);
  c.weld.root_opening    = 2;
  c.weld.root_face       = 1.5;
  c.weld.haz_width       = 3;
  c.weld.transition      = 1;
  struct Shape
  {
    Preparation preparation;
    double      degrees;
  };
  for (const auto &[preparation, degrees] :
       {Shape{Preparation::single_v, 60}, Shape{Preparation::single_v, 90},
        Shape{Preparation::double_v, 60}, Shape{Preparation::single_bevel, 45},
        Shape{Preparation::single_bevel, 60}})
    for (const BendKind bend : {BendKind::root, BendKind::face})
    {
      c.weld.preparation      = preparation;
      c.weld.bend             = bend;
      c.weld.included_angle   = degrees * std::acos(-1.) / 180;
      const PassRecord welded = push(c);
      INFO("preparation " << int(preparation) << ", " << degrees << " deg, bend "
                          << int(bend));
      CHECK(force_at(welded, 24) == Approx(force_at(plain, 24)).epsilon(0.01));
      CHECK(largest_outer_strain(welded) ==
            Approx(largest_outer_strain(plain)).epsilon(0.04));
    }
}
