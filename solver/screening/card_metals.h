#pragma once
// Which metals of the catalogue go on a fixture, and what keeps the others off: the rule
// that the fixture follows, the ram, or the metal's own elongation. A catalogue's yield is
// often the least that a standard asks for; the plate's certificate decides.

#include "solver/screening/case_limits.h"

#include <string>
#include <vector>

namespace throughbend
{
struct CardMetals
{
  std::vector<std::string> taken;      ///< names of grades
  std::vector<std::string> by_rule;    ///< not for this plunger
  std::vector<std::string> by_ram;     ///< the ram does not bend them with a margin
  std::vector<std::string> by_stretch; ///< break before they are bent
};

/// Of the built-in catalogue, the invented metals of examples left out.
CardMetals card_metals(const CaseLimits &limits);
} // namespace throughbend
