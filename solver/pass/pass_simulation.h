#pragma once
// One pass from first touch until the coupon is out (or is not), then the release. Drives
// the equations along the travel; decides on steps, jumps and events, and hands the record
// to findings for the verdict. A jam is returned, not thrown.

#include "solver/fem/newton.h"
#include "solver/outcome/findings.h"
#include "solver/pass/pass_ledger.h"
#include "solver/pass/pass_observer.h"
#include "solver/pass/pass_state.h"
#include "solver/pass/state_keeper.h"

#include <chrono>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

namespace throughbend
{
template <int dim>
class PassSimulation
{
public:
  /// dim = 2: plane strain, forces per mm times the width; dim = 3: half the width,
  /// symmetric about the mid-plane. The set-up is one of that dimension.
  PassSimulation(PassSetup setup, MPI_Comm communicator);

  void attach(PassObserver<dim> &observer); ///< must outlive run()

  /// Where the ram's force runs out the pass goes on with a ram of any force, to find what
  /// it would take, and then back. Not after this.
  void stop_at_capacity() { order_ = AtCapacity::stop; }

  /// Asked in each step, between Newton's iterations; true stops the pass, which then is
  /// interrupted(), undecided, and stands as at the last whole step. All ranks must be
  /// given the same answer, and true for good once it was true.
  void stop_when(std::function<bool()> asked);

  /// Is given the state when due, and when the pass is interrupted. On all ranks or on
  /// none. Must outlive run().
  void keep_with(StateKeeper &keeper) { keeper_ = &keeper; }

  /// Why the state cannot be one of this pass and of the observers attached so far; empty:
  /// it can.
  std::string fault_of(const PassState &state) const;

  /// Goes on from a state without a fault, whole on every rank, with as many observers,
  /// attached before; then run(). Ranks beyond the first may lack the last ones. Throws
  /// InputError where an observer cannot take up what it kept in mind.
  void resume(const PassState &state);

  Finding run();
  bool    interrupted() const { return interrupted_; }

  /// The present state; during a step, and after an interrupt, that of its beginning. All
  /// ranks must call it, and it is complete on the first.
  PassState state() const;

  const Release                 &release() const { return release_; }
  const std::vector<PassSample> &samples() const { return samples_; }
  /// Beyond the ram's capacity; empty when its force did not run out.
  const std::vector<PassSample> &samples_beyond() const { return beyond_; }
  const PassCounts              &counts() const { return counts_; }
  const CouponModel<dim>        &model() const { return model_; }
  PassEquations<dim>            &equations() { return equations_; }
  const Vector                  &displacement() const { return u_; }

private:
  /// What an interrupted step is forgotten by; samples and observers only change at its
  /// end.
  struct StepBegin
  {
    Standing     standing;
    PassCounts   counts;
    WorkCount    work;
    SolverMemory solver;
  };
  /// How a search for the next equilibrium at held tools has ended.
  enum class Settled
  {
    at_rest,
    nowhere,
    interrupted
  };

  bool        watched() const { return keeper_ != nullptr || newton_.asked_to_stop; }
  Standing    standing() const;
  void        stand(const Standing &before);
  Standing    whole(const Standing &own) const; ///< complete on the first rank
  Standing    share(const Standing &whole) const;
  StepBegin   present() const;
  void        begin_step();
  std::string fault_of(const Standing &standing) const;
  bool        is_beyond() const { return at_capacity_.has_value(); }
  double      work_beyond() const;
  double      limit() const;   ///< of the ram force [N]
  double      seconds() const; ///< of wall time, earlier parts of the pass included

  std::vector<PassSample>       &record() { return is_beyond() ? beyond_ : samples_; }
  const std::vector<PassSample> &record() const { return is_beyond() ? beyond_ : samples_; }

  Finding                   make_pass();
  StopReason                push_on();
  void                      look_beyond();
  std::optional<StopReason> next_step();
  std::optional<StopReason> stop_after_step() const;
  NewtonReport attempt(const LoadPoint &load, Vector &u, const NewtonSettings &newton);
  bool         lets_go(const Vector &u) const;
  Vector       first_guess(const LoadPoint &load, bool loose);
  Vector       carried_down(double way) const;
  std::optional<StopReason> labour(double size);
  Settled                   jump();
  Settled       settle(double travel, double first_regularisation, double carried = 0);
  void          accept(const Vector &u, double travel, StepKind kind);
  void          record_step(StepKind kind, int iterations, int refusals);
  void          take_tools_away();
  void          note(const std::string &line);
  PassView<dim> view() const;

  const PassSetup    setup_;
  CouponModel<dim>   model_;
  CouponProbe<dim>   probe_;
  PassEquations<dim> equations_;
  PassLedger<dim>    ledger_;
  NewtonSettings     newton_;
  StepSize           step_;
  TravelTrail        trail_;
  Vector             u_;
  double             travel_ = 0;
  double             nudge_  = 0; ///< travel of the last jump [mm], fading with good steps
  std::vector<PassObserver<dim> *>      observers_;
  std::vector<PassSample>               samples_, beyond_;
  std::optional<Standing>               at_capacity_; ///< while the pass is beyond it
  std::optional<StopReason>             stop_, beyond_stop_;
  AtCapacity                            order_  = AtCapacity::go_on;
  StateKeeper                          *keeper_ = nullptr;
  std::optional<StepBegin>              begin_; ///< of the present step, when it is watched
  bool                                  interrupted_ = false;
  std::chrono::steady_clock::time_point started_{};
  double                                earlier_seconds_ = 0; ///< before a resume
  PassCounts                            counts_;
  Release                               release_;
};
} // namespace throughbend
