#pragma once
// What the simulation tells those who watch it: records, fields, progress. The pass knows
// nothing of files; whoever wants one implements this.

#include "solver/fem/pass_equations.h"
#include "solver/outcome/finding.h"
#include "solver/outcome/pass_sample.h"
#include "solver/pass/coupon_probe.h"
#include "solver/setup/pass_setup.h"

namespace throughbend
{
/// The state at an accepted step, valid during the call only. The same on every rank except
/// that the equations hold the owned cells.
template <int dim>
struct PassView
{
  const PassSetup          &setup;
  const CouponModel<dim>   &model;
  const PassEquations<dim> &equations;
  const CouponProbe<dim>   &probe;
  const Vector             &u;
};

template <int dim>
class PassObserver
{
public:
  virtual ~PassObserver() = default;
  virtual void began(const PassView<dim> &) {}
  virtual void step_accepted(const PassView<dim> &view, const PassSample &sample) = 0;
  /// A step beyond the ram's capacity, which the bench would not see. Afterwards the pass
  /// goes back to where the ram stopped.
  virtual void step_beyond(const PassSample &) {}
  /// One line worth keeping in a log: a refusal, a jump, a change of the contact springs.
  virtual void noted(const std::string &) {}
  virtual void ended(const PassView<dim> &, const Finding &, const Release &) {}

  /// What it keeps in mind between steps, as bytes for a checkpoint; why such bytes cannot
  /// be its own (empty: they can); and taking them up again before a pass goes on.
  virtual std::string memory() const { return {}; }
  virtual std::string fault_of(const std::string &) const { return {}; }
  virtual void        recall(const std::string &) {}
};
} // namespace throughbend
