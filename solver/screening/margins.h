#pragma once
// When a screened figure is called ok, close or no: every margin in one place, with its
// reason. Bands of the formulas themselves stand beside the formulas.

namespace throughbend::margins
{
/// Room beside a leg over thickness [-]: bent edges stand out of the face by up to 0.13 t
/// on a narrow coupon (thin-strip theory of anticlastic bending, computed for this
/// project), a good part of it on the concave side. Published rules leave 1/6 t for a 3/8
/// in coupon.
constexpr double clearance_share = 0.10;

/// A leg that just fills its room is pinched: bending curls its edges [mm].
constexpr double no_room = 1e-3;

/// Force and stroke: share of the rating that may be used without a second thought; gauge,
/// friction and metal spread by some ten per cent (common practice, no source).
constexpr double rating_share = 0.9;

/// Leg angle from which the U is finished by the room beside the plunger, even if the ends
/// have left the shoulders' rounds [deg]. Springback is some 2 to 5 deg a leg.
constexpr double formed_angle = 85, nearly_formed_angle = 75;

/// The springback of a leg that these angles and more_travel are made for [deg]. A coupon
/// that springs back by more leans in the gap, leaves with its legs farther from upright,
/// and its last end needs more travel: 12 passes of springy metals (aluminium and hard
/// steel, 7 to 13 deg) needed up to 6.6 % beyond more_travel, at most 0.9 % a degree.
constexpr double usual_springback = 5, springy_travel = 0.01; // per degree beyond it [-]

/// How far off centre a coupon can be laid by eye, over thickness [-] (common practice, no
/// source).
constexpr double laid_by_eye = 0.15;
/// Travel of the last end over that of a U with upright legs [-]. Legs that are not quite
/// upright shift the ends by less than this (tests/verify/screening_table.md; of 65 passes
/// drawn at random one needed 3.8 % more). Without friction, or with wide clearance, the
/// coupon runs ahead of the nose and needs less; so does one off centre that slides along
/// the nose until it is centred.
constexpr double more_travel = 0.045, less_travel = 0.1;
} // namespace throughbend::margins
