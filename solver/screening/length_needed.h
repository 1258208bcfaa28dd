#pragma once
// How long a coupon must and may be, and how far the plunger has to go: geometry of a
// coupon whose legs are straight and whose bend is a half round. Friction and springback
// shift none of it by much.

#include "solver/screening/bend_statics.h"

namespace throughbend
{
/// Half length at which the end still lies on the shoulder at a leg angle [mm]:
/// s = (B + t/2) beta + (L0 - Q sin beta) / cos beta, at its largest up to that angle.
/// Measured from the middle of the coupon if it lies centred.
double half_length_needed(const Case &c, double angle);

/// Leg angle at which the ends leave the shoulders [rad], up to a right angle less 0.1 deg;
/// then the U is held by the room beside the plunger alone.
double support_lost_angle(const Case &c);

/// Length with both ends on the tops of the shoulders, opening + 2 radii [mm]. Shorter ones
/// lie on the rounds. ISO 5173 asks l + 2 R (from memory).
double shortest_length(const Case &c);

/// The half length with which a side keeps its support up to a leg angle [rad], from the
/// flat coupon's on [mm].
double side_needed(const Case &c, double angle);

/// Straight part of the longer leg of the finished U, L/2 + |offset| - (B + t/2) pi/2 [mm];
/// the plunger's straight part must be longer, or the end meets its head.
double straight_leg_length(const Case &c);

/// Travel at which BOTH ends are past the last point where a shoulder touches [mm]. At a
/// travel u the nose's bottom is at t - u and its centre B higher, the legs stand upright
/// above that, and the last end to leave is that of the longer leg:
///   t - u + B + (L/2 + |offset| - (B + t/2) pi/2) = level of the last upright tangent.
/// The coupon is taken not to slide along the nose.
double travel_to_pass(const Case &c);

/// Past the last upright tangent an end still clings to the round below it, until that
/// leans by the angle of friction [mm]: r sin(atan mu).
double travel_of_clinging(const Case &c);

/// Travel after which the coupon is out: travel_to_pass and the clinging [mm].
double travel_needed(const Case &c);

/// The same for the first end to leave, that of the shorter leg [mm].
double travel_of_first_end(const Case &c);

/// What the frame's plates do to a coupon that bends between them.
enum class FrameReach
{
  clear,  ///< the ends stay inside the plates
  slips,  ///< they reach into the openings and are drawn out before they touch
  catches ///< they touch the opening's edge before they are drawn out
};

/// Straight legs: the end is drawn in as the leg turns, the leg rises where the plate
/// stands. Without a frame: clear.
FrameReach frame_reach(const Case &c);

/// Length up to which the ends stay inside the plates, 2 (distance - |offset|) [mm].
double frame_length(const Case &c);

/// How far off centre the coupon may lie so that its shorter side still has support at
/// `angle` [mm]; below 0: not even centred.
double offset_for_support(const Case &c, double angle);

/// How far off centre it may lie so that its longer side stays inside the frame [mm]; below
/// 0: not even centred. Without a frame: without a bound.
double offset_for_frame(const Case &c);
} // namespace throughbend
