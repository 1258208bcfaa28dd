#include "solver/pass/pass_simulation.h"

#include "solver/fem/strength_mixes.h"
#include "solver/outcome/accuracy.h"
#include "solver/outcome/exit.h"

#include <algorithm>
#include <cassert>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <utility>

namespace throughbend
{
namespace
{
// Times the standing drag, on a coupon that rides loose. The standing one hardly holds it:
// it jumped at every step. Ten times is still a thousandth of the bending force by default,
// as little as a tool that holds nothing.
constexpr double loose_drag = 10;

template <typename... Values>
std::string line(const char *format, Values... values)
{
  char buffer[240];
  std::snprintf(buffer, sizeof buffer, format, values...);
  return buffer;
}
} // namespace

template <int dim>
PassSimulation<dim>::PassSimulation(PassSetup setup, MPI_Comm communicator)
    : setup_(std::move(setup)), model_(setup_.coupon, communicator),
      probe_(model_, setup_.coupon),
      equations_(model_, setup_.materials, setup_.tools, setup_.contact),
      ledger_(setup_, equations_, probe_),
      newton_(newton_settings(setup_.goal, model_.whole_coupon_factor())),
      step_(0.03 * setup_.step.largest, 5e-3 * setup_.step.largest, setup_.step.longest()),
      u_(model_.n_dofs())
{
  if (setup_.mixing.present())
    equations_.equilibrium().mix(strength_mixes(setup_.mixing, setup_.coupon, model_));
}

template <int dim>
void PassSimulation<dim>::attach(PassObserver<dim> &observer)
{
  observers_.push_back(&observer);
}

template <int dim>
PassView<dim> PassSimulation<dim>::view() const
{
  return {setup_, model_, equations_, probe_, u_};
}

template <int dim>
void PassSimulation<dim>::note(const std::string &text)
{
  for (PassObserver<dim> *observer : observers_)
    observer->noted(text);
}

template <int dim>
void PassSimulation<dim>::stop_when(std::function<bool()> asked)
{
  newton_.asked_to_stop = std::move(asked);
}

template <int dim>
double PassSimulation<dim>::limit() const
{
  const double wrecking = setup_.force.wrecking;
  return is_beyond() ? wrecking : std::min(setup_.ram.capacity, wrecking);
}

template <int dim>
Finding PassSimulation<dim>::run()
{
  started_ = std::chrono::steady_clock::now();
  for (PassObserver<dim> *observer : observers_)
    observer->began(view());
  const Finding finding = make_pass();
  if (interrupted_)
  {
    if (begin_)
      stand(begin_->standing);
    if (keeper_ != nullptr)
      keeper_->keep(state());
  }
  counts_.seconds = seconds();
  for (PassObserver<dim> *observer : observers_)
    observer->ended(view(), finding, release_);
  return finding;
}

/// From wherever the pass stands to its end, or to an interrupt.
template <int dim>
Finding PassSimulation<dim>::make_pass()
{
  const auto interrupted = [this]
  { return decide(setup_, samples_, StopReason::interrupted); };
  if (!stop_)
  {
    const StopReason reason = push_on();
    if (interrupted_)
      return interrupted();
    stop_ = reason;
  }
  std::optional<BeyondRecord> beyond;
  if (stop_ == StopReason::force_limit && order_ == AtCapacity::go_on &&
      setup_.ram.capacity < setup_.force.wrecking)
  {
    if (!beyond_stop_)
      look_beyond();
    if (interrupted_)
      return interrupted();
    beyond = {beyond_, *beyond_stop_};
  }
  const Finding finding = decide(setup_, samples_, *stop_, beyond);
  if (finding.outcome != Outcome::undecided)
    take_tools_away();
  return interrupted_ ? interrupted() : finding;
}

/// Steps until one says why there is no further one.
template <int dim>
StopReason PassSimulation<dim>::push_on()
{
  std::optional<StopReason> stop;
  while (!stop)
    stop = next_step();
  interrupted_ = stop == StopReason::interrupted;
  return *stop;
}

/// Goes on with a ram of any force, and back to where the ram stopped.
template <int dim>
void PassSimulation<dim>::look_beyond()
{
  if (!is_beyond()) // else resumed there
  {
    note(line(
        "travel %.3f mm: the ram's capacity is reached; continuing to find the force it "
        "would take",
        travel_));
    at_capacity_ = standing();
    beyond_.push_back(samples_.back());
    step_.restart();
  }
  const StopReason reason = push_on();
  if (interrupted_)
    return;
  beyond_stop_ = reason;
  stand(*at_capacity_);
  at_capacity_.reset();
}

/// Iterations times unknowns since the ram's force ran out. Made of the record, so that a
/// resumed pass stops where an unbroken one does.
template <int dim>
double PassSimulation<dim>::work_beyond() const
{
  // What a refused step and a jump take, from memory of many passes.
  constexpr double refused = 15, jumped = 150;
  double           iterations = 0;
  for (const PassSample &sample : beyond_)
    iterations += sample.iterations + refused * sample.refusals +
                  (sample.kind == StepKind::relax ? jumped : 0.);
  return iterations * model_.n_dofs();
}

/// Newton at `load`, stiffening springs until neither tools nor the lips of flaws penetrate
/// too deep.
template <int dim>
NewtonReport PassSimulation<dim>::attempt(const LoadPoint &load, Vector &u,
                                          const NewtonSettings &newton)
{
  NewtonReport report    = solve_newton(equations_, u, load, newton);
  const double limit     = setup_.goal.penetration;
  const double lip_limit = 0.5 * shut_overlap * setup_.coupon.thickness;
  const double stiffest  = 100 * setup_.contact.normal;
  for (int i = 0; i < 4 && report.converged(); ++i)
  {
    const double deepest = equations_.contact().deepest();
    double       shut    = 0;
    for (const LipGap &gap : probe_.flaw_gaps(u))
      shut = std::max(shut, gap.overlap);
    const auto stiffer = [](double over) { return std::clamp(1.5 * over, 1.5, 4.); };
    // Lips that slide along each other leave their pairs: what looks like overlap then
    // does not go away, however stiff the springs.
    const bool stiffen_lips = shut > lip_limit && equations_.lips().stiffness() < stiffest;
    if (deepest <= limit && !stiffen_lips)
      break;
    if (deepest > limit)
    {
      equations_.contact().stiffen(stiffer(deepest / limit));
      note(line("travel %.3f mm: penetration %.4f mm, contact springs stiffened %.1f times",
                load.travel, deepest, stiffer(deepest / limit)));
    }
    if (stiffen_lips)
    {
      equations_.lips().stiffen(stiffer(shut / lip_limit));
      note(line(
          "travel %.3f mm: lips overlap by %.4f mm, their springs stiffened %.1f times",
          load.travel, shut, stiffer(shut / lip_limit)));
    }
    const NewtonReport again = solve_newton(equations_, u, load, newton);
    report.end               = again.end;
    report.residual          = again.residual;
    report.iterations += again.iterations;
  }
  return report;
}

template <int dim>
std::optional<StopReason> PassSimulation<dim>::next_step()
{
  if (counts_.steps + counts_.refusals >= setup_.step.most)
    return StopReason::step_limit;
  if (is_beyond() && work_beyond() > setup_.step.work_beyond)
  {
    note(line("travel %.3f mm: a quick mesh does not follow the coupon any farther beyond "
              "the ram's capacity; mesh.level = standard does",
              travel_));
    return StopReason::step_limit;
  }
  if (newton_.asked_to_stop && newton_.asked_to_stop())
    return StopReason::interrupted;
  begin_step();

  const double early = 0.03 * setup_.step.largest + 0.15 * travel_;
  const double exit  = record().empty() ? setup_.ram.stroke
                                        : room_to_exit(setup_, record().back()) +
                                             0.002 * setup_.coupon.thickness;
  // While the hinge forms the force bends sharply: steps in proportion to the travel follow
  // it.
  double size = std::min(
      {step_.size(), early, setup_.ram.stroke - travel_, exit, setup_.step.at(travel_)});
  const double wished   = size;
  const bool   loose    = rides_loose(record());
  const double drag     = loose ? loose_drag : 1;
  int          refusals = 0, iterations = 0;
  Vector       u(u_);
  for (int bracketing = 0;;)
  {
    // Drag goes with the speed, not with the step: a step that is cut is held the harder,
    // and so becomes easier, while the regularisation's work along the travel stays the
    // same.
    const double    travel    = travel_ + size;
    const LoadPoint load      = {travel, drag * setup_.regularisation.standing *
                                             setup_.step.largest / size};
    u                         = first_guess(load, loose);
    const NewtonReport report = attempt(load, u, newton_);
    if (report.end == NewtonEnd::interrupted)
      return StopReason::interrupted;
    iterations += report.iterations;
    counts_.iterations += report.iterations;
    if (!report.converged() || lets_go(u))
    {
      ++refusals;
      ++counts_.refusals;
      step_.refused(size);
      size = step_.size();
      // Where the jump before led to a place from which there is no way on either, shorter
      // steps only find that out again.
      const bool jumped_last = !record().empty() && record().back().kind == StepKind::relax;
      if (!step_.too_small() && !(jumped_last && refusals >= 2))
        continue;
      const Settled jumped = jump();
      if (jumped == Settled::interrupted)
        return StopReason::interrupted;
      return jumped == Settled::at_rest ? stop_after_step() : labour(wished);
    }
    // The force limit is hit, not stepped over.
    const double force = ledger_.ram_force(),
                 last  = record().empty() ? 0. : record().back().ram_force;
    if (force > 1.0004 * limit() && last < limit() && bracketing < 40)
    {
      ++bracketing;
      size *= std::clamp((limit() - last) / (force - last), 0.05, 0.95);
      continue;
    }
    accept(u, travel, StepKind::push);
    step_.accepted(size, report.iterations, refusals);
    record_step(StepKind::push, iterations, refusals);
    nudge_ = refusals == 0 ? nudge_ / 4 : nudge_;
    return stop_after_step();
  }
}

/// Whether a push to the evaluated `u` would lose the coupon. Newton can end on a shape far
/// away, where the way there is a jump: only relaxation follows that.
template <int dim>
bool PassSimulation<dim>::lets_go(const Vector &u) const
{
  if (record().empty() || record().back().kind != StepKind::push)
    return false;
  double largest = 0;
  for (const PassSample &sample : record())
    largest = std::max(largest, sample.ram_force);
  return loses_contact(setup_, largest, record().back().ram_force, ledger_.ram_force(),
                       probe_.highest_y(u));
}

/// Where no step and no jump leads on: Newton with more patience, from where the steps
/// failed. Metal that does not harden, and a sharp corner that digs in, let the unbalanced
/// force hover before it comes down; in an ordinary step it never would.
template <int dim>
std::optional<StopReason> PassSimulation<dim>::labour(double size)
{
  note(line("travel %.3f mm: no step and no jump succeeds; allowing more iterations",
            travel_));
  NewtonSettings patient = newton_;
  patient.patience       = 30;
  patient.max_iterations = 60;
  constexpr int tries    = 8;
  for (int refusals = 0; refusals < tries; ++refusals, size *= 0.4)
  {
    const double       travel = travel_ + size;
    const LoadPoint    load   = {travel,
                                 setup_.regularisation.standing * setup_.step.largest / size};
    Vector             u      = first_guess(load, false);
    const NewtonReport report = attempt(load, u, patient);
    if (report.end == NewtonEnd::interrupted)
      return StopReason::interrupted;
    counts_.iterations += report.iterations;
    // The force limit is not stepped over, but for the shortest step.
    const bool over = report.converged() && ledger_.ram_force() > 1.0004 * limit();
    if (!report.converged() || (over && refusals + 1 < tries))
    {
      ++counts_.refusals;
      continue;
    }
    accept(u, travel, StepKind::push);
    step_.accepted(size, report.iterations, 1);
    record_step(StepKind::push, report.iterations, refusals);
    return stop_after_step();
  }
  return StopReason::stuck;
}

/// An event at the state just recorded, if any.
template <int dim>
std::optional<StopReason> PassSimulation<dim>::stop_after_step() const
{
  const PassSample &now = record().back();
  if (shut_flaw(setup_, now))
    return StopReason::flaw_shut;
  if (now.ram_force >= 0.999 * limit())
    return StopReason::force_limit;
  if (is_out(setup_, now, probe_.outermost_x(u_)))
    return StopReason::out;
  if (travel_ >= setup_.ram.stroke * (1 - 1e-9))
    return StopReason::stroke_end;
  return std::nullopt;
}

template <int dim>
void PassSimulation<dim>::accept(const Vector &u, double travel, StepKind kind)
{
  assert(model_.max_over_ranks(travel) == travel &&
         model_.max_over_ranks(-travel) == -travel && "the ranks go different ways");
  assert((kind != StepKind::push || travel > travel_) && "a push goes down");
  ledger_.book(u, travel, kind);
  equations_.accept(u);
  u_      = u;
  travel_ = travel;
  if (kind == StepKind::push)
    trail_.add(travel, u);
}

template <int dim>
void PassSimulation<dim>::record_step(StepKind kind, int iterations, int refusals)
{
  PassSample sample = ledger_.sample(u_, kind);
  ++counts_.steps;
  // Steps beyond the capacity follow the last one before it; the release does, too.
  const int before  = is_beyond() ? static_cast<int>(samples_.size()) - 1 : 0;
  sample.step       = before + static_cast<int>(record().size()) + 1;
  sample.iterations = iterations;
  sample.refusals   = refusals;
  record().push_back(sample);
  for (PassObserver<dim> *observer : observers_)
    if (is_beyond())
      observer->step_beyond(sample);
    else
      observer->step_accepted(view(), sample);
  begin_.reset();
}

template class PassSimulation<2>;
template class PassSimulation<3>;
} // namespace throughbend
