#include "solver/fem/linear_system.h"

#include "solver/fem/distributed_system.h"
#include "solver/fem/krylov_system.h"
#include "solver/fem/serial_system.h"

namespace throughbend
{
namespace
{
// From this size on the factors of the symmetric part and a few GMRES iterations cost less
// than KLU (tests/benchmarks/TABLE.md).
constexpr unsigned plane_symmetric_from = 8000;
} // namespace

template <int dim>
std::unique_ptr<LinearSystem> make_linear_system(const CouponModel<dim> &model)
{
  if (!model.alone())
    return std::make_unique<DistributedSystem<dim>>(model);
  const auto matrix = std::make_shared<CompressedColumns>(model);
  // Sparse columns win on thin plane strips, a BLAS-3 front in 3D.
  if constexpr (dim == 3)
    return std::make_unique<KrylovSystem>(matrix, KrylovSettings::space());
  if (model.n_dofs() < plane_symmetric_from)
    return std::make_unique<ColumnSystem>(matrix);
  return std::make_unique<KrylovSystem>(matrix, KrylovSettings::plane());
}

template std::unique_ptr<LinearSystem> make_linear_system<2>(const CouponModel<2> &);
template std::unique_ptr<LinearSystem> make_linear_system<3>(const CouponModel<3> &);
} // namespace throughbend
