#pragma once
// The few passes of a spread or a choice that tell the most: least, middle and largest
// force, and the first of each finding but through.

#include "postprocess/study/drawing.h"
#include "postprocess/study/study_words.h"

namespace throughbend
{
struct NotablePasses
{
  std::vector<std::size_t> passes;            ///< their numbers
  Drawing                  drawing{0, 0, ""}; ///< a row for each, to be picked
};
NotablePasses notable_passes(const ReportedStudy &study);
} // namespace throughbend
