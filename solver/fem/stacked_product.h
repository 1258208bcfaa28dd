#pragma once
// The one dense product that a cell's tangent is made of, with sizes known when compiled:
// C += A^T B for tall A and B. Uses AVX2 and FMA where the machine has them (found at run
// time), else what every x86-64 has; the results agree to rounding.

namespace throughbend
{
/// Nodes of a quadratic cell, and the same rounded up to whole vectors of four.
template <int dim>
inline constexpr int cell_nodes = dim == 2 ? 9 : 27;
template <int dim>
inline constexpr int padded_nodes = (cell_nodes<dim> + 3) / 4 * 4;

/// Adds to c[a * padded + b] the sum over the rows r of left[r * padded + a] times
/// right[r * padded + b], for a < cell_nodes, b < padded. All aligned to 32 bytes.
template <int dim>
void add_stacked_product(const double *left, const double *right, int n_rows, double *c);
} // namespace throughbend
