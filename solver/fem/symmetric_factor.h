#pragma once
// LDL^T of the symmetric part of a serial matrix: the preconditioner of KrylovSystem. D may
// have negative entries, so an indefinite symmetric part (friction's averaged part and
// curved tools both make one) is factorised like any other. Solves nothing to an accuracy.

#include "solver/fem/compressed_columns.h"

#include <memory>
#include <string>

namespace throughbend
{
/// The lower triangle of (A + A^T)/2, scaled from both sides so that its diagonal is +-1.
class SymmetricPart
{
public:
  explicit SymmetricPart(const CompressedColumns &matrix);

  void take(const CompressedColumns &matrix); ///< the values that it has now

  int                        size() const { return static_cast<int>(starts_.size()) - 1; }
  const std::vector<int>    &starts() const { return starts_; }
  const std::vector<int>    &rows() const { return rows_; }
  const std::vector<double> &values() const { return values_; }
  const std::vector<double> &scale() const { return scale_; } ///< per unknown

private:
  std::vector<int>    starts_, rows_; ///< compressed columns, rows from the diagonal on
  std::vector<double> values_, scale_;
  std::vector<std::size_t> here_, mirrored_; ///< in the matrix, of each entry
};

class SymmetricFactor
{
public:
  virtual ~SymmetricFactor() = default;

  /// False when a pivot vanishes. Throws std::bad_alloc when memory does not suffice.
  virtual bool factorise(const SymmetricPart &matrix) = 0;

  /// x becomes the solution of LDL^T of the last factorise() for the right side x.
  virtual void solve(std::vector<double> &x) = 0;

  virtual std::string name() const = 0;
};

/// MUMPS in single precision (Amestoy, Duff, L'Excellent & Koster 2001, SIAM J. Matrix
/// Anal. Appl. 23, 15), ordered by METIS once. Fastest in 3D.
std::unique_ptr<SymmetricFactor> make_multifrontal_factor(const SymmetricPart &pattern);

/// CHOLMOD's simplicial LDL^T (Chen, Davis, Hager & Rajamanickam 2008, ACM Trans. Math.
/// Softw. 35, 22), ordered by AMD once. Fastest on plane models.
std::unique_ptr<SymmetricFactor> make_simplicial_factor(const SymmetricPart &pattern);
} // namespace throughbend
