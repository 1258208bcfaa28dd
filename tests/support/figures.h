#pragma once
// The numbers of a finding's evidence, so that a test of them needs none of its words.

#include "solver/outcome/evidence.h"

#include <vector>

namespace throughbend
{
/// All values of one measure in the order in which they are told, in the unit of that
/// measure.
inline std::vector<double> figures(const Evidence &evidence, Evidence::Measure measure)
{
  std::vector<double> values;
  for (const Evidence::Piece &piece : evidence.pieces())
    if (piece.measure == measure)
      values.push_back(piece.value);
  return values;
}
} // namespace throughbend
