#pragma once
// Internal forces of the coupon and their exact tangent, on the cells this rank owns. The
// dilatation of a cell is replaced by its projection on linear (in the narrow cells of a
// welded coupon bilinear) functions, so that plastic flow does not lock; stress, history
// and tangent follow from that. Knows no tools.
//
// With u the displacement, F = I + du/dX, J = det F and Pi the projection (weights dX):
//   theta = Pi[J],  F_bar = (theta / J)^(1/d) F (in the d modelled directions),
//   force on unknown i:  int tau(F_bar) : l_i + (p* - p) div_i,
//   l_i = dN_i/dx,  div_i = tr l_i,  p = tr_d tau / d,  p* = J Pi[p / theta],
// which is the derivative of the stored energy whenever there is one, so the tangent is
// symmetric (Simo, Taylor & Pister 1985; de Souza Neto et al. 1996, Int. J. Solids Struct.
// 33, 3277, for the F_bar idea with a constant dilatation). A backstress makes the
// material's part unsymmetric, and the tangent with it.

#include "solver/fem/cell_crew.h"
#include "solver/fem/cell_kernels.h"
#include "solver/fem/coupon_model.h"
#include "solver/fem/linear_system.h"
#include "solver/fem/plastic_history.h"

namespace throughbend
{
/// Energy of the whole model since the start, this rank's cells [N mm].
struct StrainEnergy
{
  double elastic      = 0; ///< stored
  double plastic_step = 0; ///< put into plastic flow since the last accepted state
};

template <int dim>
class Equilibrium
{
public:
  /// Cells of zone k are made of zones[k]; there may be more materials than zones, to mix.
  /// Results do not depend on the number of threads, and on the registers to rounding only.
  Equilibrium(const CouponModel<dim> &model, std::vector<ZoneMaterial> zones,
              unsigned n_threads = 1, Registers registers = best_registers());
  Equilibrium(const Equilibrium &)            = delete; // points refer to its zones
  Equilibrium &operator=(const Equilibrium &) = delete;

  /// From now on points are made of these, numbered as by point(), and not of their cell's
  /// zone. Throws std::invalid_argument for another number of them than there are points,
  /// and as PointMaterial does.
  void mix(const std::vector<StrengthMix> &mixes);

  /// Adds the internal forces at displacement u to `force` (this rank's share) and leaves
  /// the latest state in the history. False when a cell is turned inside out or a number is
  /// not finite; then `force` is of no use.
  bool add_forces(const Vector &u, Vector &force);

  /// Adds the tangent at the u of the last add_forces() to the system.
  void add_tangent(LinearSystem &system);

  StrainEnergy energy() const { return energy_; } ///< at the last add_forces()

  PlasticHistory       &history() { return history_; }
  const PlasticHistory &history() const { return history_; }

  /// Kirchhoff stress and dilatation at a quadrature point as last evaluated.
  Matrix3     kirchhoff(std::size_t point) const;
  double      dilatation(std::size_t point) const;
  std::size_t point(std::size_t cell, std::size_t q) const { return cell * n_points + q; }

private:
  static constexpr int n_nodes  = n_cell_nodes<dim>;
  static constexpr int n_points = n_cell_nodes<dim>;    ///< per cell
  static constexpr int n_local  = n_cell_unknowns<dim>; ///< unknowns per cell

  void make_batches();
  void colour_batches();
  void take_history();

  const CouponModel<dim>      &model_;
  const CellKernels<dim>       kernels_;
  std::vector<ZoneMaterial>    zones_;
  std::vector<PointMaterial>   materials_; ///< of each point
  PlasticHistory               history_;
  std::vector<CellBatch<dim>>  batches_;
  std::vector<BatchState<dim>> states_;
  unsigned long                taken_ = 0; ///< the history that the states begin with
  std::vector<std::vector<std::size_t>> colours_; ///< batches that share no node
  StrainEnergy                          energy_;
  std::unique_ptr<CellCrew>             crew_;
};
} // namespace throughbend
