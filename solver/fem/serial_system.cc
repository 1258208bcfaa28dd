#include "solver/fem/serial_system.h"

#include <cmath>
#include <umfpack.h>

namespace throughbend
{
namespace
{
// A solution is taken when its residual is this small; Newton cannot use more.
constexpr double good_residual = 1e-9;
constexpr double last_residual = 1e-4;
} // namespace

Vector SerialSystem::without_held(const Vector &right_side) const
{
  Vector right(right_side);
  for (unsigned j = 0; j < right.size(); ++j)
    if (matrix_.held()[j])
      right[j] = 0;
  return right;
}

ColumnSystem::ColumnSystem(SharedMatrix matrix) : SerialSystem(std::move(matrix))
{
  klu_defaults(&common_);
  common_.btf   = 0;  // one irreducible block: looking for more is wasted
  common_.scale = -1; // none: entries are of one kind, and what comes out is checked
  symbolic_ =
      klu_analyze(matrix_.size(), matrix_.starts().data(), matrix_.rows().data(), &common_);
}

ColumnSystem::~ColumnSystem()
{
  klu_free_numeric(&numeric_, &common_);
  klu_free_symbolic(&symbolic_, &common_);
}

bool ColumnSystem::factorise_anew()
{
  klu_free_numeric(&numeric_, &common_);
  numeric_    = klu_factor(matrix_.starts().data(), matrix_.rows().data(),
                           matrix_.values().data(), symbolic_, &common_);
  pivoted_on_ = numeric_ == nullptr
                    ? nullptr
                    : std::make_shared<const std::vector<double>>(matrix_.values());
  return numeric_ != nullptr && common_.status == KLU_OK;
}

bool ColumnSystem::restore(const SolverMemory &memory)
{
  klu_free_numeric(&numeric_, &common_);
  pivoted_on_ = nullptr;
  if (memory == nullptr)
    return true;
  if (memory->size() != matrix_.values().size())
    return false;
  matrix_.values() = *memory;
  factorise_anew();
  return true;
}

bool ColumnSystem::solve_with_factors(const Vector &right_side, Vector &solution)
{
  solution = right_side;
  return klu_solve(symbolic_, numeric_, matrix_.size(), 1, solution.begin(), &common_) ==
             1 &&
         std::isfinite(solution.l2_norm());
}

bool ColumnSystem::solve(const Vector &right_side, Vector &solution)
{
  const Vector right = without_held(right_side);
  if (numeric_ != nullptr &&
      klu_refactor(matrix_.starts().data(), matrix_.rows().data(), matrix_.values().data(),
                   symbolic_, numeric_, &common_) == 1 &&
      common_.status == KLU_OK && solve_with_factors(right, solution) &&
      matrix_.relative_residual(solution, right) < good_residual)
    return true;
  return factorise_anew() && solve_with_factors(right, solution) &&
         matrix_.relative_residual(solution, right) < last_residual;
}

FrontalSystem::FrontalSystem(SharedMatrix matrix) : SerialSystem(std::move(matrix))
{
  double control[UMFPACK_CONTROL];
  umfpack_di_defaults(control);
  control[UMFPACK_STRATEGY] = UMFPACK_STRATEGY_SYMMETRIC;
  control[UMFPACK_ORDERING] = UMFPACK_ORDERING_METIS;
  umfpack_di_symbolic(matrix_.size(), matrix_.size(), matrix_.starts().data(),
                      matrix_.rows().data(), nullptr, &symbolic_, control, nullptr);
}

FrontalSystem::~FrontalSystem()
{
  umfpack_di_free_symbolic(&symbolic_);
}

bool FrontalSystem::solve(const Vector &right_side, Vector &solution)
{
  const Vector right   = without_held(right_side);
  void        *numeric = nullptr;
  double       control[UMFPACK_CONTROL];
  umfpack_di_defaults(control);
  control[UMFPACK_STRATEGY] = UMFPACK_STRATEGY_SYMMETRIC;
  control[UMFPACK_IRSTEP]   = 1;
  int status =
      umfpack_di_numeric(matrix_.starts().data(), matrix_.rows().data(),
                         matrix_.values().data(), symbolic_, &numeric, control, nullptr);
  solution.reinit(right.size());
  if (status == UMFPACK_OK)
    status = umfpack_di_solve(UMFPACK_A, matrix_.starts().data(), matrix_.rows().data(),
                              matrix_.values().data(), solution.begin(), right.begin(),
                              numeric, control, nullptr);
  umfpack_di_free_numeric(&numeric);
  return status == UMFPACK_OK && std::isfinite(solution.l2_norm()) &&
         matrix_.relative_residual(solution, right) < last_residual;
}
} // namespace throughbend
