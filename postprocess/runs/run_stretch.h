#pragma once
// How far a run's convex face was stretched: one answer for all pages and tables. A body is
// mostly stretched most at a free edge, and its mid-width is a figure of its own.

#include "postprocess/runs/run_record.h"

namespace throughbend
{
struct RunStretch
{
  double largest     = 0; ///< log strain, anywhere on the face [-]; NaN: not known
  double largest_at  = 0; ///< along the flat coupon from its centre [mm]
  double from_middle = 0; ///< from the mid-width [mm]; NaN of a plane model

  bool   wide   = false; ///< of a body; then the mid-width is another place
  double middle = 0;     ///< log strain at mid-width [-]
};

/// By run.json, also one of an older form.
RunStretch run_stretch(const RunRecord &run);
} // namespace throughbend
