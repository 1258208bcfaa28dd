#pragma once
// The fixture is steel: when coupons of a study differ in thickness, its dimensions stay
// those of the case's own coupon, also where they are written in thicknesses
// (`plunger.width = 4t`) or counted from the flat coupon (the frame's opening above it).

#include "solver/study/study_case.h"

#include <string>
#include <vector>

namespace throughbend
{
/// The overrides, and with them every dimension of plunger and shoulders that was told, in
/// numbers. Throws InputError for a case that cannot be used.
std::vector<std::string> with_fixture_held(const std::string              &case_text,
                                           const std::string              &name,
                                           const std::vector<std::string> &overrides);

/// The same case with the fixture held.
StudyCase with_fixture_held(const StudyCase &given);

/// Sets frame.clearance_above of a point so that the opening's upper edge stays where the
/// case has it over the case's own coupon. Does nothing without a frame, or where thickness
/// is none of the keys.
void hold_opening(const Case &own, const std::vector<StudyKey> &keys, StudyPoint &point);
} // namespace throughbend
