#pragma once
// The drawing of fit-metal: the test's points with every law above, residuals below.

#include "postprocess/metal/metal_text.h"

#include <string>

namespace throughbend
{
/// An SVG document.
std::string metal_drawing(const FittedMetal &metal);
} // namespace throughbend
