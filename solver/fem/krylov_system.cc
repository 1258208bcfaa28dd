#include "solver/fem/krylov_system.h"

#include <deal.II/lac/solver_control.h>
#include <deal.II/lac/solver_gmres.h>

#include <cmath>

namespace throughbend
{
namespace
{
constexpr unsigned most_iterations = 30;

/// The matrix as deal.II's solvers want it.
struct Product
{
  const CompressedColumns &matrix;
  void                     vmult(Vector &y, const Vector &x) const { y = matrix.times(x); }
};

/// S (L D L^T)^-1 S with the scales S.
struct Preconditioner
{
  SymmetricFactor           &factor;
  const std::vector<double> &scale;
  void                       vmult(Vector &y, const Vector &x) const
  {
    std::vector<double> z(x.begin(), x.end());
    for (std::size_t i = 0; i < z.size(); ++i)
      z[i] *= scale[i];
    factor.solve(z);
    for (std::size_t i = 0; i < z.size(); ++i)
      y[static_cast<unsigned>(i)] = scale[i] * z[i];
  }
};
} // namespace

KrylovSystem::KrylovSystem(SharedMatrix matrix, KrylovSettings settings)
    : SerialSystem(std::move(matrix)), settings_(settings), part_(matrix_),
      factor_(settings.factor == KrylovSettings::Factor::simplicial
                  ? make_simplicial_factor(part_)
                  : make_multifrontal_factor(part_))
{
}

std::string KrylovSystem::solver_name() const
{
  return factor_->name() + " LDL^T + GMRES";
}

bool KrylovSystem::iterate(const Vector &right, Vector &solution)
{
  part_.take(matrix_);
  if (!factor_->factorise(part_))
    return false;
  const double size = right.l2_norm();
  if (!(size > 0) || !std::isfinite(size))
    return size == 0;
  dealii::SolverControl control(most_iterations, settings_.tolerance * size, false, false);
  // The flexible variant keeps what the preconditioner made of each vector: in single
  // precision it is linear to 1e-7 only, which would else end up in the solution.
  dealii::SolverFGMRES<Vector> gmres(
      control, dealii::SolverFGMRES<Vector>::AdditionalData(most_iterations));
  try
  {
    gmres.solve(Product{matrix_}, solution, right, Preconditioner{*factor_, part_.scale()});
  }
  catch (const dealii::SolverControl::NoConvergence &)
  {
    iterations_ += static_cast<int>(control.last_step());
    return false;
  }
  iterations_ += static_cast<int>(control.last_step());
  return std::isfinite(solution.l2_norm());
}

bool KrylovSystem::solve(const Vector &right_side, Vector &solution)
{
  const Vector right = without_held(right_side);
  solution.reinit(right.size());
  if (iterate(right, solution))
    return true;
  ++fallbacks_;
  return whole().solve(right_side, solution);
}

LinearSystem &KrylovSystem::whole()
{
  if (whole_ == nullptr)
  {
    if (settings_.factor == KrylovSettings::Factor::simplicial)
      whole_ = std::make_unique<ColumnSystem>(shared_matrix());
    else
      whole_ = std::make_unique<FrontalSystem>(shared_matrix());
  }
  return *whole_;
}

bool KrylovSystem::restore(const SolverMemory &memory)
{
  if (memory != nullptr)
    return whole().restore(memory);
  whole_.reset();
  return true;
}
} // namespace throughbend
