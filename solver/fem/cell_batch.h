#pragma once
// Four neighbouring cells side by side, a lane each, as the kernels want them: what never
// changes, and what the last evaluation left behind. A batch at the end of the mesh repeats
// its last cell, whose copies nobody reads.

#include "solver/fem/tensor_cell.h"
#include "solver/mechanics/j2_lanes.h"
#include "solver/mechanics/plastic_update.h"

#include <vector>

namespace throughbend
{
template <int dim>
class CouponModel;

template <int dim>
inline constexpr int n_cell_unknowns = dim *n_cell_nodes<dim>;

/// Nodes along x first, then y and z, unlike those of CellData.
template <int dim>
struct CellBatch
{
  static constexpr int n_nodes   = n_cell_nodes<dim>;
  static constexpr int n_points  = n_nodes;
  static constexpr int n_unknown = n_cell_unknowns<dim>;

  unsigned first   = 0; ///< cell in lane 0; the others follow
  int      n_cells = 0;
  unsigned dofs[n_unknown][n_lanes]; ///< of component c and node a at c * n_nodes + a

  Lanes to_reference[n_points][dim][dim]; ///< d xi_l / d X_k [1/mm]
  Lanes weight[n_points];                 ///< reference volume [mm^dim]

  int   n_dilatations = 0;
  Lanes dilatation[1 << dim][n_points]; ///< the basis, see CellData

  std::vector<MaterialLanes> material;         ///< of all points, or of each
  bool                       symmetric = true; ///< the tangents of all of its points are
  const PointMaterial       *points[n_lanes];  ///< materials of each cell's points

  const MaterialLanes &material_at(int q) const
  {
    return material[material.size() > 1 ? static_cast<std::size_t>(q) : 0];
  }
};

/// Material part of the tangent at a point of four cells; see MaterialTangent.
template <int dim>
struct TangentLanes
{
  Lanes entry[dim * dim][dim * dim];
};

/// What evaluation and tangent of a batch share.
template <int dim>
struct BatchState
{
  static constexpr int n_points = n_cell_nodes<dim>;

  PlasticLanes<dim> accepted[n_points];

  Lanes          to_reference[n_points][dim][dim]; ///< d xi_l / d x_k [1/mm]
  Lanes          jacobian[n_points], theta[n_points];
  Lanes          projected_pressure[n_points];          ///< p* [MPa]
  Lanes          kirchhoff[n_points][n_symmetric<dim>]; ///< [MPa]
  AxesLanes<dim> axes[n_points];                        ///< of symmetric batches
  std::vector<TangentLanes<dim>> tangent;               ///< of the others

  Lanes force[n_cell_unknowns<dim>]; ///< [N]
  Lanes elastic, plastic;            ///< energy and work of this step [N mm]
};

/// The batches of a model whose points are made of `materials`, cell by cell.
template <int dim>
std::vector<CellBatch<dim>> cell_batches(const CouponModel<dim>           &model,
                                         const std::vector<PointMaterial> &materials);

/// Number in CellData of each node of a batch.
template <int dim>
const std::array<int, n_cell_nodes<dim>> &node_numbers();

/// Lays the accepted states of the batch's points out in lanes.
template <int dim>
void take_history(const CellBatch<dim> &batch, const std::vector<PlasticState> &accepted,
                  BatchState<dim> &state);

/// The update of point q, one cell after the other: of batches that are not symmetric.
/// Energies and work are per reference volume.
template <int dim>
struct PointUpdate
{
  LaneArray F[dim][dim]; ///< F_bar
  LaneArray kirchhoff[n_symmetric<dim>];
  LaneArray elastic, plastic;
};
template <int dim>
void update_each(const CellBatch<dim> &batch, int q, const PlasticState *accepted,
                 PlasticState *latest, PointUpdate<dim> &point, TangentLanes<dim> &tangent);
} // namespace throughbend
