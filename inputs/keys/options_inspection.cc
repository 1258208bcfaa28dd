// Keys of the section inspection: what is measured on the bent coupon.

#include "inputs/keys/option_sections.h"
#include "inputs/keys/option_words.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
using namespace option_words;

namespace
{
constexpr double eighth_of_an_inch = 3.175; // [mm]

/// Four thicknesses: more than weld and heat-affected bands usually take, so that welds of
/// several widths compare over one length, and less than the bend of half a turn, whose
/// middle fibre is pi (A + t) / 2 long, for every plunger wider than A = 1.6 t. On a short
/// coupon, what there is.
double usual_gauge(const Case &c)
{
  return std::clamp(c.coupon.length / 2 - std::abs(c.weld.offset), 0.1,
                    4 * c.coupon.thickness);
}
} // namespace

void add_inspection_options(Options &o)
{
  const auto inspection = [](auto member) { return at(&Case::inspection, member); };
  add(o, length("inspection.gauge_length", between(0.1, 3000),
                inspection(&Inspection::gauge_length),
                "Length on the convex face, centred on the weld, over which the mean "
                "elongation is taken.")
             .only("with a weld", {"weld.preparation", "weld.width", "weld.haz_width"},
                   [](const Case &c) { return c.weld.present(); })
             .otherwise_by("4t, at most from the weld to the nearer end",
                           {"coupon.thickness", "coupon.length", "weld.offset"},
                           [](const Case &c) { return usual_gauge(c); }));
  // A wire of 1/8 in that must not go in ends a guided bend in American rules: from memory.
  add(o, length("inspection.wire_diameter", between(0, 50),
                inspection(&Inspection::wire_diameter),
                "Diameter of the wire used to gauge the gap between nose and coupon at "
                "the end; 0 mm = none.")
             .otherwise_by("1/8 in with a weld, else 0 mm",
                           {"weld.preparation", "weld.width", "weld.haz_width"},
                           [](const Case &c)
                           { return c.weld.present() ? eighth_of_an_inch : 0.; }));
  // AWS D1.1:2015, 4.9.3.3 (surface_limits.csv has it and others, each with its source).
  add(o, length("inspection.opening_limit", above(0, 1000),
                inspection(&Inspection::opening_limit),
                "Allowed opening of a flaw on the convex face. throughbend rules lists "
                "the limits of codes.")
             .otherwise("3 mm")
             .only("with a flaw", {"flaw.depth"},
                   [](const Case &c) { return c.flaws.present(); }));
}
} // namespace throughbend
