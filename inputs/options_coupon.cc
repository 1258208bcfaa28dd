// Keys of the sections case, coupon and weld.

#include "inputs/option_sections.h"
#include "inputs/option_words.h"

namespace throughbend
{
using namespace option_words;

void add_coupon_options(Options &o)
{
  const auto weld = [](auto member) { return at(&Case::weld, member); };
  add(o, entry("case.title", TextSlot{at(&Case::title)}, "A line that names the pass."));

  add(o, length("coupon.length", between(5, 3000), at(&Case::coupon, &Coupon::length),
                "Length of the coupon, along the bend."));
  add(o, length("coupon.width", between(1, 1000), at(&Case::coupon, &Coupon::width),
                "Width of the coupon, across the bend."));
  add(o, length("coupon.thickness", between(0.2, 150),
                at(&Case::coupon, &Coupon::thickness), "Thickness of the coupon."));
  add(o, length("coupon.offset", between(-500, 500), at(&Case::coupon, &Coupon::offset),
                "Coupon centre sideways of the plunger centre.")
             .otherwise("0 mm"));

  add(o, length("weld.width", between(0, 1000), weld(&Weld::width),
                "Width of the weld metal along the coupon; 0 mm = no weld metal.")
             .otherwise("0 mm"));
  add(o, length("weld.haz_width", between(0, 500), weld(&Weld::haz_width),
                "Width of each of the two heat-affected bands beside the weld.")
             .otherwise("0 mm"));
  add(o, length("weld.offset", between(-1000, 1000), weld(&Weld::offset),
                "Weld centre from the coupon's centre.")
             .otherwise("0 mm")
             .only("with a weld", {"weld.width", "weld.haz_width"},
                   [](const Case &c) { return c.weld.present(); }));
  add(o, ratio("weld.strength_ratio", between(0.1, 5), weld(&Weld::strength_ratio),
               "Flow stress of the weld metal over that of the base plate.")
             .otherwise("1")
             .only("weld.width above 0", {"weld.width"},
                   [](const Case &c) { return c.weld.width > 0; }));
  add(o, ratio("weld.haz_ratio", between(0.1, 5), weld(&Weld::haz_ratio),
               "Flow stress of the heat-affected bands over that of the base plate.")
             .otherwise("1")
             .only("weld.haz_width above 0", {"weld.haz_width"},
                   [](const Case &c) { return c.weld.haz_width > 0; }));
}
} // namespace throughbend
