#pragma once
// Linear displacements on the cells of the quadratic ones: the coarse level of
// two_level_factor.h. An eighth of a body's unknowns. Displacements that are quadratic over
// pairs of cells, as many, were tried and left as many iterations. Holds weights only, no
// matrix.

#include "solver/fem/coupon_model.h"

#include <vector>

namespace throughbend
{
/// Each unknown of a rank's cells from those at the corners of its cells, which keep the
/// direction. Unknowns that are not solved for depend on nothing.
struct CoarseSpace
{
  int                 per_node = 0; ///< unknowns of a node, next to each other
  int                 size = 0; ///< unknowns at the corners that are solved for, all ranks'
  std::vector<int>    number;   ///< of each unknown of the model among them, or -1
  std::vector<int>    starts;   ///< per unknown of the model, and the end
  std::vector<int>    corner;   ///< the unknowns that it depends on, from 0 to size - 1
  std::vector<double> weight;   ///< and with which weight [-]
};

/// Numbers go up with those of the model, so each rank owns a range of them, too.
template <int dim>
CoarseSpace coarse_space(const CouponModel<dim> &model);
} // namespace throughbend
