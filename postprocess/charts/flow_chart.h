#pragma once
// Where the middle of the bend stands on the flow curves of its metals: the plastic strain
// of the crown and of the concave face under the nose at some travels, read off the kept
// shapes, and the flow stress that the case's curves have there.

#include "postprocess/charts/svg_chart.h"
#include "postprocess/runs/run_record.h"
#include "postprocess/shapes/pass_shapes.h"
#include "postprocess/words/reader_units.h"

#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// The faces at the plunger's centre at one moment of the pass. A zone as run folders
/// number them (0 base, 1 HAZ, 2 weld); none near a border of zones, where strength passes
/// from one to the next.
struct MiddleState
{
  double             travel = 0; ///< of the plunger [mm]
  std::optional<int> crown_zone, concave_zone;
  double             crown_strain   = 0; ///< equivalent plastic strain, convex face [-]
  double             concave_strain = 0; ///< of the concave face [-]
};

/// On the way to the peak force, and at the end; from the shapes, else from
/// surface.csv at the peak and the end. Beside a flaw, the nearest points that are not its
/// lips. Empty where the run has neither.
std::vector<MiddleState> middle_states(const RunRecord &run, const PassShapes &shapes);

/// The flow stress at a state's crown, or under the nose [MPa]. Nothing where there is no
/// single curve: near a border of zones, or in a HAZ whose strength changes across it; and
/// for strains that no pass has.
std::optional<double> crown_flow_stress(const Case &given, const MiddleState &state);
std::optional<double> concave_flow_stress(const Case &given, const MiddleState &state);

/// None where the case is not known.
std::optional<Chart> flow_chart(const RunRecord &run, const PassShapes &shapes,
                                const ReaderUnits &units);

/// How to read it.
std::string flow_caption();
} // namespace throughbend
