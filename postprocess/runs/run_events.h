#pragma once
// What a run had that a sound pass doesn't, by run.json, and the pass beyond the
// ram's capacity. Finds no events itself.

#include "postprocess/runs/run_record.h"

#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
struct RunEvent
{
  std::string kind;              ///< "frame touched", "leg ironed", ...
  std::string where;             ///< "left", "right", "both sides"; may be empty
  double      from = 0, to = 0;  ///< travel [mm]
  double      force_before  = 0; ///< of the ram [N]
  double      largest_force = 0; ///< of the ram meanwhile [N]
  double      at            = 0; ///< travel of that [mm]
  double      tool_force    = 0; ///< largest on one tool it presses on [N]

  std::string name() const; ///< "leg ironed, both sides"
};

/// In the order in which they begin.
std::vector<RunEvent> run_events(const RunRecord &run);

/// The pass with a ram of any force, where this one's was not enough.
struct RunBeyond
{
  std::string end;                     ///< "through", "dropped", "stroke-out", ...
  double      force = 0, force_at = 0; ///< largest of the ram [N], at this travel [mm]
  double      shoulder = 0, frame = 0; ///< largest normal force on one of them [N]
  double      outer_strain = 0;        ///< log, largest on the convex face [-]
  bool        leg_ironed   = false;    ///< and finer cells raise the force
  double      force_lack   = 0;        ///< by up to such a share [-]; 0: not known
};
std::optional<RunBeyond> run_beyond(const RunRecord &run);
} // namespace throughbend
