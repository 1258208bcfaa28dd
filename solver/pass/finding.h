#pragma once
// What came of a pass, with the evidence. Plain numbers and words; decided in findings.

#include "solver/pass/evidence.h"

#include <optional>
#include <string>

namespace throughbend
{
enum class Outcome
{
  through,       ///< bent, and past the shoulders
  jammed,        ///< will not go on, on physical evidence
  over_capacity, ///< the ram's force ran out while the coupon would go on
  stroke_out,    ///< the ram's stroke ran out
  dropped,       ///< left the shoulders unbent
  undecided      ///< the computation gave up; says nothing about the coupon
};
std::string to_text(Outcome outcome); ///< "through", "jammed", "over-capacity", ...

enum class JamKind
{
  squeezed, ///< a leg is wedged between the plunger and a shoulder
  hooked,   ///< an end has caught on the frame
  other     ///< stuck, but neither of these
};
std::string to_text(JamKind kind); ///< "squeezed", "hooked", "other"

struct Finding
{
  Outcome                outcome = Outcome::undecided;
  std::optional<JamKind> jam;   ///< set when jammed, also when over-capacity came of a jam
  std::string            where; ///< which side and tool, empty when it does not apply
  double                 travel = 0; ///< at which it was decided [mm]
  double                 force  = 0; ///< ram force then [N]
  std::string            evidence;   ///< a few plain sentences, metric, as recorded
  Evidence               account{};  ///< the same with its numbers as numbers
  std::optional<JamKind> ahead{};    ///< the jam that more force would have led into
};

/// The coupon after the tools are taken away.
struct Release
{
  double left_angle_loaded = 0, right_angle_loaded = 0; ///< leg above the horizontal [deg]
  double left_angle_free = 0, right_angle_free = 0;     ///< same after release [deg]
  double left_springback = 0, right_springback = 0;     ///< loaded minus free [deg]
  double elastic_loaded = 0; ///< elastic energy before release [N mm]
  double elastic_free   = 0; ///< locked in afterwards [N mm]
  double speed_bound    = 0; ///< if all released energy became motion [m/s]; an upper bound
  bool   completed      = false; ///< false: the release did not reach equilibrium
};
} // namespace throughbend
