#pragma once
// One pass from first touch until the coupon is out (or is not), then the release. Drives
// the equations along the travel; decides on steps, jumps and events, and hands the record
// to findings for the verdict. A jam is returned, not thrown.

#include "solver/fem/newton.h"
#include "solver/pass/findings.h"
#include "solver/pass/pass_ledger.h"
#include "solver/pass/pass_observer.h"
#include "solver/pass/step_size.h"
#include "solver/pass/travel_trail.h"

#include <functional>
#include <memory>
#include <vector>

namespace throughbend
{
struct PassCounts
{
  int    steps = 0, refusals = 0, jumps = 0, iterations = 0;
  double seconds = 0; ///< wall time of run() [s]
};

template <int dim>
class PassSimulation
{
public:
  /// dim = 2: plane strain, forces per mm times the width; dim = 3: half the width,
  /// symmetric about the mid-plane. The case must be valid (see inputs/validation).
  PassSimulation(const Case &c, MPI_Comm communicator);

  void attach(PassObserver<dim> &observer); ///< must outlive run()

  /// Where the ram's force runs out the pass goes on with a ram of any force, to find what
  /// it would take, and then back. Not after this.
  void stop_at_capacity() { go_beyond_ = false; }

  /// Asked after each step; true stops the pass, which then ends undecided.
  void stop_when(std::function<bool()> asked) { asked_to_stop_ = std::move(asked); }

  Finding run();

  const Release                 &release() const { return release_; }
  const std::vector<PassSample> &samples() const { return samples_; }
  /// Beyond the ram's capacity; empty when its force did not run out.
  const std::vector<PassSample> &samples_beyond() const { return beyond_; }
  const PassCounts              &counts() const { return counts_; }
  const CouponModel<dim>        &model() const { return model_; }
  PassEquations<dim>            &equations() { return equations_; }
  const Vector                  &displacement() const { return u_; }

private:
  /// What the next step starts from; may be taken up again later.
  struct Standing
  {
    Vector                          u;
    double                          travel = 0, nudge = 0;
    StepSize                        step;
    TravelTrail                     trail;
    PassMemory                      memory;
    typename PassLedger<dim>::Books books;
  };
  Standing standing() const;
  void     stand(const Standing &before);

  BeyondRecord              look_beyond();
  std::optional<StopReason> next_step();
  std::optional<StopReason> stop_after_step() const;
  NewtonReport              attempt(const LoadPoint &load, Vector &u);
  bool                      jump();
  bool                      settle(double travel, double first_drag, double least_move);
  void                      accept(const Vector &u, double travel, StepKind kind);
  void                      record(StepKind kind, int iterations, int refusals);
  std::optional<StopReason> out() const;
  void                      take_tools_away();
  void                      note(const std::string &line);
  PassView<dim>             view() const;

  const Case         case_;
  CouponModel<dim>   model_;
  CouponProbe<dim>   probe_;
  PassEquations<dim> equations_;
  PassLedger<dim>    ledger_;
  NewtonSettings     newton_;
  StepSize           step_;
  TravelTrail        trail_;
  Vector             u_;
  double             travel_     = 0;
  double             drag_       = 0; ///< of a step of the largest size [N/mm^4]
  double             drag_scale_ = 0; ///< E / t^2 [N/mm^4]
  double             nudge_ = 0; ///< travel of the last jump [mm], fading with good steps
  std::vector<PassObserver<dim> *> observers_;
  std::vector<PassSample>          samples_, beyond_;
  std::vector<PassSample>         *record_    = &samples_; ///< that steps are added to
  double                           limit_     = 0;         ///< of the ram force [N]
  bool                             go_beyond_ = true;
  std::function<bool()>            asked_to_stop_;
  PassCounts                       counts_;
  Release                          release_;
};
} // namespace throughbend
