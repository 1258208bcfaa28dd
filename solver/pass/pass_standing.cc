// The part of PassSimulation that says where a pass stands, and takes it up from there.

#include "inputs/text/input_error.h"
#include "solver/pass/pass_simulation.h"

#include <algorithm>

namespace throughbend
{
template <int dim>
double PassSimulation<dim>::seconds() const
{
  return earlier_seconds_ +
         std::chrono::duration<double>(std::chrono::steady_clock::now() - started_).count();
}

template <int dim>
Standing PassSimulation<dim>::standing() const
{
  return {u_, travel_, nudge_, step_, trail_, equations_.memory(), ledger_.books()};
}

template <int dim>
void PassSimulation<dim>::stand(const Standing &before)
{
  u_      = before.u;
  travel_ = before.travel;
  nudge_  = before.nudge;
  step_   = before.step;
  trail_  = before.trail;
  equations_.restore(before.memory);
  ledger_.restore(before.books);
}

template <int dim>
Standing PassSimulation<dim>::whole(const Standing &own) const
{
  const auto order = [this](const Vector &u) { return model_.in_common_order(u); };
  return {order(own.u),
          own.travel,
          own.nudge,
          own.step,
          own.trail.reordered(order),
          equations_.whole(own.memory),
          own.books};
}

template <int dim>
Standing PassSimulation<dim>::share(const Standing &whole) const
{
  const auto order = [this](const Vector &u) { return model_.in_own_order(u); };
  return {order(whole.u),
          whole.travel,
          whole.nudge,
          whole.step,
          whole.trail.reordered(order),
          equations_.share(whole.memory),
          whole.books};
}

template <int dim>
typename PassSimulation<dim>::StepBegin PassSimulation<dim>::present() const
{
  StepBegin present{standing(), counts_, equations_.work(), equations_.solver_memory()};
  present.counts.seconds = seconds();
  return present;
}

template <int dim>
void PassSimulation<dim>::begin_step()
{
  if (!watched())
    return;
  begin_ = present();
  if (keeper_ != nullptr && keeper_->due())
    keeper_->keep(state());
}

template <int dim>
PassState PassSimulation<dim>::state() const
{
  const StepBegin begin = begin_ ? *begin_ : present();
  PassState       state;
  state.now = whole(begin.standing);
  if (at_capacity_)
    state.at_capacity = whole(*at_capacity_);
  state.stop        = stop_;
  state.beyond_stop = beyond_stop_;
  state.order       = order_;
  state.counts      = begin.counts;
  state.work        = begin.work;
  state.solver      = begin.solver;
  state.samples     = samples_;
  state.beyond      = beyond_;
  for (const PassObserver<dim> *observer : observers_)
    state.observers.push_back(observer->memory());
  return state;
}

template <int dim>
std::string PassSimulation<dim>::fault_of(const Standing &standing) const
{
  if (standing.u.size() != u_.size() || !standing.trail.fits(u_.size()))
    return "it is of another model, of another number of unknowns";
  return equations_.fault_of(standing.memory);
}

template <int dim>
std::string PassSimulation<dim>::fault_of(const PassState &state) const
{
  std::string fault = fault_of(state.now);
  if (fault.empty() && state.at_capacity)
    fault = fault_of(*state.at_capacity);
  const bool ended = state.stop || state.beyond_stop || state.at_capacity;
  if ((ended && (!state.stop || state.samples.empty())) ||
      (state.at_capacity && state.beyond.empty()))
    fault = "it contradicts itself: an end without a record";
  for (const auto *record : {&state.samples, &state.beyond})
    if (std::any_of(record->begin(), record->end(),
                    [this](const PassSample &sample)
                    { return sample.flaws.size() != model_.flaws().size(); }))
      fault = "it is of another model, of other flaws";
  if (state.observers.size() < observers_.size())
    fault = "it is of another kind of run";
  for (std::size_t i = 0; i < observers_.size() && fault.empty(); ++i)
    fault = observers_[i]->fault_of(state.observers[i]);
  return fault;
}

template <int dim>
void PassSimulation<dim>::resume(const PassState &state)
{
  if (state.observers.size() < observers_.size() ||
      !equations_.restore_solver(state.solver))
    throw InputError("the state is of another kind of run");
  stand(share(state.now));
  at_capacity_.reset();
  if (state.at_capacity)
    at_capacity_ = share(*state.at_capacity);
  stop_            = state.stop;
  beyond_stop_     = state.beyond_stop;
  order_           = state.order;
  counts_          = state.counts;
  earlier_seconds_ = state.counts.seconds;
  samples_         = state.samples;
  beyond_          = state.beyond;
  equations_.go_on_counting(state.work);
  for (std::size_t i = 0; i < observers_.size(); ++i)
    observers_[i]->recall(state.observers[i]);
}

template double      PassSimulation<2>::seconds() const;
template double      PassSimulation<3>::seconds() const;
template Standing    PassSimulation<2>::standing() const;
template Standing    PassSimulation<3>::standing() const;
template void        PassSimulation<2>::stand(const Standing &);
template void        PassSimulation<3>::stand(const Standing &);
template Standing    PassSimulation<2>::whole(const Standing &) const;
template Standing    PassSimulation<3>::whole(const Standing &) const;
template Standing    PassSimulation<2>::share(const Standing &) const;
template Standing    PassSimulation<3>::share(const Standing &) const;
template void        PassSimulation<2>::begin_step();
template void        PassSimulation<3>::begin_step();
template PassState   PassSimulation<2>::state() const;
template PassState   PassSimulation<3>::state() const;
template std::string PassSimulation<2>::fault_of(const PassState &) const;
template std::string PassSimulation<3>::fault_of(const PassState &) const;
template void        PassSimulation<2>::resume(const PassState &);
template void        PassSimulation<3>::resume(const PassState &);
} // namespace throughbend
