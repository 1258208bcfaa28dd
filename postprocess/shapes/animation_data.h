#pragma once
// A run's shapes, tools and ram force as the JSON from which the page draws its animation.
// Coordinates are cut to 16 bits of the window, strains to 8 bits of the colour map's
// range: finer than a screen shows, and small enough to send by mail.

#include "postprocess/runs/run_record.h"
#include "postprocess/shapes/shape_scale.h"
#include "postprocess/words/reader_units.h"

#include <string>

namespace throughbend
{
struct AnimationData
{
  std::string json;         ///< empty: nothing to animate
  std::size_t left_out = 0; ///< shapes that the size did not allow
};

/// As many shapes as `most_bytes` of text allow, evenly thinned; the first, that of the
/// peak force, the last and the released one always stay.
AnimationData animation_data(const RunRecord &run, const PassShapes &shapes,
                             const ShapeScale &scale, const ReaderUnits &units,
                             std::size_t most_bytes);
} // namespace throughbend
