#pragma once
// Evaluation and tangents of four cells at once, as machine code for two kinds of
// processor: with AVX2 and FMA, or any. Which one is chosen when the program runs; the
// results agree to rounding.

#include "solver/fem/cell_batch.h"

namespace throughbend
{
enum class Registers
{
  any, ///< what every processor of the kind has
  wide ///< AVX2 and FMA
};

/// The best that this machine has.
Registers best_registers();

template <int dim>
struct CellKernels
{
  /// Stress, forces and energies at displacement u; puts the new states of its points into
  /// `latest`. Both lists of states begin with the first point of the first cell. False
  /// when a cell is turned inside out or a number is not finite.
  bool (*evaluate)(const CellBatch<dim> &batch, const double *u,
                   const PlasticState *accepted, PlasticState *latest,
                   BatchState<dim> &state);

  /// The tangents at the last evaluation: entry (i, j) of cell l, in the order of CellData,
  /// is put into matrix[(i * n + j) * n_lanes + l]. `matrix` is aligned to 32 bytes.
  void (*form_tangents)(const CellBatch<dim> &batch, const BatchState<dim> &state,
                        double *matrix);
};

template <int dim>
CellKernels<dim> cell_kernels(Registers registers);
} // namespace throughbend
