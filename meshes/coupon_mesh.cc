#include "meshes/coupon_mesh.h"

#include <deal.II/grid/grid_generator.h>
#include <deal.II/grid/grid_tools.h>

namespace throughbend
{
template <int dim>
void make_coupon_mesh(dealii::Triangulation<dim> &mesh, const CouponGrid &grid,
                      const Case &c, double level)
{
  const auto steps = [](const std::vector<double> &lines)
  {
    std::vector<double> widths;
    for (std::size_t i = 0; i + 1 < lines.size(); ++i)
      widths.push_back(lines[i + 1] - lines[i]);
    return widths;
  };
  std::vector<std::vector<double>> widths = {steps(grid.x), steps(grid.y)};
  dealii::Point<dim>               low, high;
  low[0]  = grid.x.front();
  high[0] = grid.x.back();
  low[1]  = level + grid.y.front();
  high[1] = level + grid.y.back();
  if constexpr (dim == 3)
  {
    widths.push_back(steps(grid.z));
    low[2]  = grid.z.front();
    high[2] = grid.z.back();
  }
  dealii::GridGenerator::subdivided_hyper_rectangle(mesh, widths, low, high,
                                                    /*colorize=*/true);
  // Lines and zones are those of the straight grid, so a cell lies in one zone however its
  // corners move afterwards.
  const CouponShape shape = coupon_shape(c, model_extent(c));
  for (const auto &cell : mesh.active_cell_iterators())
  {
    const Spot flat = shape.leaned(spot(cell->center(), level));
    cell->set_material_id(static_cast<dealii::types::material_id>(shape.zone(flat)));
  }
}

template <int dim>
Spot spot(const dealii::Point<dim> &point, double level)
{
  return {point[0], point[1] - level, dim == 3 ? point[dim - 1] : 0.};
}

template <int dim>
void give_shape(dealii::Triangulation<dim> &mesh, const CouponShape &shape, double level)
{
  dealii::GridTools::transform(
      [&](const dealii::Point<dim> &point)
      {
        const Spot         shaped = shape.shaped(shape.leaned(spot(point, level)));
        dealii::Point<dim> moved(point);
        moved[0] = shaped.x;
        moved[1] = level + shaped.y;
        if constexpr (dim == 3)
          moved[2] = shaped.z;
        return moved;
      },
      mesh);
}

template void make_coupon_mesh<2>(dealii::Triangulation<2> &, const CouponGrid &,
                                  const Case &, double);
template void make_coupon_mesh<3>(dealii::Triangulation<3> &, const CouponGrid &,
                                  const Case &, double);
template void give_shape<2>(dealii::Triangulation<2> &, const CouponShape &, double);
template void give_shape<3>(dealii::Triangulation<3> &, const CouponShape &, double);
template Spot spot<2>(const dealii::Point<2> &, double);
template Spot spot<3>(const dealii::Point<3> &, double);
} // namespace throughbend
