#include "postprocess/words/margin_text.h"

#include "inputs/units/display_units.h"

#include <cmath>

namespace throughbend
{
std::string margin_text(const double share, const std::string &of, const bool through)
{
  if (!std::isfinite(share))
    return "";
  if (std::abs(share) < 0.0005) // [-], shown as 0.0 %
    return "no margin: the whole " + of;
  if (share < 0)
    return percent_text(-share) + " beyond the " + of;
  return through ? "margin " + percent_text(share) + " of the " + of
                 : percent_text(share) + " of the " + of + " not used";
}
} // namespace throughbend
