#pragma once
// The charts of one run, and those that lay several runs over each other. Decides what is
// shown and how it is marked; the drawing itself is postprocess/charts/svg_chart.

#include "postprocess/charts/svg_chart.h"
#include "postprocess/runs/run_record.h"
#include "postprocess/shapes/pass_shapes.h"
#include "postprocess/words/reader_units.h"

#include <optional>

namespace throughbend
{
// None where the run lacks the columns, or the shapes, that the chart is made of.
std::optional<Chart> force_chart(const RunRecord &run, const ReaderUnits &units);
std::optional<Chart> face_strain_chart(const RunRecord &run, const PassShapes &shapes,
                                       const ReaderUnits &units);
std::optional<Chart> nose_gap_chart(const RunRecord &run, const ReaderUnits &units);
std::optional<Chart> wrap_chart(const RunRecord &run, const ReaderUnits &units);
std::optional<Chart> pressure_chart(const RunRecord &run, const ReaderUnits &units);

/// Ram force, or largest strain of the convex face, of all runs over the travel.
std::optional<Chart> force_comparison(const std::vector<RunRecord> &runs,
                                      const ReaderUnits            &units);
std::optional<Chart> strain_comparison(const std::vector<RunRecord> &runs,
                                       const ReaderUnits            &units);
} // namespace throughbend
