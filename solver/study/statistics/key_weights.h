#pragma once
// Which key a figure of sampled passes depends on: shares of its variance by a polynomial
// that is checked by passes left out, and rank correlations, each with its error.

#include "solver/study/statistics/polynomial_model.h"

#include <vector>

namespace throughbend
{
struct KeyWeight
{
  double first = 0, total = 0; ///< shares of the variance [-]
  /// Half width of about 95 %: twice the standard deviation of a jackknife that leaves one
  /// set out at a time, and the share that the polynomial does not explain.
  double first_error = 0, total_error = 0;
};

struct KeyRank
{
  double rank  = 0; ///< Spearman's correlation of ranks, -1 to 1 [-]
  double error = 0; ///< half width of about 95 %, by the same jackknife [-]
};

struct FigureWeights
{
  std::vector<KeyRank>   ranks;
  std::vector<KeyWeight> weights;            ///< empty: the polynomial explains too little
  double                 left_out_share = 0; ///< of the polynomial [-]
  std::size_t            terms          = 0; ///< of the polynomial; 0: too few passes
};

/// Below this share of passes left out no weights are told [-].
constexpr double least_left_out_share = 0.8;

/// `set_of` says to which independent set each point belongs, from 0.
FigureWeights figure_weights(const CubePoints &points, const std::vector<double> &figures,
                             const std::vector<KeyBasis>    &bases,
                             const std::vector<std::size_t> &set_of);
} // namespace throughbend
