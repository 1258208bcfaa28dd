#pragma once
// The fields of a PassState and of what it is made of, for checkpoints: one list each. As
// in sample_fields.h, a member that is added to a struct and not to its list does not
// compile.

#include "solver/pass/pass_state.h"
#include "solver/pass/sample_fields.h"
#include "solver/pass/state_archive.h"

namespace throughbend
{
template <class Archive>
void transfer(Archive &a, Vector &value)
{
  std::vector<double> entries(value.begin(), value.end());
  a(entries);
  if constexpr (std::is_same_v<Archive, StateReader>)
  {
    value.reinit(static_cast<unsigned>(entries.size()));
    std::copy(entries.begin(), entries.end(), value.begin());
  }
}

template <class Archive>
void transfer(Archive &a, PlaneVector &value)
{
  auto &[x, y] = value;
  a(x, y);
}

template <class Archive>
void transfer(Archive &a, PlasticState &value)
{
  auto &[inverse_plastic_metric, equivalent_plastic_strain, back_strain] = value;
  a(inverse_plastic_metric, equivalent_plastic_strain, back_strain);
}

template <class Archive>
void transfer(Archive &a, ContactState &value)
{
  auto &[gap, pressure, stress, foot, slipping, normal] = value;
  a(gap, pressure, stress, foot, slipping, normal);
}

template <class Archive>
void transfer(Archive &a, ContactStiffness &value)
{
  auto &[normal, tangential, onset, band, reach, nose_reach, long_face, widest_band] =
      value;
  a(normal, tangential, onset, band, reach, nose_reach, long_face, widest_band);
}

template <class Archive>
void transfer(Archive &a, PassMemory &value)
{
  auto &[plastic, contact, stiffness, lip_stiffness, displacement] = value;
  a(plastic, contact, stiffness, lip_stiffness, displacement);
}

template <class Archive>
void transfer(Archive &a, PassBooks &value)
{
  auto &[travel, ram_force, largest_work, energy] = value;
  a(travel, ram_force, largest_work, energy);
}

template <class Archive>
void transfer(Archive &a, Standing &value)
{
  auto &[u, travel, nudge, step, trail, memory, books] = value;
  a(u, travel, nudge, step, trail, memory, books);
}

template <class Archive>
void transfer(Archive &a, PassCounts &value)
{
  auto &[steps, refusals, jumps, iterations, seconds] = value;
  a(steps, refusals, jumps, iterations, seconds);
}

template <class Archive>
void transfer(Archive &a, WorkCount &value)
{
  auto &[assembly, contact, solution, evaluations, factorisations] = value;
  a(assembly, contact, solution, evaluations, factorisations);
}

template <class Archive>
void transfer(Archive &a, SolverMemory &value)
{
  // An empty list stands for none: a matrix has at least one entry.
  std::vector<double> entries = value ? *value : std::vector<double>();
  a(entries);
  if constexpr (std::is_same_v<Archive, StateReader>)
    value = entries.empty()
                ? nullptr
                : std::make_shared<const std::vector<double>>(std::move(entries));
}

template <class Archive>
void transfer(Archive &a, StopReason &value)
{
  a.choice(value, StopReason::interrupted);
}

template <class Archive>
void transfer(Archive &a, AtCapacity &value)
{
  a.choice(value, AtCapacity::stop);
}

/// Visits the parts of a state, each with its name.
template <class State, class Visit>
void each_part(State &value, Visit visit)
{
  auto &[now, at_capacity, stop, beyond_stop, order, counts, work, solver, samples, beyond,
         observers] = value;
  visit("standing", now);
  visit("standing at the ram's capacity", at_capacity);
  visit("end of the push", stop);
  visit("end beyond the capacity", beyond_stop);
  visit("order at the capacity", order);
  visit("counts", counts);
  visit("work", work);
  visit("memory of the linear solver", solver);
  visit("samples", samples);
  visit("samples beyond the capacity", beyond);
  visit("what observers keep", observers);
}

template <class Archive>
void transfer(Archive &a, PassState &value)
{
  each_part(value, [&](const char *, auto &part) { a(part); });
}
} // namespace throughbend
