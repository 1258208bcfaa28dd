#pragma once
// What a pass does to shoulders and nose: the largest load on one patch of contact, its
// pressures, and against the yield of the tool's metal whether it is marked. Gathered from
// the steps; the formulas are those of `check`.

#include "inputs/case/case.h"
#include "inputs/text/json.h"
#include "solver/outcome/pass_sample.h"

#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
struct ToolLoad
{
  std::string tool; ///< "left shoulder", "nose"; of a half model "shoulder"
  double      line_load         = 0; ///< largest of one patch per width [N/mm]
  double      at                = 0; ///< at this travel [mm]
  double      patch_length      = 0; ///< of the patch then, along the coupon [mm]
  double      patch_pressure    = 0; ///< line load / patch length then [MPa]
  double      smoothed_pressure = 0; ///< largest, mean over t / 4 along the coupon [MPa]
  /// By Hertz for the largest line load on the tool's round, at most what the coupon's face
  /// can bear as strained as it is, but no less than the largest mean that was computed
  /// [MPa]: the mesh does not resolve so narrow a patch. A bound: where the bend wraps the
  /// nose the patch is wider and the pressure lower.
  double hertz_pressure = 0;
  double yield          = 0; ///< of the tool's metal [MPa]; 0 = not known

  bool yields() const; ///< below its face, from a Hertz pressure of 1.79 Y on
  /// Depth of the mark of first use [mm], 0 where the Hertz pressure is below 2.97 Y;
  /// nothing where the yield is not known.
  std::optional<double> dent;
};

/// Of the shoulder that bears most and of the nose; none where nothing touched.
std::vector<ToolLoad> tool_loads(const Case &c, const std::vector<PassSample> &samples);

/// As a member of run.json.
Json tool_loads_json(const std::vector<ToolLoad> &loads);
} // namespace throughbend
