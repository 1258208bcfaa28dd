#pragma once
// A body of any shape among rigid tools, driven by the classes that a pass uses: model,
// equations, contact and Newton. Moves the plunger and the held nodes in steps, keeps the
// books of work and energy. For rungs of the ladder only; no reference values here.

#include "solver/fem/newton.h"

#include <array>
#include <functional>
#include <string>
#include <vector>

namespace throughbend
{
/// Elastic, or elastic and perfectly plastic. Units [MPa] and [-].
struct BodyMetal
{
  double young = 0, poisson = 0;
  double yield = 1e12; ///< so high that nothing flows
};

/// Works and energies since start() [N mm], in the plane per mm of width.
struct BodyBooks
{
  double outside = 0; ///< done by the plunger and at the held nodes
  double elastic = 0, contact = 0, plastic = 0, friction = 0, drag = 0;

  double spent() const { return elastic + contact + plastic + friction + drag; }
};

template <int dim>
class PressedBody
{
public:
  using Holds  = typename CouponModel<dim>::Holds;
  using Node   = dealii::Point<dim>;
  using Motion = std::function<double(const Node &node, unsigned component)>;

  /// `drag` [N/mm^4] as in LoadPoint, for bodies that nothing holds at first.
  PressedBody(const dealii::Triangulation<dim> &shape, const Holds &held,
              const BodyMetal &metal, std::vector<RigidTool> tools,
              ContactStiffness stiffness, NewtonSettings newton, double drag = 0);

  /// Finds the balance where the body stands and starts the sums of work and energy.
  void start();

  /// Brings the plunger to `travel` and the held nodes to `motion` (their displacement from
  /// the shape given at first) in `steps` equal steps, cut where Newton refuses; `look` is
  /// called after each accepted one. Throws std::runtime_error when a step gets too small.
  void go(
      double travel, const Motion &motion, int steps,
      const std::function<void()> &look = [] {});
  /// The held nodes stay where they are.
  void go(
      double travel, int steps, const std::function<void()> &look = [] {});

  double    travel() const { return travel_; }
  ToolForce force(ToolPlace place) const; ///< on the body

  /// Force component at the held nodes in a region, from outside on the body [N].
  double reaction(unsigned                                 component,
                  const std::function<bool(const Node &)> &region) const;

  const BodyBooks &books() const { return books_; }
  /// |work from outside - all that it went into| / largest work or energy so far [-].
  double energy_error() const { return error_; }

  const CouponModel<dim>   &model() const { return model_; }
  PassEquations<dim>       &equations() { return equations_; }
  const PassEquations<dim> &equations() const { return equations_; }
  const Vector             &displacement() const { return u_; }
  int                       iterations() const { return iterations_; }

private:
  void advance(double travel, Vector to, int steps, const std::function<void()> &look);
  void step(double travel, const Vector &held, const Vector &guess);
  void book(double travel, const Vector &u);

  CouponModel<dim>   model_;
  PassEquations<dim> equations_;
  NewtonSettings     newton_;
  double             drag_ = 0, travel_ = 0;
  Vector             u_, reaction_, last_;
  double             last_part_     = 0; ///< part of go() that `last_` covered
  double             plunger_force_ = 0; ///< upwards on the body [N]
  BodyBooks          books_, opened_;
  double             largest_ = 0, error_ = 0;
  int                iterations_ = 0;
};

/// Widths of cells from `first` on, growing by `growth`, that fill `span` [mm].
std::vector<double> graded_widths(double first, double growth, double span);

/// A rigid block much larger than any body here, its flat face through `foot` with the
/// outward normal `normal`.
RigidProfile flat_face(PlaneVector foot, PlaneVector normal);
} // namespace throughbend
