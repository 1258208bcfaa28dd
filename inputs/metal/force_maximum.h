#pragma once
// Where the force of a tension test is largest, which is where the bar begins to neck
// (Considere (1885) Annales des Ponts et Chaussees 9, 574). The rule stands in
// inputs/metal/tension_test.h.

#include "inputs/metal/elastic_part.h"

#include <cstddef>
#include <vector>

namespace throughbend
{
struct ForceMaximum
{
  double      strain = 0, stress = 0; ///< engineering, smoothed [-], [MPa]
  std::size_t last   = 0;             ///< row before it
  bool        passed = false; ///< false: the record ends before, and this is its end
};

/// Strains rise from row to row.
ForceMaximum force_maximum(const std::vector<Pull> &pulls);
} // namespace throughbend
