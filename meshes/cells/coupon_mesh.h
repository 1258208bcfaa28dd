#pragma once
// The coupon as a deal.II mesh: cells from a CouponGrid, zones as material ids, faces with
// names, corners moved to the coupon's shape. Conforming quadrilaterals or hexahedra, the
// whole mesh on every rank. Along a flaw every corner is there twice, once for the cells on
// either side; in the plane of symmetry of a half model there is the right lip alone.

#include "meshes/coupon/rounded_edges.h"

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
  side      = 5, ///< 3D: the free edge
  left_lip  = 6, ///< of a flaw: the end of the cells on its left
  right_lip = 7
};

/// Fills an empty triangulation with the straight grid; the convex face lies at height
/// `level` [mm]. Material ids are the zones of CouponShape::zone(). Throws std::logic_error
/// for a shape with flaws in 3D.
template <int dim>
void make_coupon_mesh(dealii::Triangulation<dim> &mesh, const CouponGrid &grid,
                      const CouponShape &shape, double level);

/// Moves the corners of the straight grid to where the coupon has them.
template <int dim>
void give_shape(dealii::Triangulation<dim> &mesh, const CouponShape &shape,
                const RoundedEdges &edges, double level);

template <int dim>
CouponPoint spot(const dealii::Point<dim> &point, double level);
} // namespace throughbend
