#pragma once
// What became of each flaw in a pass: its largest opening, against the limit of the case,
// and whether its lips ran into each other. Gathered from the steps; decides nothing, and
// says nothing about whether a weld is fit for use.

#include "inputs/case/case.h"
#include "solver/outcome/pass_sample.h"

#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
struct FlawFigures
{
  std::string           name;               ///< its section in the case
  bool                  at_convex  = false; ///< it comes out at the convex face
  double                opening    = 0;     ///< largest in the tools [mm]
  double                opening_at = 0;     ///< at this travel [mm]
  double                limit      = 0;     ///< of the case, for the convex face [mm]
  std::optional<double> passed_at;          ///< travel at which the opening passes it [mm]
  std::optional<double> free_opening;       ///< when the tools are taken away [mm]
  double                overlap      = 0;   ///< deepest in the tools [mm]
  double                free_overlap = 0;   ///< deepest when they are taken away [mm]
};

std::vector<FlawFigures> flaw_figures(const std::vector<PassSample> &samples,
                                      const Case                    &given);

/// By how much a computed opening may be too small [-]: a flaw of 1.9 mm at the root opened
/// 2.96 mm on a quick mesh, 3.11 mm on a standard one, 3.14 mm on a fine one; one of 1 mm
/// 3 % less on the quick mesh. Rounded up.
constexpr double opening_error(const MeshLevel level)
{
  return level == MeshLevel::quick ? 0.08 : level == MeshLevel::standard ? 0.04 : 0.03;
}

/// What an opening is worth, in a sentence.
const char *flaw_remark();
} // namespace throughbend
