#pragma once
// The fields of a PassSample and of what it is made of, for checkpoints: one list each. A
// field that is added to a struct and not to its list does not compile, because the
// bindings name every member there is.

#include "solver/outcome/pass_sample.h"

namespace throughbend
{
template <class Archive>
void transfer(Archive &a, StepKind &value)
{
  a.choice(value, StepKind::release);
}

template <class Archive>
void transfer(Archive &a, ToolPlace &value)
{
  auto &[duty, side] = value;
  a.choice(duty, ToolDuty::enclose);
  a.choice(side, ToolSide::right);
}

template <class Archive>
void transfer(Archive &a, ToolContact &value)
{
  auto &[place, force_x, force_y, normal, slipping, pressure, line_load, patch_length,
         patch_pressure, smoothed_pressure, from_below, face_over_radius] = value;
  a(place, force_x, force_y, normal, slipping, pressure, line_load, patch_length,
    patch_pressure, smoothed_pressure, from_below, face_over_radius);
}

template <class Archive>
void transfer(Archive &a, EnergyBalance &value)
{
  auto &[ram_work, elastic, plastic, friction, contact, regularisation, released, error] =
      value;
  a(ram_work, elastic, plastic, friction, contact, regularisation, released, error);
}

template <class Archive>
void transfer(Archive &a, Leg &value)
{
  auto &[angle, tip_x, tip_y] = value;
  a(angle, tip_x, tip_y);
}

template <class Archive>
void transfer(Archive &a, FlawGap &value)
{
  auto &[opening, overlap] = value;
  a(opening, overlap);
}

template <class Archive>
void transfer(Archive &a, WidthShape &value)
{
  auto &[nose_gap_middle, nose_gap_edge, convex_curl, concave_curl, convex_width,
         concave_width, edge_strain, edge_strain_at, largest_strain, largest_strain_at,
         largest_strain_across, crown_width_stress, crown_on_nose] = value;
  a(nose_gap_middle, nose_gap_edge, convex_curl, concave_curl, convex_width, concave_width,
    edge_strain, edge_strain_at, largest_strain, largest_strain_at, largest_strain_across,
    crown_width_stress, crown_on_nose);
}

template <class Archive>
void transfer(Archive &a, PassSample &value)
{
  auto &[step, kind, travel, ram_force, tools, energy, left, right, crown_strain,
         outer_strain, outer_strain_at, plastic_strain, nose_gap, wrap, walk, tilt,
         penetration, equilibrium_error, iterations, refusals, flaws, point_plastic_strain,
         concave_plastic_strain, width, smooth_force, ripple] = value;
  a(step, kind, travel, ram_force, tools, energy, left, right, crown_strain, outer_strain,
    outer_strain_at, plastic_strain, nose_gap, wrap, walk, tilt, penetration,
    equilibrium_error, iterations, refusals, flaws, point_plastic_strain,
    concave_plastic_strain, width, smooth_force, ripple);
}
} // namespace throughbend
