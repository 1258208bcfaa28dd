#pragma once
// Where each point of the cells stands between the zones' materials.

#include "solver/fem/coupon_model.h"
#include "solver/setup/zone_materials.h"

#include <vector>

namespace throughbend
{
/// Of all points of the owned cells, as Equilibrium::mix() wants them. `coupon` is the one
/// that the model was made of.
template <int dim>
std::vector<StrengthMix> strength_mixes(const ZoneMixing       &mixing,
                                        const PlacedCoupon     &coupon,
                                        const CouponModel<dim> &model);
} // namespace throughbend
