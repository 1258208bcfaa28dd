#include "solver/fem/cholmod_factor.h"

#include <algorithm>
#include <new>
#include <stdexcept>
#include <string>

namespace throughbend
{
cholmod_sparse view_of(const std::vector<int> &starts, const std::vector<int> &rows,
                       const std::vector<double> &values, const bool lower)
{
  cholmod_sparse sparse{};
  sparse.nrow = sparse.ncol = starts.size() - 1;
  sparse.nzmax              = rows.size();
  sparse.p                  = const_cast<int *>(starts.data());
  sparse.i                  = const_cast<int *>(rows.data());
  sparse.x                  = const_cast<double *>(values.data());
  sparse.stype              = lower ? -1 : 1;
  sparse.itype              = CHOLMOD_INT;
  sparse.xtype              = CHOLMOD_REAL;
  sparse.dtype              = CHOLMOD_DOUBLE;
  sparse.sorted             = 1;
  sparse.packed             = 1;
  return sparse;
}

CholmodFactor::CholmodFactor(const int ordering)
{
  cholmod_start(&common_);
  common_.supernodal         = CHOLMOD_SIMPLICIAL;
  common_.nmethods           = 1;
  common_.method[0].ordering = ordering;
  common_.postorder          = ordering != CHOLMOD_NATURAL; // which would be another order
  common_.print              = 0;
}

CholmodFactor::~CholmodFactor()
{
  cholmod_free_dense(&x_, &common_);
  cholmod_free_dense(&scratch_, &common_);
  cholmod_free_dense(&more_scratch_, &common_);
  cholmod_free_factor(&factor_, &common_);
  cholmod_finish(&common_);
}

void CholmodFactor::analyse(cholmod_sparse matrix)
{
  cholmod_free_factor(&factor_, &common_);
  factor_ = cholmod_analyze(&matrix, &common_);
  check();
}

bool CholmodFactor::factorise(cholmod_sparse matrix)
{
  cholmod_factorize(&matrix, factor_, &common_);
  check();
  return common_.status == CHOLMOD_OK && factor_->minor == factor_->n;
}

void CholmodFactor::solve(const int system, std::vector<double> &x)
{
  cholmod_dense right{};
  right.nrow = right.nzmax = right.d = x.size();
  right.ncol                         = 1;
  right.x                            = x.data();
  right.xtype                        = CHOLMOD_REAL;
  right.dtype                        = CHOLMOD_DOUBLE;
  cholmod_solve2(system, factor_, &right, nullptr, &x_, nullptr, &scratch_, &more_scratch_,
                 &common_);
  check();
  const double *const solution = static_cast<const double *>(x_->x);
  std::copy(solution, solution + x.size(), x.begin());
}

double CholmodFactor::work(cholmod_sparse matrix, std::vector<int> &order)
{
  const int ordering         = common_.method[0].ordering;
  common_.method[0].ordering = CHOLMOD_GIVEN;
  cholmod_factor *factor = cholmod_analyze_p(&matrix, order.data(), nullptr, 0, &common_);
  common_.method[0].ordering = ordering;
  check();
  cholmod_free_factor(&factor, &common_);
  return common_.fl;
}

void CholmodFactor::check() const
{
  if (common_.status == CHOLMOD_OUT_OF_MEMORY || common_.status == CHOLMOD_TOO_LARGE)
    throw std::bad_alloc();
  if (common_.status < 0)
    throw std::runtime_error("CHOLMOD stopped with status " +
                             std::to_string(common_.status));
}
} // namespace throughbend
