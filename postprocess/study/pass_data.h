#pragma once
// The passes of a study as the JSON from which a page draws them: findings and figures in
// words, force curves, and the outlines of coupon and tools at a few moments. Coordinates
// are cut to 16 bits, finer than a screen shows.

#include "postprocess/study/study_words.h"

#include <string>
#include <vector>

namespace throughbend
{
struct PassData
{
  std::string json;
  std::size_t moments = 0;     ///< kept of the pass that has most
  std::size_t points  = 0;     ///< of a coupon's outline, at most
  bool        thinned = false; ///< moments or points were left out for the size
};

/// The passes with these numbers. Moments, then points of outlines are left out evenly
/// until their text needs at most `most_bytes`; the first and the last moment always stay.
PassData pass_data(const ReportedStudy &study, const std::vector<std::size_t> &passes,
                   const ReaderUnits &units, std::size_t most_bytes);
} // namespace throughbend
