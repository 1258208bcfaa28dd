#pragma once
// A body without tools, driven by the classes that a pass uses: model, equilibrium, history
// and linear system. Moves held nodes and guided planes in steps, applies dead loads, keeps
// the sums of work and energy. For rungs of the ladder only; no reference values here.

#include "solver/fem/equilibrium.h"
#include "tests/support/metals.h"
#include "tests/verify/tied_system.h"

#include <functional>
#include <map>
#include <memory>
#include <vector>

namespace throughbend
{
/// `Forces` is the element: that of the pass, or another one to compare it with.
template <int dim, typename Forces = Equilibrium<dim>>
class Body
{
public:
  using Holds = typename CouponModel<dim>::Holds;
  using Node  = dealii::Point<dim>;
  /// Displacement [mm] of a held node's component at `load` [-].
  using Motion = std::function<double(const Node &node, unsigned component, double load)>;
  /// Displacements that are guided at `load`; which unknowns they follow must not change.
  using Guides = std::function<std::map<unsigned, Tie>(double load)>;

  Body(const dealii::Triangulation<dim> &shape, const Holds &held,
       const ZoneMaterial &metal, Motion motion);

  /// `guides` may speak of `shared` unknowns more, numbered from model().n_dofs().
  void guide(unsigned shared, Guides guides);

  /// Forces that keep their direction [N], at load 1; in proportion at others.
  void hang(const Vector &dead_load) { dead_load_ = dead_load; }

  /// Goes to `load` in equal steps, each cut where Newton refuses; `look` is called after
  /// each one. Throws std::runtime_error when a step gets too small.
  void go(
      double load, int steps, const std::function<void()> &look = [] {});

  const CouponModel<dim> &model() const { return model_; }
  Forces                 &equilibrium() { return equilibrium_; }
  const Forces           &equilibrium() const { return equilibrium_; }
  const Vector           &displacement() const { return u_; }
  const Vector           &forces() const { return force_; } ///< from outside, on nodes [N]
  double                  load() const { return load_; }
  unsigned                component(unsigned dof) const { return component_[dof]; }
  double shared(unsigned number) const { return q_[model_.n_dofs() + number]; }

  /// Where the quadrature points lie before anything moves [mm].
  std::vector<Node> places() const;
  double            largest_plastic_strain() const;
  /// The displacement whose node lies at `node`.
  unsigned dof_at(const Node &node, unsigned component) const;

  double work() const { return work_; }       ///< done from outside [N mm]
  double plastic() const { return plastic_; } ///< dissipated [N mm]
  /// |work - stored - dissipated| / largest work so far [-].
  double energy_error() const;
  int    iterations() const { return iterations_; }

private:
  bool                          step(double load, double part_of_last);
  bool                          evaluate(const Vector &q, double load);
  void                          search(Vector &q, const Vector &dq, double load);
  std::vector<Tie>              ties_at(double load) const;
  double                        measure() const;
  Vector                        from_outside(double load) const;
  CouponModel<dim>              model_;
  Forces                        equilibrium_;
  Motion                        motion_;
  Guides                        guides_;
  unsigned                      shared_ = 0;
  std::vector<bool>             free_; ///< neither held nor guided
  std::vector<unsigned>         component_;
  std::unique_ptr<LinearSystem> system_;
  TiedSystem<dim>              *tied_ = nullptr;
  std::vector<Tie>              ties_;
  Vector                        dead_load_, u_, trial_u_, inner_, residual_, force_;
  Vector                        q_, last_dq_;
  double                        floor_ = 0, load_ = 0, last_length_ = 0;
  double                        work_ = 0, plastic_ = 0, largest_work_ = 0;
  int                           iterations_ = 0;
};
} // namespace throughbend
