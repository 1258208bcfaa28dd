#include "solver/fem/krylov_system.h"

#include "solver/fem/gmres_limits.h"
#include "solver/fem/halved_factor.h"
#include "solver/fem/two_level_factor.h"

#include <deal.II/lac/solver_control.h>
#include <deal.II/lac/solver_gmres.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <thread>
#include <utility>

namespace throughbend
{
namespace
{
/// A product or a solution is soon done: more threads would only wait for each other.
constexpr unsigned most_threads = 2;

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
std::unique_ptr<SymmetricFactor> make_factor(const KrylovSettings    &settings,
                                             const CompressedColumns &matrix,
                                             const SymmetricPart &part, CoarseSpace coarse,
                                             CellCrew &crew)
{
  switch (settings.factor)
  {
  case KrylovSettings::Factor::simplicial:
    return make_simplicial_factor(part.triangle());
  case KrylovSettings::Factor::halved:
    if (auto halved = make_halved_factor(part.triangle(), crew))
      return halved;
    return make_simplicial_factor(part.triangle());
  case KrylovSettings::Factor::multifrontal:
    return make_multifrontal_factor(part.triangle());
  case KrylovSettings::Factor::two_level:
    return make_two_level_factor(matrix, std::move(coarse));
  }
  throw std::logic_error("there is no such factor");
}
} // namespace

KrylovSystem::KrylovSystem(SharedMatrix matrix, KrylovSettings settings, CoarseSpace coarse)
    : SerialSystem(std::move(matrix)), settings_(settings),
      crew_(std::clamp(std::thread::hardware_concurrency(), 1u, most_threads)),
      product_(matrix_, crew_), part_(matrix_),
      factor_(make_factor(settings, matrix_, part_, std::move(coarse), crew_))
{
}

std::string KrylovSystem::solver_name() const
{
  return factor_->name() + " + GMRES";
}

bool KrylovSystem::iterate(const Vector &right, Vector &solution)
{
  product_.take();
  if (has_factors_ && iterate_with_factors(right, solution))
    return true;
  part_.take(matrix_);
  ++factorisations_;
  has_factors_ =
      factor_->factorise(part_.triangle()) && iterate_with_factors(right, solution);
  const bool solved = has_factors_;
  has_factors_ &= settings_.keeps_factors;
  return solved;
}

/// The factors may be those of an earlier matrix.
bool KrylovSystem::iterate_with_factors(const Vector &right, Vector &solution)
{
  solution.reinit(right.size());
  const double size = right.l2_norm();
  if (!(size > 0) || !std::isfinite(size))
    return size == 0;
  const unsigned most =
      settings_.factor == KrylovSettings::Factor::two_level ? most_cycles : most_iterations;
  dealii::SolverControl control(most, settings_.tolerance * size, false, false);
  // The flexible variant keeps what the preconditioner made of each vector: in single
  // precision it is linear to 1e-7 only, which would else end up in the solution.
  dealii::SolverFGMRES<Vector> gmres(
      control, dealii::SolverFGMRES<Vector>::AdditionalData(most_iterations));
  try
  {
    gmres.solve(product_, solution, right,
                Preconditioner{*factor_, part_.triangle().scale});
  }
  catch (const dealii::SolverControl::NoConvergence &)
  {
    iterations_ += static_cast<int>(control.last_step());
    return false;
  }
  iterations_ += static_cast<int>(control.last_step());
  // NaN fails here, too.
  Vector rest(right.size());
  product_.vmult(rest, solution);
  rest -= right;
  return rest.l2_norm() <= unsolved * size;
}

bool KrylovSystem::solve(const Vector &right_side, Vector &solution)
{
  if (!missed_ && iterate(without_held(right_side), solution))
    return true;
  ++fallbacks_;
  // What stands before a dearer GMRES tries again only once the coupon has moved on.
  missed_ = settings_.factor == KrylovSettings::Factor::two_level;
  return dearer().solve(right_side, solution);
}

void KrylovSystem::forget_factors()
{
  has_factors_ = missed_ = false;
  if (dearer_ != nullptr)
    dearer_->forget_factors();
}

LinearSystem &KrylovSystem::dearer()
{
  if (dearer_ == nullptr)
  {
    switch (settings_.factor)
    {
    case KrylovSettings::Factor::simplicial:
    case KrylovSettings::Factor::halved:
      dearer_ = std::make_unique<ColumnSystem>(shared_matrix());
      break;
    case KrylovSettings::Factor::multifrontal:
      dearer_ = std::make_unique<FrontalSystem>(shared_matrix());
      break;
    case KrylovSettings::Factor::two_level:
      dearer_ = std::make_unique<KrylovSystem>(
          shared_matrix(),
          KrylovSettings{KrylovSettings::Factor::multifrontal, settings_.tolerance, true});
      break;
    }
  }
  return *dearer_;
}

bool KrylovSystem::restore(const SolverMemory &memory)
{
  forget_factors();
  if (memory != nullptr)
    return dearer().restore(memory);
  dearer_.reset();
  return true;
}
} // namespace throughbend
