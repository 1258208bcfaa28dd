#pragma once
// The map of a study: cells coloured and lettered by finding, the borders between findings,
// curves of equal force and stretch, the rule's range and the case's own point.

#include "postprocess/study/drawing.h"
#include "postprocess/study/study_grid.h"
#include "postprocess/study/study_words.h"

namespace throughbend
{
/// Of two keys; of three the layer at a level of the third.
Drawing map_chart(const ReportedStudy &study, const StudyGrid &grid, std::size_t layer,
                  const ReaderUnits &units);

/// Of one key: a strip of cells above force and stretch along the key.
Drawing strip_chart(const ReportedStudy &study, const StudyGrid &grid,
                    const ReaderUnits &units);

/// The marks that stand in these passes, two to a row, from `top` on. Gives the height.
double draw_legend(Drawing &drawing, const std::vector<StudyPass> &passes, double top);

/// Levels in the key's shown unit.
std::vector<double> shown_levels(const StudyKey &key, std::vector<double> values);

/// The field of a figure over the first two keys in shown units, as its curves are drawn:
/// known only where the coupon has left the fixture, so that its peak is behind it.
struct ContourField;
ContourField field_of(const ReportedStudy &study, const StudyGrid &grid, std::size_t layer,
                      const std::string &figure);
} // namespace throughbend
