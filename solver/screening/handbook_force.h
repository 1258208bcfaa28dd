#pragma once
// The bending force as press-shop handbooks give it, F = K w t^2 S / opening, beside which
// the beam's figure can be laid. One number for a whole family of tools, so a coarse one.

namespace throughbend
{
/// w t^2 S / opening [N], to be multiplied by K; S = tensile strength [MPa], lengths [mm].
inline double handbook_unit(double width, double thickness, double strength, double opening)
{
  return width * thickness * thickness * strength / opening;
}

/// K of guided bending [-]: 1.2 to 1.33 in handbooks for V-dies (Kalpakjian & Schmid,
/// Groover, from memory); 1.10 without friction to 1.50 at 0.3 in the independent
/// fibre-beam model of the 4t jig.
constexpr double handbook_low  = 1.10;
constexpr double handbook_high = 1.50;
} // namespace throughbend
