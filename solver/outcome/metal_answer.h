#pragma once
// The second answer of a pass: whether the metal is stretched within what is stated of it.
// That a coupon passes the fixture says nothing of this. Compares figures with stated
// limits; it is no acceptance of a weld.

#include "solver/outcome/face_figures.h"
#include "solver/outcome/finding.h"
#include "solver/outcome/flaw_figures.h"
#include "solver/outcome/key_figures.h"

#include <optional>
#include <vector>

namespace throughbend
{
enum class MetalVerdict
{
  within,   ///< every zone, and every flaw at the convex face, within its stated limit
  beyond,   ///< one of them beyond it
  not_known ///< no limit is stated for a zone, or the strain is not known
};
std::string to_text(MetalVerdict verdict); ///< "within", "beyond", "not known"

struct MetalAnswer
{
  MetalVerdict verdict = MetalVerdict::not_known;
  Evidence     account{}; ///< a sentence
};

/// `faces`: the convex face at the moments that were kept.
MetalAnswer metal_answer(const Case &c, const Finding &finding, const KeyFigures &figures,
                         const std::vector<FaceFigures> &faces,
                         const std::vector<FlawFigures> &flaws);

/// Why a largest strain is where it is, when that is not the bend itself: "in a leg while
/// it is ironed", "at the toe of the cap", "at the mouth of flaw"; else empty. `position`
/// [mm] along the flat face from the coupon's centre, `travel` [mm] when.
std::string strain_place_remark(const Case &c, const Finding &finding, double position,
                                double travel);
} // namespace throughbend
