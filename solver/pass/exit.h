#pragma once
// When a coupon is out of the fixture, read off the record of the pass. No mesh: testable
// with made-up samples. What kind of exit it was is decided in findings.

#include "inputs/case.h"
#include "solver/pass/pass_sample.h"

#include <vector>

namespace throughbend
{
/// True when, after the last sample,
/// - both ends are past the last point where a shoulder can touch them, or
/// - nothing but the plunger touches a coupon narrower than the opening (`outermost_x` [mm]
/// is
///   its largest distance from the centre): it falls, or
/// - it is bent, between or past the shoulders, and loose: one end is past and the force
/// has
///   gone, or no force at all is left to push it; its weight or the next touch takes it
///   out.
bool is_out(const Case &c, const std::vector<PassSample> &samples, double outermost_x);

/// Travel until the higher end reaches the last point where a shoulder can touch it [mm];
/// the legs are nearly upright there and go down with the plunger. Very large before that.
double room_to_exit(const Case &c, const PassSample &now);
} // namespace throughbend
