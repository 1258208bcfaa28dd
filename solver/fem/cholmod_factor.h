#pragma once
// CHOLMOD's simplicial LDL^T with its settings and memory, one for each thread. Knows of no
// mesh; SymmetricFactor is what the program asks for.

#include <cholmod.h>

#include <vector>

namespace throughbend
{
/// CHOLMOD's description of one triangle in compressed columns; it only reads, and from the
/// vectors given. `lower`: else upper.
cholmod_sparse view_of(const std::vector<int> &starts, const std::vector<int> &rows,
                       const std::vector<double> &values, bool lower);

/// Each call throws std::bad_alloc when memory does not suffice.
class CholmodFactor
{
public:
  /// CHOLMOD_AMD, or CHOLMOD_NATURAL: just as the matrix stands.
  explicit CholmodFactor(int ordering);
  ~CholmodFactor();
  CholmodFactor(const CholmodFactor &)            = delete;
  CholmodFactor &operator=(const CholmodFactor &) = delete;

  void analyse(cholmod_sparse matrix);   ///< its pattern
  bool factorise(cholmod_sparse matrix); ///< false when a pivot vanishes

  /// x becomes the solution of one of CHOLMOD's systems (CHOLMOD_A, CHOLMOD_L, ...).
  void solve(int system, std::vector<double> &x);

  /// Operations that a factorisation in this order takes.
  double work(cholmod_sparse matrix, std::vector<int> &order);

  const cholmod_factor &factor() const { return *factor_; }
  cholmod_common       *settings() { return &common_; }
  void                  check() const; ///< the last call to CHOLMOD

private:
  cholmod_common  common_{};
  cholmod_factor *factor_ = nullptr;
  cholmod_dense  *x_ = nullptr, *scratch_ = nullptr, *more_scratch_ = nullptr;
};
} // namespace throughbend
