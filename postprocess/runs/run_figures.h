#pragma once
// The figures of a run that people compare, one by one: value, how it is shown, and how far
// the computation alone may put it off. Names and values are those of the report. Reads
// run.json; computes nothing that is not there.

#include "inputs/units/display_units.h"
#include "postprocess/runs/run_record.h"

#include <string>
#include <vector>

namespace throughbend
{
/// How far a figure may be off by mesh, step and contact: up or down by so much.
struct FigureBand
{
  double      width = 0; ///< in the figure's unit; NaN: no band is known
  std::string source;    ///< where the band is from, in a few words
};

struct ComparedFigure
{
  std::string name; ///< as in the report
  double      value = 0;
  /// With its unit, in either family; an angle or a share is the same in both.
  std::string (*text)(double, UnitSystem) = nullptr;
  FigureBand band;
};

/// Those that the run has. Throws InputError where run.json holds something of another
/// kind.
std::vector<ComparedFigure> compared_figures(const RunRecord &run);

/// Why nothing is known of the mesh and step error of a run, as `mesh.layers is 2`; empty
/// where it is known. Bands hold for the levels of the mesh with default settings, or with
/// stricter ones.
std::string why_no_band(const RunRecord &run);
} // namespace throughbend
