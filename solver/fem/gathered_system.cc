#include "solver/fem/gathered_system.h"

namespace throughbend
{
template <int dim>
GatheredSystem<dim>::GatheredSystem(const CouponModel<dim> &model,
                                    const SolverMaker      &solver)
    : model_(model), matrix_(std::make_shared<CompressedColumns>(model))
{
  if (dealii::Utilities::MPI::this_mpi_process(model.communicator()) == 0)
    solver_ = solver(matrix_);
}

template <int dim>
void GatheredSystem<dim>::add_coupling(std::size_t coupling, const double *matrix)
{
  if (first())
    matrix_->add_coupling(coupling, matrix);
}

template <int dim>
void GatheredSystem<dim>::add_diagonal(double factor, const Vector &diagonal)
{
  if (first())
    matrix_->add_diagonal(factor, model_.in_common_order(diagonal));
}

template <int dim>
bool GatheredSystem<dim>::solve(const Vector &right_side, Vector &solution)
{
  matrix_->sum_on_first_rank(model_.communicator());
  Vector found(model_.n_dofs());
  int good = first() && solver_->solve(model_.in_common_order(right_side), found) ? 1 : 0;
  MPI_Bcast(&good, 1, MPI_INT, 0, model_.communicator());
  if (good == 0)
    return false;
  MPI_Bcast(found.begin(), static_cast<int>(found.size()), MPI_DOUBLE, 0,
            model_.communicator());
  solution = model_.in_own_order(found);
  return true;
}

template <int dim>
std::string GatheredSystem<dim>::solver_name() const
{
  return first() ? solver_->solver_name() + " on the first rank" : "the first rank's";
}

template class GatheredSystem<2>;
template class GatheredSystem<3>;
} // namespace throughbend
