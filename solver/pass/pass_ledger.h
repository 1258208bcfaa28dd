#pragma once
// Keeps the record of a pass: after each accepted state, forces, energies and shape as one
// PassSample. Forces come from the assembled contact forces, energies from state functions
// and from the work of each step with the mean of its ends.

#include "solver/fem/pass_equations.h"
#include "solver/outcome/pass_sample.h"
#include "solver/pass/coupon_probe.h"
#include "solver/pass/pass_books.h"
#include "solver/setup/pass_setup.h"

namespace throughbend
{
template <int dim>
class PassLedger
{
public:
  PassLedger(const PassSetup &setup, const PassEquations<dim> &equations,
             const CouponProbe<dim> &probe);

  const PassBooks &books() const { return books_; }
  void             restore(const PassBooks &books) { books_ = books; }

  /// Books the state that stands evaluated at u but is not accepted yet; then accept it.
  /// In a jump (StepKind::relax or release) what the balance lacks has been released.
  void book(const Vector &u, double travel, StepKind kind);

  /// The last booked state; step numbers, iterations and refusals are the caller's.
  PassSample sample(const Vector &u, StepKind kind) const;

  /// Force of the ram at the evaluated state [N], whole coupon.
  double ram_force() const;

private:
  void look_at_nose(const Vector &u, PassSample &sample) const;
  void look_at_touching(PassSample &sample) const;

  const PassSetup          &setup_;
  const PassEquations<dim> &equations_;
  const CouponProbe<dim>   &probe_;
  double                    factor_ = 1; ///< this model's forces to the whole coupon's
  double                    force_measure_ = 0; ///< tool forces below it are none [N]
  std::vector<double>       face_lengths_; ///< of each face, in the plane of bending [mm]
  PassBooks                 books_;
};
} // namespace throughbend
