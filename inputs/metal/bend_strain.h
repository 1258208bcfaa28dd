#pragma once
// How far a bend strains the metal of its convex face, to compare with what a tension test
// backs: before any pass, from thickness and plunger.

#include "inputs/metal/tension_test.h"

#include <string>

namespace throughbend
{
/// Equivalent plastic strain of the outermost fibre [-].
struct BendStrain
{
  double nominal = 0; ///< of a bar that lies on the nose, middle unstretched
  double largest = 0; ///< what passes show at most, about
};

/// nominal = 2 / sqrt(3) ln(1 + t / (A + t)), plane strain, elastic strain left out. The
/// first touch kinks the bar: passes of the reference case show 1.19 times the nominal
/// (0.2505, tests/verify), and check's band for the yard's plate reaches to 1.37 times
/// (28.3 % of stretch). The less a metal hardens the more it is; taken here: 1.4 times.
BendStrain bend_strain(double plunger_width, double thickness); ///< [mm]

/// Whether the test backs the bend, and if not how unsure the flow stress is there.
std::string backing_text(const TensionTest &test, const BendStrain &bend,
                         BeyondNecking which);
} // namespace throughbend
