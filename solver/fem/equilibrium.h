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
#include "solver/fem/coupon_model.h"
#include "solver/fem/linear_system.h"
#include "solver/fem/plastic_history.h"
#include "solver/fem/stacked_product.h"

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
  /// Results do not depend on the number of threads.
  Equilibrium(const CouponModel<dim> &model, std::vector<ZoneMaterial> zones,
              unsigned n_threads = 1);
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

  /// Kirchhoff stress and F_bar at a quadrature point as last evaluated.
  const Matrix3 &kirchhoff(std::size_t point) const { return points_[point].kirchhoff; }
  double         dilatation(std::size_t point) const { return points_[point].theta; }
  std::size_t point(std::size_t cell, std::size_t q) const { return cell * n_points + q; }

private:
  static constexpr int n_x = dim * dim + 1; ///< velocity gradient and rate of dilatation
  static constexpr int n_nodes  = cell_nodes<dim>;
  static constexpr int n_points = cell_nodes<dim>; ///< per cell
  static constexpr int n_local  = dim * n_nodes;   ///< unknowns per cell

  /// What the tangent needs of the last evaluation at one quadrature point.
  struct Point
  {
    Matrix3 kirchhoff{};
    Matrix3 inverse_gradient{};                              ///< F^-1
    double  jacobian = 1, theta = 1, projected_pressure = 0; ///< J, theta, p*
    J2Axes  axes; ///< of an update without backstress
  };
  using Modulus = std::array<std::array<double, n_x>, n_x>;
  struct TangentScratch;

  bool     symmetric(std::size_t cell) const; ///< the tangents of all of its points are
  J2Energy update(std::size_t point, const Matrix3 &F_bar);
  bool     evaluate_cell(std::size_t cell, const Vector &u);
  void     add_cell_forces(std::size_t cell);
  void     form_modulus(std::size_t point, double weight, Modulus &m) const;
  void     form_rows(std::size_t cell, TangentScratch &scratch) const;
  void     add_cell_tangent(std::size_t cell, LinearSystem &system) const;
  void     make_room_for_tangents();
  void     colour_cells();

  const CouponModel<dim>    &model_;
  std::vector<ZoneMaterial>  zones_;
  std::vector<PointMaterial> materials_; ///< of each point
  PlasticHistory             history_;
  std::vector<Point>         points_;
  /// Per point where any point's tangent is not symmetric; else empty.
  std::vector<MaterialTangent<dim>>        tangents_;
  std::vector<std::array<double, n_local>> cell_forces_;
  std::vector<StrainEnergy>                cell_energies_;
  std::vector<std::vector<std::size_t>>    colours_; ///< cells that share no node
  StrainEnergy                             energy_;
  std::unique_ptr<CellCrew>                crew_;
};
} // namespace throughbend
