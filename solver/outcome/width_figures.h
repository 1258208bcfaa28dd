#pragma once
// The few figures of a pass that only a model with width shows, gathered from its steps:
// strain at the edge, gaps under the nose by place, curl and width of the faces, and the
// stress across the width before and after the crown leaves the nose.

#include "inputs/text/json.h"
#include "solver/outcome/pass_sample.h"

#include <limits>
#include <optional>
#include <vector>

namespace throughbend
{
struct WidthFigures
{
  /// At the end of the push, still loaded. Its gaps are NaN where the nose has lost the
  /// coupon.
  WidthShape end;

  // Over the whole push.
  double edge_strain        = 0; ///< largest log strain along the free edge, convex [-]
  double edge_strain_at     = 0; ///< along the flat coupon from its centre [mm]
  double edge_strain_travel = 0; ///< at this travel [mm]
  double largest_strain     = 0; ///< largest log strain anywhere on the convex face [-]
  double largest_at         = 0; ///< along the flat coupon from its centre [mm]
  double largest_across     = 0; ///< from the mid-width [mm]
  double largest_travel     = 0; ///< at this travel [mm]
  double nose_gap_middle    = 0; ///< largest along the mid-width [mm]
  double nose_gap_edge      = 0; ///< largest along the free edge [mm]
  double convex_curl        = 0; ///< largest of an edge of the convex face [mm]
  double concave_curl       = 0; ///< the same of the concave face [mm]

  /// Stress across the width at the crown when the nose last bore on it [MPa], and at which
  /// travel [mm]; NaN when it never did.
  double on_nose_stress = std::numeric_limits<double>::quiet_NaN();
  double on_nose_travel = std::numeric_limits<double>::quiet_NaN();
};

/// Nothing from a plane model.
std::optional<WidthFigures> width_figures(const std::vector<PassSample> &samples);

/// As a member of run.json.
Json width_json(const WidthFigures &figures);
} // namespace throughbend
