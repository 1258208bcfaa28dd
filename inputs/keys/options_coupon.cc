// Keys of the sections case and coupon.

#include "inputs/keys/option_sections.h"
#include "inputs/keys/option_words.h"

namespace throughbend
{
using namespace option_words;

void add_coupon_options(Options &o)
{
  add(o, entry("case.title", TextSlot{at(&Case::title)}, "A line that names the pass."));
  add(o, entry("case.lesson", TextSlot{at(&Case::lesson)},
               "One sentence on what the pass shows. Reports print it below the finding."));
  add(o, entry("case.chapter", TextSlot{at(&Case::chapter)},
               "Heading of the pass in an index of several runs."));

  add(o, length("coupon.length", between(5, 3000), at(&Case::coupon, &Coupon::length),
                "Length of the coupon, along the bend."));
  add(o, length("coupon.width", between(1, 1000), at(&Case::coupon, &Coupon::width),
                "Width of the coupon, across the bend."));
  add(o, length("coupon.thickness", between(0.2, 150),
                at(&Case::coupon, &Coupon::thickness), "Thickness of the coupon."));
  add(o, length("coupon.offset", between(-500, 500), at(&Case::coupon, &Coupon::offset),
                "Distance of the coupon's centre from the plunger's centre, positive to "
                "the right.")
             .otherwise("0 mm"));
  add(o, length("coupon.taper", between(-100, 100), at(&Case::coupon, &Coupon::taper),
                "Thickness at the right end minus thickness at the left end. The convex "
                "face stays straight.")
             .otherwise("0 mm"));
  add(o,
      length("coupon.edge_radius", between(0, 75), at(&Case::coupon, &Coupon::edge_radius),
             "Radius of the four long edges. Only 3D models use it; plane models and "
             "`check` assume sharp edges, and their force is a few per cent too large. "
             "For a chamfer give 1.5 times its leg: that removes the same amount of "
             "metal.")
          .otherwise("0 mm"));
}
} // namespace throughbend
