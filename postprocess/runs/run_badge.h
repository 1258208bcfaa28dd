#pragma once
// A run's answers in a few words and one colour, for badges and table heads. The words say
// everything; the colour follows the worst of the answers.

#include "postprocess/runs/run_record.h"

#include <string>

namespace throughbend
{
/// "through", "through, leg ironed", "no finding".
std::string finding_brief(const RunRecord &run);

/// "within limits", "beyond limits", "not known"; "-" without a finding.
std::string metal_brief(const RunRecord &run);

/// All answers: "through; metal beyond limits; low accuracy".
std::string badge_words(const RunRecord &run);

enum class BadgeColour
{
  good, ///< through as a sound pass goes, metal within its limits, figures sound
  open, ///< through, but something is not known or is to be looked at
  bad,  ///< not through, or the metal or a flaw beyond its limit
  none  ///< no finding, or none that may rest on the record
};
BadgeColour badge_colour(const RunRecord &run);

/// The colour's name as part of the class of an element: "good", "open", ...
std::string to_text(BadgeColour colour);
} // namespace throughbend
