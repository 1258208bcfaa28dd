#pragma once
// Which coupons a spread pushes: samples of the keys that scatter, evenly spread over their
// laws. Makes no pass.

#include "inputs/keys/spread.h"
#include "solver/study/statistics/polynomial_model.h"
#include "solver/study/study_case.h"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace throughbend
{
struct SpreadDesign
{
  std::vector<KeySpread>   spreads; ///< in the case's order
  std::vector<StudyKey>    keys;    ///< as many
  std::vector<std::size_t> own_law; ///< of the spreads: those that follow no other key
  std::vector<KeyBasis>    bases;   ///< one for each of own_law
  CubePoints               cube;    ///< [pass][one for each of own_law]
  std::vector<StudyPoint>  points;  ///< one a pass
  std::size_t              sets = 1;

  std::size_t set_of(std::size_t pass) const { return pass % sets; }
};

/// Throws InputError where the case has no [spread], or where samples are no case that can
/// be pushed, with how many and the first.
SpreadDesign spread_design(const StudyCase &base, const std::vector<KeySpread> &spreads,
                           std::size_t passes, std::uint64_t seed, UnitSystem units);
} // namespace throughbend
