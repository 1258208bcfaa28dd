#include "meshes/coupon_mesh.h"

#include <deal.II/grid/grid_generator.h>

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
  for (const auto &cell : mesh.active_cell_iterators())
    cell->set_material_id(static_cast<dealii::types::material_id>(
        zone_at(c.weld, cell->center()[0] - c.coupon.offset)));
}

template void make_coupon_mesh<2>(dealii::Triangulation<2> &, const CouponGrid &,
                                  const Case &, double);
template void make_coupon_mesh<3>(dealii::Triangulation<3> &, const CouponGrid &,
                                  const Case &, double);
} // namespace throughbend
