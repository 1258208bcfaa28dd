#include "solver/fem/cell_batch.h"

#include "solver/fem/coupon_model.h"

#include <deal.II/base/quadrature_lib.h>
#include <deal.II/fe/fe_q.h>
#include <deal.II/fe/fe_tools.h>
#include <deal.II/fe/fe_values.h>

#include <algorithm>

namespace throughbend
{
namespace
{
/// The cell that a lane holds.
template <int dim>
std::size_t cell_in(const CellBatch<dim> &batch, const int lane)
{
  return batch.first + static_cast<std::size_t>(std::min(lane, batch.n_cells - 1));
}

template <int dim>
void put_materials(CellBatch<dim> &batch, const std::vector<PointMaterial> &materials)
{
  constexpr int n_points = CellBatch<dim>::n_points;
  for (int l = 0; l < n_lanes; ++l)
    batch.points[l] = &materials[cell_in(batch, l) * n_points];
  bool uniform = true;
  for (const PointMaterial *const first : batch.points)
  {
    uniform &= std::all_of(first, first + n_points,
                           [first](const PointMaterial &m) { return m == *first; });
    batch.symmetric &= std::all_of(first, first + n_points,
                                   [](const PointMaterial &m) { return m.symmetric(); });
  }
  for (int q = 0; q < (uniform ? 1 : n_points); ++q)
  {
    MaterialLanes        lanes;
    const PointMaterial *points[n_lanes];
    for (int l = 0; l < n_lanes; ++l)
    {
      points[l]      = batch.points[l] + q;
      lanes.shear[l] = points[l]->shear();
      lanes.bulk[l]  = points[l]->bulk();
    }
    lanes.flow = flow_lanes(points);
    batch.material.push_back(lanes);
  }
}
} // namespace

template <int dim>
const std::array<int, n_cell_nodes<dim>> &node_numbers()
{
  static const auto numbers = []
  {
    std::array<int, n_cell_nodes<dim>> result{};
    const auto order = dealii::FETools::lexicographic_to_hierarchic_numbering<dim>(2);
    for (std::size_t a = 0; a < result.size(); ++a)
      result[a] = static_cast<int>(order[a]);
    return result;
  }();
  return numbers;
}

template <int dim>
std::vector<CellBatch<dim>> cell_batches(const CouponModel<dim>           &model,
                                         const std::vector<PointMaterial> &materials)
{
  using Batch = CellBatch<dim>;
  // Of the mapping only; the element adds nothing to it.
  const dealii::FE_Q<dim> element(1);
  dealii::FEValues<dim>   values(element, dealii::QGauss<dim>(3),
                                 dealii::update_inverse_jacobians);
  std::vector<Batch>      batches;
  const std::size_t       n_cells = model.cells().size();
  batches.reserve((n_cells + n_lanes - 1) / n_lanes);
  for (std::size_t first = 0; first < n_cells; first += n_lanes)
  {
    Batch &batch        = batches.emplace_back();
    batch.first         = static_cast<unsigned>(first);
    batch.n_cells       = static_cast<int>(std::min<std::size_t>(n_lanes, n_cells - first));
    batch.n_dilatations = static_cast<int>(model.n_dilatations());
    for (int l = 0; l < n_lanes; ++l)
    {
      const CellData<dim> &cell = model.cells()[cell_in(batch, l)];
      for (int c = 0; c < dim; ++c)
        for (int a = 0; a < Batch::n_nodes; ++a)
          batch.dofs[c * Batch::n_nodes + a][l] =
              cell.dofs[c * Batch::n_nodes + node_numbers<dim>()[a]];
      values.reinit(typename dealii::Triangulation<dim>::active_cell_iterator(cell.cell));
      for (int q = 0; q < Batch::n_points; ++q)
      {
        const auto &inverse = values.inverse_jacobian(static_cast<unsigned>(q));
        for (int i = 0; i < dim; ++i)
          for (int k = 0; k < dim; ++k)
            batch.to_reference[q][i][k][l] = inverse[i][k];
        batch.weight[q][l] = cell.weight[q];
        for (int m = 0; m < batch.n_dilatations; ++m)
          batch.dilatation[m][q][l] = cell.dilatation_basis[m * Batch::n_points + q];
      }
    }
    put_materials(batch, materials);
  }
  return batches;
}

template <int dim>
void take_history(const CellBatch<dim> &batch, const std::vector<PlasticState> &accepted,
                  BatchState<dim> &state)
{
  constexpr int n_points = CellBatch<dim>::n_points;
  for (int l = 0; l < n_lanes; ++l)
    for (int q = 0; q < n_points; ++q)
    {
      const PlasticState &old     = accepted[cell_in(batch, l) * n_points + q];
      PlasticLanes<dim>  &to      = state.accepted[q];
      const FlowState     surface = batch.points[l][q].flow(old.equivalent_plastic_strain);
      for (int i = 0; i < n_symmetric<dim>; ++i)
        to.inverse_metric[i][l] = old.inverse_plastic_metric[i];
      to.strain[l] = old.equivalent_plastic_strain;
      to.stress[l] = surface.stress;
      to.slope[l]  = surface.slope;
    }
}

template <int dim>
void update_each(const CellBatch<dim> &batch, int q, const PlasticState *accepted,
                 PlasticState *latest, PointUpdate<dim> &point, TangentLanes<dim> &tangent)
{
  for (int l = 0; l < n_lanes; ++l)
  {
    Matrix3 F = {{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};
    for (int i = 0; i < dim; ++i)
      for (int k = 0; k < dim; ++k)
        F[i][k] = point.F[i][k][l];
    const std::size_t   index = cell_in(batch, l) * CellBatch<dim>::n_points + q;
    const J2Result<dim> result =
        plastic_update<dim>(F, accepted[index], batch.points[l][q]);
    const Symmetric3 tau = symmetric_part(result.kirchhoff);
    for (int i = 0; i < n_symmetric<dim>; ++i)
      point.kirchhoff[i][l] = tau[i];
    latest[index]    = result.state;
    point.elastic[l] = result.elastic_energy;
    point.plastic[l] = result.plastic_work;
    for (int r = 0; r < dim * dim; ++r)
      for (int s = 0; s < dim * dim; ++s)
        tangent.entry[r][s][l] = result.tangent[r][s];
  }
}

template const std::array<int, 9>  &node_numbers<2>();
template const std::array<int, 27> &node_numbers<3>();
template std::vector<CellBatch<2>>  cell_batches(const CouponModel<2> &,
                                                 const std::vector<PointMaterial> &);
template std::vector<CellBatch<3>>  cell_batches(const CouponModel<3> &,
                                                 const std::vector<PointMaterial> &);
template void take_history(const CellBatch<2> &, const std::vector<PlasticState> &,
                           BatchState<2> &);
template void take_history(const CellBatch<3> &, const std::vector<PlasticState> &,
                           BatchState<3> &);
template void update_each(const CellBatch<2> &, int, const PlasticState *, PlasticState *,
                          PointUpdate<2> &, TangentLanes<2> &);
template void update_each(const CellBatch<3> &, int, const PlasticState *, PlasticState *,
                          PointUpdate<3> &, TangentLanes<3> &);
} // namespace throughbend
