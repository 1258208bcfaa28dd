#pragma once
// How far along the coupon its legs do what: where one is ironed, and from where on it
// stays straight. Distances from the bend's centre along the flat coupon. Makes no mesh.

#include "inputs/case/case.h"

namespace throughbend
{
/// Whether a leg is as thick as the room between plunger and shoulder, or nearly so: it is
/// then drawn down, and gets finer cells where it is. Plane models only; in 3D the ripple
/// of the ram force tells what the coarser cells do.
bool leg_is_ironed(const Case &c);

/// Where the cells for ironing begin: farther in, the coupon lies round the nose [mm].
double ironed_from(const Case &c);

/// Half the thickness change of a taper added: what has to fit beside the plunger [mm].
double thickest(const Case &c);

/// Room beside the plunger for a leg [mm].
double room_beside_plunger(const Case &c);

/// Where the cells for ironing end [mm]: at infinity where a leg is too thick for the room,
/// else where the curl beside the bend does.
double ironed_to(const Case &c);

/// From here on a leg is only pushed along, never bent past yield [mm].
double straight_from(const Case &c);
} // namespace throughbend
