#pragma once
// Where the unknowns of a plane coupon are cut across in two halves. Knows the pattern of
// the matrix only.

#include "solver/fem/symmetric_factor.h"

#include <vector>

namespace throughbend
{
struct StripCut
{
  std::vector<int> halves[2], cut; ///< unknowns, ascending

  /// Whether the cut is so small, and the halves so even, that halving pays.
  bool pays() const;
};

/// No entry of the matrix joins an unknown of one half with one of the other. The same
/// whatever else the process does, which METIS does not promise: it draws from rand().
StripCut cut_across(const SymmetricTriangle &pattern);
} // namespace throughbend
