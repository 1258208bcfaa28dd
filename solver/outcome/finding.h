#pragma once
// What came of a pass, with the evidence. Plain numbers and words; decided in findings.

#include "solver/outcome/accuracy.h"
#include "solver/outcome/evidence.h"
#include "solver/outcome/pass_event.h"

#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
enum class Outcome
{
  through,       ///< bent, and past the shoulders
  jammed,        ///< does not go on at any force up to wrecking_force()
  over_capacity, ///< the ram's force ran out; a stronger ram gets further
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

/// How a pass would have gone on with a ram of any force.
enum class BeyondEnd
{
  through,    ///< it goes through
  dropped,    ///< it leaves the shoulders unbent
  stroke_end, ///< the stroke ends first
  wrecked,    ///< it does not go on up to wrecking_force()
  not_known   ///< not followed to an end
};
std::string to_text(BeyondEnd end); ///< "through", "dropped", "stroke-out", ...

/// The pass beyond the ram's capacity, from where the ram stops. Largest values are those
/// up to its end.
struct BeyondCapacity
{
  BeyondEnd end    = BeyondEnd::not_known;
  double    travel = 0;              ///< at the end [mm]
  double    force = 0, force_at = 0; ///< largest of the ram [N], at this travel [mm]
  double    shoulder    = 0;         ///< largest normal force on one shoulder [N]
  double    frame       = 0;         ///< largest normal force on one frame plate [N]
  double    face_strain = 0;         ///< largest log strain anywhere on the convex face [-]
  double    force_band  = 0;         ///< the computed force ripples by so much there [N]
  /// On the way. Finer cells and steps then make the force larger: by up to such a share of
  /// it [-], or, where that is 0, by nobody knows what (a body).
  bool   leg_ironed = false;
  double force_lack = 0;
};

struct Finding
{
  Outcome                outcome = Outcome::undecided;
  std::optional<JamKind> jam;        ///< what holds the coupon, when jammed
  std::optional<JamKind> held{};     ///< what holds it where the ram's force or stroke ends
  std::string            where;      ///< which side and tool, empty when it does not apply
  double                 travel = 0; ///< at which it was decided [mm]
  double                 force  = 0; ///< ram force then [N]
  std::string            evidence;   ///< a few plain sentences, metric, as recorded
  Evidence               account{};  ///< the same with its numbers as numbers
  Evidence               verdict{};  ///< one sentence, outcome first
  std::optional<BeyondCapacity> beyond{}; ///< over capacity: what it would take
  std::vector<PassEvent>        events{}; ///< what a sound pass doesn't have
  Accuracy                      accuracy{};
  /// What could turn the outcome: "the ripple of the computed ram force", "the numerical
  /// error of the travel"; empty: nothing.
  std::string close{};
  bool        hangs = false; ///< dropped: stands on end between the shoulders
  /// Out, held, or at the end of force or stroke before its legs stood: no full U.
  bool part_bent = false;
};

/// The coupon after the tools are taken away.
struct Release
{
  double left_angle_loaded = 0, right_angle_loaded = 0; ///< leg above the horizontal [deg]
  double left_angle_free = 0, right_angle_free = 0;     ///< same after release, without the
                                                    ///< turn of the coupon as a whole [deg]
  double left_springback = 0, right_springback = 0; ///< loaded minus free [deg]
  double elastic_loaded = 0; ///< elastic energy before release [N mm]
  double elastic_free   = 0; ///< locked in afterwards [N mm]
  double speed_bound    = 0; ///< if all released energy became motion [m/s]; an upper bound
  bool   completed      = false; ///< false: the release did not reach equilibrium
};
} // namespace throughbend
