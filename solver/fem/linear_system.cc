#include "solver/fem/linear_system.h"

#include "solver/fem/coarse_space.h"
#include "solver/fem/distributed_system.h"
#include "solver/fem/gathered_system.h"
#include "solver/fem/krylov_system.h"
#include "solver/fem/serial_system.h"
#include "solver/mechanics/lanes.h"

#include <algorithm>
#include <array>
#include <numeric>

namespace throughbend
{
namespace
{
// From this size on the factors of the symmetric part, by halves on two threads, and a few
// GMRES iterations take less time than KLU (tests/benchmarks/TABLE.md). On one thread both
// take about as long at 15 000.
constexpr unsigned plane_symmetric_from = 4500;

// From this size on a two-level cycle costs less than the factors of a body, if its cells
// are about as long as wide: Gauss-Seidel wears down slowly what varies along the long side
// of a cell (Trottenberg, Oosterlee & Schueller 2001, Multigrid, chapter 5).
constexpr unsigned space_two_level_from  = 60000;
constexpr double   longest_over_shortest = 4;

// Above these sizes ranks share out the factorisation.
constexpr unsigned gathered_up_to_plane = 40000, gathered_up_to_space = 20000;

/// A quarter of the cells may be longer: straight legs have such. The same on all ranks.
template <int dim>
bool suits_two_levels(const CouponModel<dim> &model)
{
  if (dim != 3 || model.n_dofs() < space_two_level_from)
    return false;
  double longer = 0;
  for (const auto &data : model.cells())
  {
    std::array<double, dim> sides;
    for (unsigned k = 0; k < dim; ++k)
      sides[k] = data.cell->extent_in_direction(k);
    const auto [shortest, longest] = std::minmax_element(sides.begin(), sides.end());
    longer += *longest > longest_over_shortest * *shortest ? 1 : 0;
  }
  return model.sum_over_ranks(longer) <= 0.25 * model.n_all_cells();
}

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
  {
    auto matrix = std::make_shared<CompressedColumns>(model);
    if (suits_two_levels(model))
      return std::make_unique<KrylovSystem>(
          std::move(matrix), KrylovSettings::large_space(), coarse_space(model));
    return make_serial_system<dim>(std::move(matrix));
  }
  if (model.n_dofs() <= (dim == 2 ? gathered_up_to_plane : gathered_up_to_space))
    return std::make_unique<GatheredSystem<dim>>(model, make_serial_system<dim>);
  const KrylovSettings settings = dim == 2                  ? KrylovSettings::plane()
                                  : suits_two_levels(model) ? KrylovSettings::large_space()
                                                            : KrylovSettings::space();
  return std::make_unique<DistributedSystem<dim>>(
      model,
      settings.factor == KrylovSettings::Factor::two_level ? SharedSolver::two_level
                                                           : SharedSolver::symmetric,
      settings.tolerance);
}

template std::unique_ptr<LinearSystem> make_linear_system<2>(const CouponModel<2> &);
template std::unique_ptr<LinearSystem> make_linear_system<3>(const CouponModel<3> &);
} // namespace throughbend
