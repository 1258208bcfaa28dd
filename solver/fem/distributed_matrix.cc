#include "solver/fem/distributed_matrix.h"

#include "solver/fem/petsc_check.h"
#include "solver/mechanics/lanes.h"

#include <deal.II/lac/dynamic_sparsity_pattern.h>
#include <deal.II/lac/sparsity_tools.h>

#include <algorithm>
#include <cassert>

namespace throughbend
{
namespace
{
// Places of entries that have none here.
constexpr int dropped = -1; ///< the row or the column is held
constexpr int foreign = -2; ///< the row is another rank's

/// Where a row of sorted columns has one of them.
int place_in(const PetscInt *starts, const PetscInt *columns, PetscInt row, PetscInt column)
{
  const PetscInt *const first = columns + starts[row], *const last =
                                                           columns + starts[row + 1];
  const PetscInt *const found = std::lower_bound(first, last, column);
  assert(found != last && *found == column && "the pattern has no such entry");
  return static_cast<int>(found - columns);
}
} // namespace

template <int dim>
DistributedMatrix::DistributedMatrix(const CouponModel<dim> &model)
    : held_(model.held()), rows_(model.dof_handler().locally_owned_dofs()),
      cell_size_(dim * model.n_nodes_per_cell())
{
  dealii::DynamicSparsityPattern pattern(model.n_dofs());
  const auto                     meet = [&](const std::vector<unsigned> &unknowns)
  {
    for (const unsigned i : unknowns)
      for (const unsigned j : unknowns)
        pattern.add(i, j);
  };
  for (const auto i : rows_)
    pattern.add(i, i);
  for (const auto &cell : model.cells())
  {
    meet(cell.dofs);
    unknowns_.push_back(cell.dofs);
  }
  for (const std::vector<unsigned> &coupling : model.couplings())
    meet(coupling);
  dealii::IndexSet all(model.n_dofs());
  all.add_range(0, model.n_dofs());
  dealii::SparsityTools::distribute_sparsity_pattern(pattern, rows_, model.communicator(),
                                                     all);
  matrix_.reinit(rows_, rows_, pattern, model.communicator());
  find_places();
}

void DistributedMatrix::find_places()
{
  Part            own, others;
  const PetscInt *other_columns = nullptr; // their numbers among all unknowns, rising
  PetscInt        n             = 0;
  PetscBool       there         = PETSC_FALSE;
  check_petsc(MatMPIAIJGetSeqAIJ(matrix_, &own.mat, &others.mat, &other_columns),
              "the set-up");
  for (Part *part : {&own, &others})
    check_petsc(MatGetRowIJ(part->mat, 0, PETSC_FALSE, PETSC_FALSE, &n, &part->starts,
                            &part->columns, &there),
                "the set-up");
  others_from_ = own.starts[rows_.n_elements()];
  place_.reserve(unknowns_.size() * cell_size_ * cell_size_);
  for (const std::vector<unsigned> &unknowns : unknowns_)
    for (const unsigned i : unknowns)
      for (const unsigned j : unknowns)
        place_.push_back(place_of(own, others, other_columns, i, j));
  for (Part *part : {&own, &others})
    check_petsc(MatRestoreRowIJ(part->mat, 0, PETSC_FALSE, PETSC_FALSE, &n, &part->starts,
                                &part->columns, &there),
                "the set-up");
}

int DistributedMatrix::place_of(const Part &own, const Part &others,
                                const PetscInt *other_columns, unsigned i, unsigned j) const
{
  if (held_[i] || held_[j])
    return dropped;
  if (!rows_.is_element(i))
    return foreign;
  const auto row = static_cast<PetscInt>(rows_.index_within_set(i));
  if (rows_.is_element(j))
    return place_in(own.starts, own.columns, row,
                    static_cast<PetscInt>(rows_.index_within_set(j)));
  const PetscInt *const        first = others.columns + others.starts[row],
                        *const last  = others.columns + others.starts[row + 1];
  const PetscInt *const        found =
      std::lower_bound(first, last, static_cast<PetscInt>(j),
                       [other_columns](PetscInt column, PetscInt number)
                       { return other_columns[column] < number; });
  assert(found != last && other_columns[*found] == static_cast<PetscInt>(j) &&
         "the pattern has no such entry");
  return others_from_ + static_cast<int>(found - others.columns);
}

void DistributedMatrix::clear()
{
  check_petsc(MatZeroEntries(matrix_), "the assembly");
}

void DistributedMatrix::add(unsigned cell, const std::vector<unsigned> &rows,
                            const double *matrix)
{
  std::vector<unsigned> unknowns;
  for (const unsigned row : rows)
    unknowns.push_back(unknowns_[cell][row]);
  add_block(unknowns, matrix);
}

void DistributedMatrix::add_cells(unsigned first, unsigned n_cells, const double *matrices)
{
  Mat          own = nullptr, others = nullptr;
  PetscScalar *own_values = nullptr, *other_values = nullptr;
  check_petsc(MatMPIAIJGetSeqAIJ(matrix_, &own, &others, nullptr), "the assembly");
  check_petsc(MatSeqAIJGetArray(own, &own_values), "the assembly");
  check_petsc(MatSeqAIJGetArray(others, &other_values), "the assembly");
  const std::size_t     n = cell_size_;
  std::vector<PetscInt> columns;
  std::vector<double>   row;
  for (unsigned l = 0; l < n_cells; ++l)
  {
    const std::vector<unsigned> &unknowns = unknowns_[first + l];
    const int *const             place    = &place_[(first + l) * n * n];
    for (std::size_t i = 0; i < n; ++i)
    {
      columns.clear();
      row.clear();
      for (std::size_t j = 0; j < n; ++j)
      {
        const double value = matrices[(i * n + j) * n_lanes + l];
        const int    at    = place[i * n + j];
        if (at >= others_from_)
          other_values[at - others_from_] += value;
        else if (at >= 0)
          own_values[at] += value;
        else if (at == foreign)
        {
          columns.push_back(static_cast<PetscInt>(unknowns[j]));
          row.push_back(value);
        }
      }
      const auto number = static_cast<PetscInt>(unknowns[i]);
      if (!columns.empty())
        check_petsc(MatSetValues(matrix_, 1, &number, static_cast<PetscInt>(columns.size()),
                                 columns.data(), row.data(), ADD_VALUES),
                    "the assembly");
    }
  }
  check_petsc(MatSeqAIJRestoreArray(own, &own_values), "the assembly");
  check_petsc(MatSeqAIJRestoreArray(others, &other_values), "the assembly");
}

void DistributedMatrix::add_block(const std::vector<unsigned> &unknowns,
                                  const double                *matrix)
{
  // PETSc passes over negative numbers.
  std::vector<PetscInt> numbers;
  for (const unsigned unknown : unknowns)
    numbers.push_back(held_[unknown] ? -1 : static_cast<PetscInt>(unknown));
  const auto n = static_cast<PetscInt>(numbers.size());
  check_petsc(
      MatSetValues(matrix_, n, numbers.data(), n, numbers.data(), matrix, ADD_VALUES),
      "the assembly");
}

void DistributedMatrix::add_diagonal_entry(const PetscInt i, const double value)
{
  check_petsc(MatSetValues(matrix_, 1, &i, 1, &i, &value, ADD_VALUES), "the assembly");
}

void DistributedMatrix::add_diagonal(double factor, const Vector &diagonal)
{
  for (const auto i : rows_)
    if (!held_[i])
      add_diagonal_entry(static_cast<PetscInt>(i),
                         factor * diagonal[static_cast<unsigned>(i)]);
}

void DistributedMatrix::finish()
{
  for (const auto i : rows_)
    if (held_[i])
      add_diagonal_entry(static_cast<PetscInt>(i), 1.);
  check_petsc(MatAssemblyBegin(matrix_, MAT_FINAL_ASSEMBLY), "the assembly");
  check_petsc(MatAssemblyEnd(matrix_, MAT_FINAL_ASSEMBLY), "the assembly");
}

template DistributedMatrix::DistributedMatrix(const CouponModel<2> &);
template DistributedMatrix::DistributedMatrix(const CouponModel<3> &);
} // namespace throughbend
