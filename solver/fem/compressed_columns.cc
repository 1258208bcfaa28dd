#include "solver/fem/compressed_columns.h"

#include "solver/mechanics/lanes.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace throughbend
{
template <int dim>
CompressedColumns::CompressedColumns(const CouponModel<dim> &model)
    : held_(model.n_dofs()), cell_size_(dim * model.n_nodes_per_cell())
{
  const unsigned               n      = model.n_dofs();
  const std::vector<unsigned> &number = model.common_number();
  for (unsigned j = 0; j < n; ++j)
    held_[number[j]] = model.held()[j];
  const auto renumbered = [&number](const auto &dofs)
  {
    std::vector<unsigned> unknowns;
    for (const auto dof : dofs)
      unknowns.push_back(number[dof]);
    return unknowns;
  };
  std::vector<std::vector<int>> columns(n);
  const auto                    meet = [&](const std::vector<unsigned> &unknowns)
  {
    for (const unsigned j : unknowns)
      if (!held_[j])
        for (const unsigned i : unknowns)
          if (!held_[i])
            columns[j].push_back(static_cast<int>(i));
  };
  for (unsigned j = 0; j < n; ++j)
    columns[j].push_back(static_cast<int>(j));
  std::vector<dealii::types::global_dof_index> dofs(cell_size_);
  for (const auto &cell : model.dof_handler().active_cell_iterators())
  {
    cell->get_dof_indices(dofs);
    meet(renumbered(dofs));
  }
  for (const std::vector<unsigned> &coupling : model.couplings())
    meet(renumbered(coupling));
  starts_.assign(1, 0);
  for (unsigned j = 0; j < n; ++j)
  {
    std::sort(columns[j].begin(), columns[j].end());
    columns[j].erase(std::unique(columns[j].begin(), columns[j].end()), columns[j].end());
    const auto at =
        std::lower_bound(columns[j].begin(), columns[j].end(), static_cast<int>(j));
    diagonal_.push_back(starts_.back() + static_cast<int>(at - columns[j].begin()));
    rows_.insert(rows_.end(), columns[j].begin(), columns[j].end());
    starts_.push_back(static_cast<int>(rows_.size()));
  }
  values_.assign(rows_.size() + 1, 0.);

  place_.reserve(model.cells().size() * cell_size_ * cell_size_);
  for (const auto &cell : model.cells())
    for (const unsigned i : cell.dofs)
      for (const unsigned j : cell.dofs)
        place_.push_back(place_of(number[i], number[j]));
  for (const std::vector<unsigned> &coupling : model.couplings())
  {
    std::vector<int> &places = coupling_place_.emplace_back();
    for (const unsigned i : coupling)
      for (const unsigned j : coupling)
        places.push_back(place_of(number[i], number[j]));
  }
}

int CompressedColumns::place_of(unsigned i, unsigned j) const
{
  if (held_[i] || held_[j])
    return static_cast<int>(rows_.size()); // dropped
  const auto first = rows_.begin() + starts_[j], last = rows_.begin() + starts_[j + 1];
  const auto found = std::lower_bound(first, last, static_cast<int>(i));
  assert(found != last && *found == static_cast<int>(i) && "the pattern has no such entry");
  return static_cast<int>(found - rows_.begin());
}

void CompressedColumns::clear()
{
  std::fill(values_.begin(), values_.end(), 0.);
  free_held();
}

void CompressedColumns::free_held()
{
  for (std::size_t j = 0; j < held_.size(); ++j)
    if (held_[j])
      values_[static_cast<std::size_t>(diagonal_[j])] = 1;
}

void CompressedColumns::sum_on_first_rank(MPI_Comm communicator)
{
  const bool first = dealii::Utilities::MPI::this_mpi_process(communicator) == 0;
  MPI_Reduce(first ? MPI_IN_PLACE : values_.data(), values_.data(),
             static_cast<int>(values_.size()), MPI_DOUBLE, MPI_SUM, 0, communicator);
  free_held();
}

void CompressedColumns::add(unsigned cell, const std::vector<unsigned> &rows,
                            const double *matrix)
{
  assert((cell + 1u) * cell_size_ * cell_size_ <= place_.size() && "no such cell");
  const int *const place =
      &place_[static_cast<std::size_t>(cell) * cell_size_ * cell_size_];
  const std::size_t n = rows.size();
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j)
      values_[static_cast<std::size_t>(place[rows[i] * cell_size_ + rows[j]])] +=
          matrix[i * n + j];
}

void CompressedColumns::add_cells(unsigned first, unsigned n_cells, const double *matrices)
{
  const std::size_t n2 = std::size_t{cell_size_} * cell_size_;
  assert((first + n_cells) * n2 <= place_.size() && "no such cell");
  double *const values  = values_.data();
  const int     dropped = static_cast<int>(rows_.size());
  for (unsigned l = 0; l < n_cells; ++l)
  {
    const int *const place = &place_[(first + l) * n2];
    for (std::size_t k = 0; k < n2; ++k)
      if (place[k] != dropped) // which is where threads would meet
        values[place[k]] += matrices[k * n_lanes + l];
  }
}

void CompressedColumns::add_coupling(std::size_t coupling, const double *matrix)
{
  assert(coupling < coupling_place_.size() && "no such pair of lips");
  const std::vector<int> &places = coupling_place_[coupling];
  for (std::size_t k = 0; k < places.size(); ++k)
    values_[static_cast<std::size_t>(places[k])] += matrix[k];
}

void CompressedColumns::add_diagonal(double factor, const Vector &diagonal)
{
  assert(diagonal.size() == held_.size() && "the diagonal is of another model");
  for (std::size_t j = 0; j < held_.size(); ++j)
    if (!held_[j])
      values_[static_cast<std::size_t>(diagonal_[j])] +=
          factor * diagonal[static_cast<unsigned>(j)];
}

std::size_t CompressedColumns::mirrored(int column, std::size_t place) const
{
  return static_cast<std::size_t>(
      place_of(static_cast<unsigned>(column), static_cast<unsigned>(rows_[place])));
}

Vector CompressedColumns::times(const Vector &x) const
{
  assert(x.size() + 1 == starts_.size() && "the vector is of another model");
  Vector              product(x.size());
  const int *const    rows   = rows_.data();
  const double *const values = values_.data();
  for (unsigned j = 0; j + 1 < starts_.size(); ++j)
  {
    const double xj = x[j];
    for (int k = starts_[j]; k < starts_[j + 1]; ++k)
      product.begin()[rows[k]] += values[k] * xj;
  }
  return product;
}

double CompressedColumns::relative_residual(const Vector &x, const Vector &right) const
{
  Vector rest(right);
  rest -= times(x);
  const double size = right.linfty_norm();
  return size > 0 ? rest.linfty_norm() / size : 0.;
}

template CompressedColumns::CompressedColumns(const CouponModel<2> &);
template CompressedColumns::CompressedColumns(const CouponModel<3> &);
} // namespace throughbend
