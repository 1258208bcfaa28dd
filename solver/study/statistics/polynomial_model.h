#pragma once
// A polynomial through the figures of sampled passes: its terms are orthonormal over the
// law of each key, so their squared factors are shares of the figure's variance. It is
// checked by leaving each pass out once.

#include "solver/study/statistics/sample_sets.h"

#include <cstddef>
#include <vector>

namespace throughbend
{
/// Polynomials of one key, orthonormal for its place u in the unit cube.
enum class KeyBasis
{
  legendre, ///< in 2 u - 1: for laws with two ends
  hermite   ///< in the normal quantile of u: for laws with tails
};

/// Powers of a term, one a key.
using TermPowers = std::vector<unsigned>;

class PolynomialModel
{
public:
  /// Least squares over all terms of a total degree. Needs more points than terms.
  PolynomialModel(const CubePoints &points, const std::vector<double> &figures,
                  std::vector<KeyBasis> bases, unsigned degree);

  double value(const std::vector<double> &point) const; ///< in the figure's unit
  double variance() const;                              ///< of the polynomial
  /// Share of the variance by a key alone, and by it with all it acts together with
  /// (Sudret 2008, Reliability Engineering and System Safety 93, 964).
  double first(std::size_t key) const;
  double total(std::size_t key) const;

  /// 1 - (sum of squared errors at passes left out) / (sum of squares about the mean); the
  /// errors by the diagonal of the projection matrix (Allen 1974, Technometrics 16, 125).
  double      left_out_share() const { return left_out_share_; }
  std::size_t terms() const { return terms_.size(); }
  unsigned    degree() const { return degree_; }

private:
  std::vector<double> row(const std::vector<double> &point) const;

  std::vector<KeyBasis>   bases_;
  unsigned                degree_;
  std::vector<TermPowers> terms_; ///< the constant first
  std::vector<double>     factors_;
  double                  left_out_share_ = 0;
};

/// Terms of a total degree in so many keys.
std::size_t term_count(std::size_t keys, unsigned degree);

/// The degree, from 1, of the best share at passes left out, with at least three passes a
/// term; 0 where there are too few passes even for degree 1.
unsigned best_degree(const CubePoints &points, const std::vector<double> &figures,
                     const std::vector<KeyBasis> &bases);
} // namespace throughbend
