#pragma once
// LDL^T of the symmetric part of a serial matrix: the preconditioner of KrylovSystem. D may
// have negative entries, so an indefinite symmetric part (friction's averaged part and
// curved tools both make one) is factorised like any other. Solves nothing to an accuracy.

#include "solver/fem/compressed_columns.h"

#include <memory>
#include <string>

namespace throughbend
{
/// The lower triangle of a symmetric matrix, scaled from both sides so that its diagonal is
/// +-1: compressed columns, rows from the diagonal on.
struct SymmetricTriangle
{
  std::vector<int>    starts, rows;
  std::vector<double> values, scale; ///< entries; what each unknown was scaled with

  int size() const { return static_cast<int>(starts.size()) - 1; }
};

/// Scales it so, from entries that are not scaled yet.
void scale_to_unit_diagonal(SymmetricTriangle &triangle);

/// The triangle of (A + A^T)/2.
class SymmetricPart
{
public:
  explicit SymmetricPart(const CompressedColumns &matrix);

  void take(const CompressedColumns &matrix); ///< the values that it has now

  const SymmetricTriangle &triangle() const { return triangle_; }

private:
  SymmetricTriangle        triangle_;
  std::vector<std::size_t> here_, mirrored_; ///< in the matrix, of each entry
};

class SymmetricFactor
{
public:
  virtual ~SymmetricFactor() = default;

  /// False when a pivot vanishes. Throws std::bad_alloc when memory does not suffice.
  virtual bool factorise(const SymmetricTriangle &matrix) = 0;

  /// x becomes the solution of LDL^T of the last factorise() for the right side x.
  virtual void solve(std::vector<double> &x) = 0;

  virtual std::string name() const = 0;
};

/// MUMPS in single precision (Amestoy, Duff, L'Excellent & Koster 2001, SIAM J. Matrix
/// Anal. Appl. 23, 15), ordered by METIS once. Fastest in 3D.
std::unique_ptr<SymmetricFactor> make_multifrontal_factor(const SymmetricTriangle &pattern);

/// CHOLMOD's simplicial LDL^T (Chen, Davis, Hager & Rajamanickam 2008, ACM Trans. Math.
/// Softw. 35, 22), ordered by AMD once. Fastest on plane models.
std::unique_ptr<SymmetricFactor> make_simplicial_factor(const SymmetricTriangle &pattern);
} // namespace throughbend
