#pragma once
// What all pictures of one run share, so that they can be laid side by side: the part of
// the plane they show and the strains at the ends of their colour maps.

#include "postprocess/shapes/pass_shapes.h"

namespace throughbend
{
struct ShapeScale
{
  PlaneVector low, high;               ///< corners of what is shown [mm]
  double      largest_axial   = 0;     ///< map of axial strain: from -this to this [-]
  double      largest_plastic = 0;     ///< map of plastic strain: from 0 to this [-]
  bool        short_at_flaws  = false; ///< there is more strain beside a flaw than that
};

/// Where a colour map ends for a largest strain: the next larger 1, 1.5, 2, 2.5, 3, 4, 5, 6
/// or 8 times a power of ten.
double colour_end(double largest);

/// Holds every shape and the shoulders; of the plunger as much as the coupon reaches.
/// Within half of a flaw's height of its lips strains do not count: at a tip they are as
/// large as the cells are small, and would leave one pale colour for all the rest.
ShapeScale shape_scale(const PassShapes &shapes);

/// As wide as `all`, so that pictures can be laid side by side, and only as high as one
/// shape and the tools about it need.
ShapeScale level_scale(const ShapeScale &all, const PassShapes &shapes, const Shape &shape);

/// The run's colours, and only as much of the plane as one shape and the tools about it
/// need.
ShapeScale closer_scale(const PassShapes &shapes, const Shape &shape);
} // namespace throughbend
