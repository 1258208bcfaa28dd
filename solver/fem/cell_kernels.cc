#include "solver/fem/cell_kernels.h"

#include "solver/fem/tangent_of_cells.h"

// Clang does not inline what was written for any processor where vectors are passed on.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__)
#define THROUGHBEND_TWO_PATHS 1
#endif

namespace throughbend
{
namespace
{
template <int dim>
THROUGHBEND_INLINED void form(const CellBatch<dim> &batch, const BatchState<dim> &state,
                              double *matrix)
{
  const int *const numbers = node_numbers<dim>().data();
  Lanes *const     lanes   = reinterpret_cast<Lanes *>(matrix);
  if (batch.symmetric)
    form_tangents<dim, true>(batch, state, numbers, lanes);
  else
    form_tangents<dim, false>(batch, state, numbers, lanes);
}

template <int dim>
bool evaluate_any(const CellBatch<dim> &batch, const double *u,
                  const PlasticState *accepted, PlasticState *latest,
                  BatchState<dim> &state)
{
  return evaluate_batch<dim>(batch, u, accepted, latest, state);
}

template <int dim>
void form_any(const CellBatch<dim> &batch, const BatchState<dim> &state, double *matrix)
{
  form<dim>(batch, state, matrix);
}

#ifdef THROUGHBEND_TWO_PATHS
template <int dim>
[[gnu::target("avx2,fma")]] bool evaluate_wide(const CellBatch<dim> &batch, const double *u,
                                               const PlasticState *accepted,
                                               PlasticState *latest, BatchState<dim> &state)
{
  return evaluate_batch<dim>(batch, u, accepted, latest, state);
}

template <int dim>
[[gnu::target("avx2,fma")]] void form_wide(const CellBatch<dim>  &batch,
                                           const BatchState<dim> &state, double *matrix)
{
  form<dim>(batch, state, matrix);
}
#endif
} // namespace

Registers best_registers()
{
#ifdef THROUGHBEND_TWO_PATHS
  static const bool wide =
      __builtin_cpu_supports("avx2") != 0 && __builtin_cpu_supports("fma") != 0;
  return wide ? Registers::wide : Registers::any;
#else
  return Registers::any;
#endif
}

template <int dim>
CellKernels<dim> cell_kernels(const Registers registers)
{
#ifdef THROUGHBEND_TWO_PATHS
  if (registers == Registers::wide)
    return {evaluate_wide<dim>, form_wide<dim>};
#endif
  static_cast<void>(registers);
  return {evaluate_any<dim>, form_any<dim>};
}

template CellKernels<2> cell_kernels(Registers);
template CellKernels<3> cell_kernels(Registers);
} // namespace throughbend
