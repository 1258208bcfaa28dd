#pragma once
// The keys of a case that say a flow curve, ready to be pasted: the same words and units as
// in an effective case, and no key that has no effect.

#include "inputs/metal/material.h"

#include <string>
#include <string_view>

namespace throughbend
{
/// How a file with such keys begins.
constexpr std::string_view metal_mark = "# Made by throughbend fit-metal";

/// `law = swift` and so on, a line each: those of the flow curve, and Young's modulus,
/// tensile strength and elongation where they are known.
std::string material_keys(const Material &material);

/// The law's figures with five significant digits, so that what is printed is what is
/// meant.
FlowCurve with_five_digits(FlowCurve curve);
} // namespace throughbend
