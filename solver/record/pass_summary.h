#pragma once
// What a pass came to, gathered for its summary: one place for the verb that makes one pass
// and for a study that makes many, so that a figure has one value in both.

#include "solver/record/run_summary.h"
#include "solver/record/surface_record.h"

#include <optional>
#include <vector>

namespace throughbend
{
/// Fills in finding, figures, faces, flaws, tools, the metal's answer and the release; not
/// the origin, nor what it cost. No finding: the pass was interrupted.
void put_pass(RunSummary &summary, const Case &c, const std::optional<Finding> &finding,
              const Release &release, const std::vector<PassSample> &samples,
              const std::vector<SurfaceShot> &faces);
} // namespace throughbend
