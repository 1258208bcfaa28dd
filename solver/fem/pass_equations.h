#pragma once
// The equations of one step put together: internal forces, contact with the tools and
// between the lips of flaws, and the tiny viscous term that holds a coupon nothing holds.
// Evaluates a residual, then (only when asked) assembles and solves with its tangent. Takes
// no decision on steps or convergence.

#include "solver/fem/contact_assembly.h"
#include "solver/fem/equilibrium.h"
#include "solver/fem/linear_system.h"
#include "solver/fem/lip_contact.h"

#include <array>
#include <chrono>

namespace throughbend
{
/// Where the tools stand and how strongly the last accepted place is held on to.
struct LoadPoint
{
  double travel         = 0; ///< of the plunger from first touch [mm]
  double regularisation = 0; ///< viscous force per volume and displacement [N/mm^4]
};

/// Seconds spent, and how often.
struct WorkCount
{
  double assembly = 0, contact = 0, solution = 0; ///< [s]
  int    evaluations = 0, factorisations = 0;
};

/// What the equations remember of the accepted state: this rank's points and unknowns in
/// its own order or, of the whole model, all of them in the common order.
struct PassMemory
{
  std::vector<PlasticState> plastic;
  std::vector<ContactState> contact;
  ContactStiffness          stiffness;
  double                    lip_stiffness = 0; ///< [MPa/mm]
  Vector                    displacement;
};

template <int dim>
class PassEquations
{
public:
  PassEquations(const CouponModel<dim> &model, std::vector<ZoneMaterial> zones,
                std::vector<RigidTool> tools, ContactStiffness stiffness);

  /// Residual (out-of-balance force) at u. False when u turns a cell inside out or is not
  /// finite, on any rank.
  bool evaluate(const Vector &u, const LoadPoint &load);

  /// tangent at the last evaluate() times `solution` = right_side. False when singular.
  bool solve(const Vector &right_side, Vector &solution);

  const Vector &residual() const { return residual_; } ///< 0 at held unknowns
  double        contact_norm() const { return contact_force_.l2_norm(); } ///< [N]

  /// Takes the last evaluated state, at u, as history.
  void accept(const Vector &u);

  PassMemory memory() const;
  void       restore(const PassMemory &memory); ///< evaluate again before anything is read

  /// From this rank's memory that of the whole model, complete on the first rank, and back.
  /// All ranks must call whole(), and none has to be told of the others for share().
  PassMemory whole(const PassMemory &own) const;
  PassMemory share(const PassMemory &whole) const;

  /// Why the memory cannot be one of this whole model; empty: it can.
  std::string fault_of(const PassMemory &whole) const;

  const Vector &base() const { return base_; } ///< displacement at the last accepted state
  double        regularisation_work() const;   ///< of the last evaluation [N mm]

  Equilibrium<dim>           &equilibrium() { return equilibrium_; }
  const Equilibrium<dim>     &equilibrium() const { return equilibrium_; }
  ContactAssembly<dim>       &contact() { return contact_; }
  const ContactAssembly<dim> &contact() const { return contact_; }
  LipContact                 &lips() { return lips_; }
  const LipContact           &lips() const { return lips_; }
  const CouponModel<dim>     &model() const { return model_; }
  const WorkCount            &work() const { return work_; }
  std::string                 solver_name() const { return system_->solver_name(); }

  /// What the linear solver keeps from one step to the next; see LinearSystem.
  SolverMemory solver_memory() const { return system_->memory(); }
  bool restore_solver(const SolverMemory &memory) { return system_->restore(memory); }
  void go_on_counting(const WorkCount &work) { work_ = work; } ///< of a pass's earlier part

private:
  const CouponModel<dim>       &model_;
  Equilibrium<dim>              equilibrium_;
  ContactAssembly<dim>          contact_;
  LipContact                    lips_;
  std::unique_ptr<LinearSystem> system_;
  Vector                        residual_, contact_force_, base_, latest_;
  LoadPoint                     load_;
  WorkCount                     work_;
};
} // namespace throughbend
