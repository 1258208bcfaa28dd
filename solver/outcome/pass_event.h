#pragma once
// What a sound pass doesn't have, each from where to where along the travel, and the ram
// force before and meanwhile: contacts with the wrong places, and a support that is lost
// too early. Read off the record of a pass; no mesh, no words.

#include "solver/outcome/pass_sample.h"
#include "solver/setup/pass_setup.h"

#include <string>
#include <vector>

namespace throughbend
{
enum class EventKind
{
  frame_touched,      ///< an end or a leg presses on a frame plate
  ironed,             ///< a leg fills the room between plunger and shoulder, or more
  nose_corner,        ///< the coupon is bent over a corner of a nose that is no half round
  shoulder_underside, ///< the coupon presses on a shoulder from below
  bent_short ///< out, but an end lost its shoulder before the legs stood: no full U
};
std::string to_text(EventKind kind); ///< "frame touched", "leg ironed", ...

struct PassEvent
{
  EventKind   kind = EventKind::frame_touched;
  std::string where;             ///< "left", "right", "both sides"; else empty
  double      from = 0, to = 0;  ///< travel at its first and last sample [mm]
  double      force_before  = 0; ///< of the ram, at the last sample before it [N]
  double      largest_force = 0; ///< of the ram meanwhile [N]
  double      at            = 0; ///< travel of that [mm]
  double      tool_force    = 0; ///< largest normal force of a tool it presses on [N]
};

/// Whether the legs [deg] make a full U: both stand at the angle from which check calls a
/// leg formed at all; or they do on the mean, and the coupon leans by no more than a
/// springy one does between its shoulders; or both together make 170, however they lean. A
/// coupon that is out is bent short unless it was a full U when both shoulders last bore
/// and when it was out.
constexpr double formed_leg = 75, upright_lean = 10, full_bend = 170;
bool             is_full_u(const PassSample &now);

/// In the order in which they begin. Two stretches of one kind less than a tenth of the
/// coupon's thickness apart are one event; pressing with less than a thousandth of the
/// plastic bending force is none.
std::vector<PassEvent> pass_events(const PassSetup               &setup,
                                   const std::vector<PassSample> &samples);

bool has_event(const std::vector<PassEvent> &events, EventKind kind);
} // namespace throughbend
