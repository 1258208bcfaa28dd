#pragma once
// Charts of limits and of the bands of a chosen fixture, each key along an axis of its own.

#include "postprocess/study/drawing.h"
#include "postprocess/study/study_words.h"

namespace throughbend
{
/// Every pass at its value, the changes between them, what check says, the case's own.
Drawing limit_chart(const ReportedStudy &study);

/// Passes that differ from the case's own values in this key alone.
std::vector<std::size_t> passes_along(const StudyRecord &record, std::size_t key);

/// The band of each dimension of the chosen fixture, with what limits it on each side.
Drawing band_chart(const ReportedStudy &study);
} // namespace throughbend
