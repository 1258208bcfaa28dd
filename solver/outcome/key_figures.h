#pragma once
// The few figures of a pass that people compare: peaks, margins and the worst numerical
// errors, gathered from its steps. Decides nothing: the finding is made in solver/pass.

#include "inputs/case/case.h"
#include "solver/outcome/pass_sample.h"
#include "solver/outcome/width_figures.h"

#include <optional>
#include <vector>

namespace throughbend
{
struct KeyFigures
{
  double peak_force      = 0; ///< largest of the ram force's smooth course [N]
  double peak_force_at   = 0; ///< at this travel [mm]
  double peak_force_band = 0; ///< the computed force ripples by so much there [N]
  double capacity        = 0; ///< of the ram [N]
  double force_margin    = 0; ///< (capacity - peak) / capacity [-]; below 0: not enough
  double stroke          = 0; ///< of the ram [mm]
  double travel          = 0; ///< furthest travel [mm]
  double stroke_margin   = 0; ///< (stroke - travel) / stroke [-]

  /// Largest axial log strain on the convex face: of a body at mid-width [-].
  double outer_strain        = 0;
  double outer_strain_at     = 0; ///< along the flat coupon from its centre [mm]
  double outer_strain_travel = 0; ///< at this travel [mm]
  double outer_elongation    = 0; ///< the same as a nominal elongation, exp(strain) - 1 [-]
  double face_strain         = 0; ///< the same anywhere on the convex face [-]
  double face_elongation     = 0; ///< as a nominal elongation [-]
  double nominal_elongation  = 0; ///< t / (2 nose radius + t), as procedures state it [-]
  double plastic_strain      = 0; ///< largest equivalent, on the convex face itself [-]
  double nose_gap            = 0; ///< largest gap under the nose, anywhere across it [mm]
  double walk                = 0; ///< largest sideways motion, with its sign [mm]
  double wrap                = 0; ///< largest angle over which it touches the nose [deg]

  /// At the end of the push, still loaded; NaN where the nose has lost the coupon.
  double nose_gap_end = 0; ///< largest gap between the outermost touching places [mm]
  double wrap_end     = 0; ///< [deg]
  double walk_end     = 0; ///< [mm]

  double energy_error         = 0; ///< worst [-]
  double energy_error_at      = 0; ///< at this travel [mm]
  double equilibrium_error    = 0; ///< worst [-]
  double equilibrium_error_at = 0; ///< at this travel [mm]
  double penetration          = 0; ///< deepest [mm]
  double penetration_share    = 0; ///< deepest / thickness [-]
  double ripple               = 0; ///< worst of the ram force about its course [-]
  double ripple_at            = 0; ///< at this travel [mm]
  double regularisation_share = 0; ///< largest |regularisation work| / largest ram work [-]

  int steps      = 0; ///< accepted
  int jumps      = 0; ///< of them, relaxations to another equilibrium
  int iterations = 0; ///< Newton iterations of accepted steps
  int refusals   = 0; ///< attempts refused

  std::optional<WidthFigures> width; ///< 3D only

  /// Where a wire or gauge is pushed in: at mid-width, at the end of the push [mm].
  double gap_for_wire() const { return width ? width->end.nose_gap_middle : nose_gap_end; }
};

/// Whether a wire of a diameter [mm] goes in between nose and coupon at the end, between
/// the outermost places where they touch; nothing when there is no wire, or no U yet: when
/// the nose touches over less than a quarter turn, anything goes in beside it.
std::optional<bool> wire_goes_in(const KeyFigures &figures, double diameter);

KeyFigures key_figures(const std::vector<PassSample> &samples, const Case &given);
} // namespace throughbend
