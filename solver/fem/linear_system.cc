#include "solver/fem/linear_system.h"

#include "solver/fem/distributed_system.h"
#include "solver/fem/gathered_system.h"
#include "solver/fem/krylov_system.h"
#include "solver/fem/serial_system.h"
#include "solver/mechanics/lanes.h"

#include <numeric>

namespace throughbend
{
namespace
{
// From this size on the factors of the symmetric part and a few GMRES iterations cost less
// than KLU (tests/benchmarks/TABLE.md).
constexpr unsigned plane_symmetric_from = 8000;

// Above these sizes ranks share out the factorisation.
constexpr unsigned gathered_up_to_plane = 40000, gathered_up_to_space = 20000;

template <int dim>
std::unique_ptr<LinearSystem>
make_serial_system(const std::shared_ptr<CompressedColumns> &matrix)
{
  // Sparse columns win on thin plane strips, a BLAS-3 front in 3D.
  if constexpr (dim == 3)
    return std::make_unique<KrylovSystem>(matrix, KrylovSettings::space());
  if (static_cast<unsigned>(matrix->size()) < plane_symmetric_from)
    return std::make_unique<ColumnSystem>(matrix);
  return std::make_unique<KrylovSystem>(matrix, KrylovSettings::plane());
}
} // namespace

void LinearSystem::add_cells(unsigned first, unsigned n_cells, const double *matrices,
                             unsigned n)
{
  std::vector<unsigned> rows(n);
  std::iota(rows.begin(), rows.end(), 0u);
  std::vector<double> matrix(std::size_t{n} * n);
  for (unsigned l = 0; l < n_cells; ++l)
  {
    for (std::size_t k = 0; k < matrix.size(); ++k)
      matrix[k] = matrices[k * n_lanes + l];
    add(first + l, rows, matrix.data());
  }
}

template <int dim>
std::unique_ptr<LinearSystem> make_linear_system(const CouponModel<dim> &model)
{
  if (model.alone())
    return make_serial_system<dim>(std::make_shared<CompressedColumns>(model));
  if (model.n_dofs() <= (dim == 2 ? gathered_up_to_plane : gathered_up_to_space))
    return std::make_unique<GatheredSystem<dim>>(model, make_serial_system<dim>);
  return std::make_unique<DistributedSystem<dim>>(model);
}

template std::unique_ptr<LinearSystem> make_linear_system<2>(const CouponModel<2> &);
template std::unique_ptr<LinearSystem> make_linear_system<3>(const CouponModel<3> &);
} // namespace throughbend
