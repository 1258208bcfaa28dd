#include "solver/fem/equilibrium.h"

#include <algorithm>
#include <atomic>
#include <cassert>
#include <stdexcept>
#include <utility>

namespace throughbend
{
template <int dim>
Equilibrium<dim>::Equilibrium(const CouponModel<dim>   &model,
                              std::vector<ZoneMaterial> zones, unsigned n_threads,
                              Registers registers)
    : model_(model), kernels_(cell_kernels<dim>(registers)), zones_(std::move(zones)),
      history_(model.cells().size() * n_points),
      crew_(std::make_unique<CellCrew>(n_threads))
{
  if (model.n_nodes_per_cell() != n_nodes || model.n_points_per_cell() != n_points)
    throw std::logic_error("Equilibrium is written for quadratic cells");
  materials_.reserve(model.cells().size() * n_points);
  for (const CellData<dim> &cell : model_.cells())
    materials_.insert(materials_.end(), n_points,
                      zones_.at(static_cast<std::size_t>(cell.zone)));
  make_batches();
  colour_batches();
}

template <int dim>
void Equilibrium<dim>::mix(const std::vector<StrengthMix> &mixes)
{
  if (mixes.size() != materials_.size())
    throw std::invalid_argument("a mix is needed for each point");
  for (std::size_t p = 0; p < mixes.size(); ++p)
    materials_[p] = {zones_.at(static_cast<std::size_t>(mixes[p].first)),
                     zones_.at(static_cast<std::size_t>(mixes[p].second)), mixes[p].share};
  make_batches();
}

template <int dim>
void Equilibrium<dim>::make_batches()
{
  batches_ = cell_batches(model_, materials_);
  states_  = std::vector<BatchState<dim>>(batches_.size());
  for (std::size_t k = 0; k < batches_.size(); ++k)
    states_[k].tangent.resize(batches_[k].symmetric ? 0 : n_points);
  taken_ = 0;
}

/// Greedy: each batch takes the first colour that no batch with a common node has.
template <int dim>
void Equilibrium<dim>::colour_batches()
{
  std::vector<std::vector<bool>> taken; // of each colour, by unknown
  for (std::size_t k = 0; k < batches_.size(); ++k)
  {
    const auto &dofs    = batches_[k].dofs;
    const auto  is_free = [&](const std::vector<bool> &by_unknown)
    {
      return std::none_of(std::begin(dofs), std::end(dofs),
                          [&](const auto &lanes)
                          {
                            return std::any_of(std::begin(lanes), std::end(lanes),
                                               [&](unsigned dof)
                                               { return by_unknown[dof]; });
                          });
    };
    const auto found  = std::find_if(taken.begin(), taken.end(), is_free);
    const auto colour = static_cast<std::size_t>(found - taken.begin());
    if (found == taken.end())
    {
      taken.emplace_back(model_.n_dofs(), false);
      colours_.emplace_back();
    }
    for (const auto &lanes : dofs)
      for (const unsigned dof : lanes)
        taken[colour][dof] = true;
    colours_[colour].push_back(k);
  }
}

/// What an evaluation starts from changes with each accepted step only.
template <int dim>
void Equilibrium<dim>::take_history()
{
  if (taken_ == history_.version())
    return;
  for (std::size_t k = 0; k < batches_.size(); ++k)
    throughbend::take_history(batches_[k], history_.all_accepted(), states_[k]);
  taken_ = history_.version();
}

template <int dim>
bool Equilibrium<dim>::add_forces(const Vector &u, Vector &force)
{
  assert(u.size() == model_.n_dofs() && "the shape is of another model");
  take_history();
  const PlasticState *const accepted = history_.all_accepted().data();
  PlasticState *const       latest   = history_.all_latest().data();
  std::atomic<bool>         good(true);
  crew_->each(
      batches_.size(),
      [&](std::size_t k)
      {
        if (good.load(std::memory_order_relaxed) &&
            !kernels_.evaluate(batches_[k], u.begin(), accepted, latest, states_[k]))
          good = false;
      });
  energy_ = {};
  if (!good)
    return false;
  // Always in the order of the cells, whoever evaluated them.
  for (std::size_t k = 0; k < batches_.size(); ++k)
  {
    const CellBatch<dim>  &batch = batches_[k];
    const BatchState<dim> &state = states_[k];
    for (int l = 0; l < batch.n_cells; ++l)
    {
      for (int i = 0; i < n_local; ++i)
        force.begin()[batch.dofs[i][l]] += state.force[i][l];
      energy_.elastic += state.elastic[l];
      energy_.plastic_step += state.plastic[l];
    }
  }
  return true;
}

template <int dim>
void Equilibrium<dim>::add_tangent(LinearSystem &system)
{
  const auto add = [&](std::size_t k)
  {
    alignas(32) double matrices[n_local * n_local * n_lanes];
    kernels_.form_tangents(batches_[k], states_[k], matrices);
    system.add_cells(batches_[k].first, static_cast<unsigned>(batches_[k].n_cells),
                     matrices, n_local);
  };
  for (const std::vector<std::size_t> &batches : colours_)
    if (system.adds_in_parallel())
      crew_->each(batches.size(), [&](std::size_t k) { add(batches[k]); });
    else
      std::for_each(batches.begin(), batches.end(), add);
}

template <int dim>
Matrix3 Equilibrium<dim>::kirchhoff(std::size_t point) const
{
  const std::size_t      cell = point / n_points, l = cell % n_lanes;
  const BatchState<dim> &state = states_[cell / n_lanes];
  Symmetric3             tau{};
  for (int i = 0; i < n_symmetric<dim>; ++i)
    tau[i] = state.kirchhoff[point % n_points][i][l];
  return full(tau);
}

template <int dim>
double Equilibrium<dim>::dilatation(std::size_t point) const
{
  const std::size_t cell = point / n_points;
  return states_[cell / n_lanes].theta[point % n_points][cell % n_lanes];
}

template class Equilibrium<2>;
template class Equilibrium<3>;
} // namespace throughbend
