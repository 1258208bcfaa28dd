#include "solver/fem/linear_system.h"

#include "solver/fem/distributed_system.h"
#include "solver/fem/serial_system.h"

namespace throughbend
{
template <int dim>
std::unique_ptr<LinearSystem> make_linear_system(const CouponModel<dim> &model)
{
  if (dealii::Utilities::MPI::n_mpi_processes(model.communicator()) > 1)
    return std::make_unique<DistributedSystem<dim>>(model);
  // Left-looking sparse columns win on thin plane strips, a BLAS-3 front in 3D.
  if constexpr (dim == 2)
    return std::make_unique<ColumnSystem>(CompressedColumns(model));
  else
    return std::make_unique<FrontalSystem>(CompressedColumns(model));
}

template std::unique_ptr<LinearSystem> make_linear_system<2>(const CouponModel<2> &);
template std::unique_ptr<LinearSystem> make_linear_system<3>(const CouponModel<3> &);
} // namespace throughbend
