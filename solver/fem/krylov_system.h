#pragma once
// The one-rank linear system of larger models: GMRES on the true matrix, preconditioned by
// LDL^T of its symmetric part. Half the time and memory of an unsymmetric factorisation,
// and friction's unsymmetric part (1e-4 to 1e-3 of the whole) costs a few iterations. For
// large bodies a two-level cycle takes the place of LDL^T. Where GMRES does not get there,
// the next dearer solver is tried: LDL^T, then the whole matrix. Once the cycle has missed,
// LDL^T serves until the next accepted state, with factors of an earlier matrix as long as
// they lead there.

#include "solver/fem/cell_crew.h"
#include "solver/fem/coarse_space.h"
#include "solver/fem/row_product.h"
#include "solver/fem/serial_system.h"
#include "solver/fem/symmetric_factor.h"

namespace throughbend
{
struct KrylovSettings
{
  enum class Factor
  {
    simplicial,
    halved, ///< simplicial, where no small cut halves the coupon
    multifrontal,
    two_level ///< needs a coarse space
  };
  Factor factor        = Factor::simplicial;
  double tolerance     = 0; ///< residual at which GMRES stops, over the right side's [-]
  bool   keeps_factors = false; ///< tries those of an earlier matrix first

  /// In the plane as exact as a direct solver for Newton, so that half and whole models
  /// agree. In 3D as exact as pays (tests/benchmarks/TABLE.md).
  static KrylovSettings plane() { return {Factor::halved, 1e-7}; }
  static KrylovSettings space() { return {Factor::multifrontal, 1e-5}; }
  /// Here every iteration costs.
  static KrylovSettings large_space() { return {Factor::two_level, 1e-3}; }
};

class KrylovSystem : public SerialSystem
{
public:
  KrylovSystem(SharedMatrix matrix, KrylovSettings settings, CoarseSpace coarse = {});
  bool        solve(const Vector &right_side, Vector &solution) override;
  std::string solver_name() const override;
  /// Of the whole matrix's factors, if they were ever needed.
  SolverMemory memory() const override
  {
    return dearer_ == nullptr ? nullptr : dearer_->memory();
  }
  bool restore(const SolverMemory &memory) override;
  void forget_factors() override;

  int iterations() const { return iterations_; } ///< of all solves
  int fallbacks() const { return fallbacks_; }   ///< solves that a dearer solver made
  int factorisations() const { return factorisations_; } ///< of what preconditions GMRES

private:
  LinearSystem &dearer();
  bool          iterate(const Vector &right, Vector &solution);
  bool          iterate_with_factors(const Vector &right, Vector &solution);

  KrylovSettings                   settings_;
  CellCrew                         crew_;
  RowProduct                       product_;
  SymmetricPart                    part_;
  std::unique_ptr<SymmetricFactor> factor_;
  std::unique_ptr<LinearSystem>    dearer_;              ///< made when first needed
  bool                             has_factors_ = false; ///< which are still of use
  bool                             missed_      = false; ///< since the last accepted state
  int                              iterations_ = 0, fallbacks_ = 0, factorisations_ = 0;
};
} // namespace throughbend
