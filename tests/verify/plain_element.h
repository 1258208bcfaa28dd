#pragma once
// The plain quadratic displacement element without projected dilatation: the same interface
// and material as Equilibrium, but stiffer, so that the two close in on a solution from
// either side. For comparison in rungs only.

#include "solver/fem/equilibrium.h"

namespace throughbend
{
template <int dim>
class PlainElement
{
public:
  PlainElement(const CouponModel<dim> &model, std::vector<ZoneMaterial> zones)
      : model_(model), zone_(zones.at(0)),
        history_(model.cells().size() * model.n_points_per_cell()),
        points_(model.cells().size() * model.n_points_per_cell())
  {
  }

  bool add_forces(const Vector &u, Vector &force);
  void add_tangent(LinearSystem &system);

  StrainEnergy          energy() const { return energy_; }
  PlasticHistory       &history() { return history_; }
  const PlasticHistory &history() const { return history_; }

private:
  struct Point
  {
    J2Result<dim>       result;
    std::vector<double> gradient; ///< dN_a/dx_k [k * nodes + a] [1/mm]
  };
  const CouponModel<dim> &model_;
  ZoneMaterial            zone_;
  PlasticHistory          history_;
  std::vector<Point>      points_;
  StrainEnergy            energy_;
};
} // namespace throughbend
