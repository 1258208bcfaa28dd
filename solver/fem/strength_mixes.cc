#include "solver/fem/strength_mixes.h"

namespace throughbend
{
template <int dim>
std::vector<StrengthMix> strength_mixes(const ZoneMixing       &mixing,
                                        const PlacedCoupon     &coupon,
                                        const CouponModel<dim> &model)
{
  std::vector<StrengthMix> mixes;
  for (const CellData<dim> &cell : model.cells())
    for (const dealii::Point<dim> &point : cell.position)
    {
      const CouponPoint flat = coupon.shape.flattened(spot(point, model.level()));
      mixes.push_back(mixing.at(coupon.shape.from_fusion(flat)));
    }
  return mixes;
}

template std::vector<StrengthMix> strength_mixes(const ZoneMixing &, const PlacedCoupon &,
                                                 const CouponModel<2> &);
template std::vector<StrengthMix> strength_mixes(const ZoneMixing &, const PlacedCoupon &,
                                                 const CouponModel<3> &);
} // namespace throughbend
