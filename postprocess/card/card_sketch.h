#pragma once
// The fixture from the side, for its card: plunger, coupon, shoulders and frame to scale,
// and thick marks where grease belongs. A picture to find the places by, without
// dimensions; postprocess/drawing/fixture_drawing draws for those who build.

#include "inputs/case/case.h"

#include <string>

namespace throughbend
{
/// An SVG element that fills its box; the coupon is that of the case.
std::string card_sketch(const Case &c);
} // namespace throughbend
