#pragma once
// Equivalent plastic strain at the coupon's faces. It is computed at points inside the
// cells, the outermost of which lie deeper the coarser the mesh is (0.38 mm on the quick
// mesh of a 10 mm coupon, 0.28 mm on the standard one, 0.14 mm on the fine one); here it is
// carried on to the face itself, so that every mesh tells it of the same place.
//
// Through the depth by the parabola through a cell's three points, in 3D at the free edge
// also across the width; along the coupon by the mean of the cell, because single points
// scatter about it. On reference case R this gives for the convex face 0.2535, 0.2515 and
// 0.2523 on the three meshes. Single columns of points give 0.2560, 0.2522, 0.2526 by the
// parabola and 0.2577, 0.2529, 0.2528 by a least-squares line.

#include "solver/fem/equilibrium.h"

namespace throughbend
{
/// Largest on the convex or the concave face [-], over all ranks. `depth` [mm]: below the
/// face instead of on it, within the outermost cells, to compare with computations that
/// read their strain there.
///
/// The convex face's does not depend on the mesh. The concave face's grows with a finer one
/// (on R 0.260, 0.265, 0.277): the nose touches first along a line and leaves a mark there.
template <int dim>
double surface_plastic_strain(const CouponModel<dim> &model,
                              const Equilibrium<dim> &equilibrium, CouponFace name,
                              double depth = 0);
} // namespace throughbend
