#pragma once
// Numbers as a card shows them: few digits, and rounded to the side on which nobody is
// misled: what a fixture takes at most down, what a ram must have at least up.

#include "inputs/units/units.h"
#include "solver/screening/screening.h"

#include <string>

namespace throughbend
{
enum class Rounded
{
  down, ///< limits that must not be passed
  up    ///< needs that must be met, and bounds
};

/// `10.5 mm`, `0.41 in` (`3/8 in` if it is such a one), `36 kN`, `8.1 kip`, `345 MPa`, `50
/// ksi`, `8 m/s`, `26 ft/s`; of lengths, forces, stresses and speeds.
std::string card_figure(double value, Measure measure, Rounded rounded, UnitSystem units);

/// What card_figure prints, as a number of the inside unit [mm, N, MPa, m/s].
double card_value(double value, Measure measure, Rounded rounded, UnitSystem units);

/// Both families: `36 kN (8.1 kip)`, the given one in front.
std::string card_figures(double value, Measure measure, Rounded rounded, UnitSystem first);

UnitSystem other_units(UnitSystem units);
} // namespace throughbend
