#pragma once
// The coupon as a deal.II mesh: cells from a CouponGrid, zones as material ids, faces with
// names. Conforming quadrilaterals or hexahedra, the whole mesh on every rank.

#include "meshes/coupon_grading.h"

#include <deal.II/grid/tria.h>

namespace throughbend
{
/// Boundary ids of the coupon's faces.
enum class CouponFace : dealii::types::boundary_id
{
  left_end  = 0, ///< of a half model: the plane of symmetry
  right_end = 1,
  convex    = 2, ///< lower, on the shoulders
  concave   = 3, ///< upper, under the plunger
  mid_plane = 4, ///< 3D: the plane of symmetry across the width
  side      = 5  ///< 3D: the free edge
};

/// Fills an empty triangulation; the convex face lies at height `level` [mm]. Material ids
/// are those of zone_at().
template <int dim>
void make_coupon_mesh(dealii::Triangulation<dim> &mesh, const CouponGrid &grid,
                      const Case &c, double level);
} // namespace throughbend
