#pragma once
// When a coupon is out of the fixture, read off the record of the pass. No mesh: testable
// with made-up samples. What kind of exit it was is decided in findings.

#include "solver/outcome/pass_sample.h"
#include "solver/setup/pass_setup.h"

#include <vector>

namespace throughbend
{
/// Leg angle below which a coupon that left the shoulders counts as unbent [deg]: half of
/// the quarter turn that each leg of a finished U has made.
constexpr double unbent_angle = 45;

/// Whether shoulder or frame presses on the coupon with a force to speak of.
bool is_held(const PassSetup &setup, const PassSample &now);

/// Whether an end is above the last tangent of its shoulder.
bool has_an_end_up(const PassSetup &setup, const PassSample &now);

/// Whether both shoulders, or the frame, press and both ends are above the last tangents.
/// What follows the last such sample is the ejection, in which a lopsided coupon turns.
bool is_loaded(const PassSetup &setup, const PassSample &now);

/// True when, at the sample, neither shoulder nor frame presses on the coupon, and
/// - both ends are below the last tangent of their shoulders, or
/// - it is unbent and narrower than the opening (`outermost_x` [mm] is its largest distance
///   from the centre): it falls.
/// A bent coupon of which one end is still up is not out, even when nothing presses: the
/// plunger comes after it.
bool is_out(const PassSetup &setup, const PassSample &now, double outermost_x);

/// Whether both legs stand nearly upright: then they go down with the plunger.
bool goes_along(const PassSample &now);

/// Whether the ram bears a hundredth of its largest force so far, or more: with less the
/// coupon only rides on the plunger, or is held by a drag alone. False of no samples.
bool still_bears(const std::vector<PassSample> &samples);

/// Whether the coupon has jumped three times since the ram last bore a hundredth of its
/// largest force: it has snapped through or tipped over, and only goes down before the
/// plunger. One that leaves takes a jump or two.
bool rides_loose(const std::vector<PassSample> &samples);

/// Travel until the higher end reaches the last tangent of its shoulder [mm], for a coupon
/// that goes along with the plunger. Very large before that and after it.
double room_to_exit(const PassSetup &setup, const PassSample &now);
} // namespace throughbend
