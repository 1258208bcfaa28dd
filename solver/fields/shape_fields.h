#pragma once
// The fields of shapes and of the rows of surface.csv, for checkpoints; as in
// solver/pass/state_fields.h, a member that is not listed does not compile.

#include "solver/pass/nodal_fields.h"
#include "solver/pass/state_fields.h"
#include "solver/record/surface_record.h"

namespace throughbend
{
template <class Archive>
void transfer(Archive &a, NodalState &value)
{
  auto &[travel, kind, u, values] = value;
  a(travel, kind, u, values);
}

template <class Archive>
void transfer(Archive &a, Moment &value)
{
  a.choice(value, Moment::end);
}

template <class Archive>
void transfer(Archive &a, Face &value)
{
  a.choice(value, Face::concave);
}

template <class Archive>
void transfer(Archive &a, AcrossRow &value)
{
  auto &[width_stress, edge_x, edge_y, edge_axial_strain, edge_plastic_strain,
         edge_axial_stress, edge_pressure, edge_triaxiality, largest_across,
         largest_axial_strain, largest_triaxiality, edge_shift, largest_shift] = value;
  a(width_stress, edge_x, edge_y, edge_axial_strain, edge_plastic_strain, edge_axial_stress,
    edge_pressure, edge_triaxiality, largest_across, largest_axial_strain,
    largest_triaxiality, edge_shift, largest_shift);
}

template <class Archive>
void transfer(Archive &a, SurfaceRow &value)
{
  auto &[face, position, x, y, axial_strain, plastic_strain, axial_stress, pressure, zone,
         triaxiality, across] = value;
  a(face, position, x, y, axial_strain, plastic_strain, axial_stress, pressure, zone,
    triaxiality, across);
}

template <class Archive>
void transfer(Archive &a, SurfaceShot &value)
{
  auto &[moment, travel, rows] = value;
  a(moment, travel, rows);
}
} // namespace throughbend
