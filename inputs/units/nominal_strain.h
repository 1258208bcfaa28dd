#pragma once
// The strain of the outer fibre by which rules name a bend: a fibre at mid-thickness that
// keeps its length, wrapped about the plunger. It knows nothing of hardening or of a
// neutral fibre that moves; screening and simulation do.

namespace throughbend
{
/// e = t / (A + t), A = twice the inner radius = width of a plunger whose nose is a half
/// round. ASME BPVC IX, Fig. QW-466.1.
inline double nominal_strain(double plunger_width, double thickness) ///< [mm], [-]
{
  return thickness / (plunger_width + thickness);
}

/// The coupon thickness that bends to a strain: t = A e / (1 - e) [mm].
inline double thickness_for_strain(double plunger_width, double strain)
{
  return plunger_width * strain / (1 - strain);
}

/// The plunger that bends a coupon to a strain: A = t / e - t [mm].
inline double plunger_for_strain(double thickness, double strain)
{
  return thickness / strain - thickness;
}
} // namespace throughbend
