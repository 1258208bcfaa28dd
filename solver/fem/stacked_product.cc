#include "solver/fem/stacked_product.h"

#if defined(__x86_64__) && defined(__GNUC__)
#define THROUGHBEND_TWO_PATHS 1
#endif

namespace throughbend
{
namespace
{
/// Four numbers; the compiler splits them where the machine has narrower registers.
using Four = double __attribute__((vector_size(32)));

/// C(A, V): rows a .. a + A - 1, vectors v .. v + V - 1 kept in registers.
template <int dim, int A, int V>
[[gnu::always_inline]] inline void add_tile(const double *left, const double *right,
                                            int n_rows, double *c, int a, int v)
{
  constexpr int width = padded_nodes<dim>;
  Four          sum[A][V];
  for (int i = 0; i < A; ++i)
    for (int j = 0; j < V; ++j)
      sum[i][j] = *reinterpret_cast<const Four *>(c + (a + i) * width + 4 * (v + j));
  for (int r = 0; r < n_rows; ++r)
  {
    const double *const x = left + r * width + a;
    const auto *const   y = reinterpret_cast<const Four *>(right + r * width + 4 * v);
    for (int i = 0; i < A; ++i)
      for (int j = 0; j < V; ++j)
        sum[i][j] += x[i] * y[j];
  }
  for (int i = 0; i < A; ++i)
    for (int j = 0; j < V; ++j)
      *reinterpret_cast<Four *>(c + (a + i) * width + 4 * (v + j)) = sum[i][j];
}

template <int dim>
[[gnu::always_inline]] inline void add_all(const double *left, const double *right,
                                           int n_rows, double *c)
{
  for (int a = 0; a < cell_nodes<dim>; a += 3)
    if constexpr (dim == 2)
      add_tile<dim, 3, 3>(left, right, n_rows, c, a, 0);
    else
    {
      add_tile<dim, 3, 4>(left, right, n_rows, c, a, 0);
      add_tile<dim, 3, 3>(left, right, n_rows, c, a, 4);
    }
}

#ifdef THROUGHBEND_TWO_PATHS
template <int dim>
[[gnu::target("avx2,fma")]] void add_wide(const double *left, const double *right,
                                          int n_rows, double *c)
{
  add_all<dim>(left, right, n_rows, c);
}

bool has_wide()
{
  static const bool has =
      __builtin_cpu_supports("avx2") != 0 && __builtin_cpu_supports("fma") != 0;
  return has;
}
#endif
} // namespace

template <int dim>
void add_stacked_product(const double *left, const double *right, int n_rows, double *c)
{
#ifdef THROUGHBEND_TWO_PATHS
  if (has_wide())
    return add_wide<dim>(left, right, n_rows, c);
#endif
  add_all<dim>(left, right, n_rows, c);
}

template void add_stacked_product<2>(const double *, const double *, int, double *);
template void add_stacked_product<3>(const double *, const double *, int, double *);
} // namespace throughbend
