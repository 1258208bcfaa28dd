#include "tests/support/body.h"

#include "tests/verify/plain_element.h"

#include <deal.II/base/quadrature_lib.h>
#include <deal.II/fe/mapping_q1.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace throughbend
{
template <int dim, typename Forces>
Body<dim, Forces>::Body(const dealii::Triangulation<dim> &shape, const Holds &held,
                        const ZoneMaterial &metal, Motion motion)
    : model_(shape, held, MPI_COMM_WORLD), equilibrium_(model_, {metal}),
      motion_(std::move(motion)), component_(model_.n_dofs()),
      system_(make_linear_system(model_)), dead_load_(model_.n_dofs()), u_(model_.n_dofs()),
      trial_u_(model_.n_dofs()), inner_(model_.n_dofs()), residual_(model_.n_dofs()),
      force_(model_.n_dofs()), q_(model_.n_dofs()), last_dq_(model_.n_dofs())
{
  double volume = 0;
  for (const auto &cell : model_.cells())
  {
    for (unsigned i = 0; i < cell.dofs.size(); ++i)
      component_[cell.dofs[i]] = i / model_.n_nodes_per_cell();
    for (const double w : cell.weight)
      volume += w;
  }
  for (unsigned i = 0; i < model_.n_dofs(); ++i)
    free_.push_back(!model_.held()[i]);
  // A strain of 1e-5 on a face of the body's size: forces below this are none.
  floor_ = 1e-5 * metal.shear * std::pow(volume, (dim - 1.) / dim);
}

template <int dim, typename Forces>
void Body<dim, Forces>::guide(unsigned shared, Guides guides)
{
  guides_ = std::move(guides);
  shared_ = shared;
  for (const auto &[dof, tie] : guides_(load_))
    free_[dof] = false;
  q_.reinit(model_.n_dofs() + shared);
  last_dq_.reinit(q_.size());
  residual_.reinit(q_.size());
  auto tied = std::make_unique<TiedSystem<dim>>(model_, static_cast<unsigned>(q_.size()),
                                                ties_at(load_));
  tied_     = tied.get();
  system_   = std::move(tied);
}

template <int dim, typename Forces>
std::vector<Tie> Body<dim, Forces>::ties_at(double load) const
{
  std::vector<Tie> ties(model_.n_dofs());
  for (unsigned i = 0; i < model_.n_dofs(); ++i)
    if (model_.held()[i])
      ties[i].offset = motion_(model_.nodes()[i], component_[i], load);
    else
      ties[i].parts = {{i, 1.}};
  if (guides_)
    for (auto &[dof, tie] : guides_(load))
      ties[dof] = tie;
  return ties;
}

template <int dim, typename Forces>
bool Body<dim, Forces>::evaluate(const Vector &q, double load)
{
  for (unsigned i = 0; i < model_.n_dofs(); ++i)
  {
    trial_u_[i] = ties_[i].offset;
    for (const auto &[unknown, factor] : ties_[i].parts)
      trial_u_[i] += factor * q[unknown];
  }
  inner_ = 0;
  if (!equilibrium_.add_forces(trial_u_, inner_))
    return false;
  residual_ = 0;
  for (unsigned i = 0; i < model_.n_dofs(); ++i)
    for (const auto &[unknown, factor] : ties_[i].parts)
      residual_[unknown] += factor * (inner_[i] - load * dead_load_[i]);
  return std::isfinite(residual_.l2_norm());
}

template <int dim, typename Forces>
Vector Body<dim, Forces>::from_outside(double load) const
{
  Vector force(inner_);
  for (unsigned i = 0; i < model_.n_dofs(); ++i)
    if (free_[i])
      force[i] = load * dead_load_[i];
  return force;
}

template <int dim, typename Forces>
double Body<dim, Forces>::measure() const
{
  double square = floor_ * floor_;
  for (unsigned i = 0; i < model_.n_dofs(); ++i)
    if (!free_[i] || dead_load_[i] != 0)
      square += inner_[i] * inner_[i];
  return std::sqrt(square);
}

/// Moves q along dq, by shares where the energy's slope has changed sign too strongly.
template <int dim, typename Forces>
void Body<dim, Forces>::search(Vector &q, const Vector &dq, double load)
{
  const Vector start = q;
  const double slope = residual_ * dq;
  const auto   go    = [&](double share)
  {
    q = start;
    q.add(share, dq);
    return evaluate(q, load);
  };
  double share = 1;
  while (!go(share))
    if ((share /= 3) < 1e-5)
      throw std::runtime_error("no share of the step gives a possible shape");
  double low = 0, low_slope = slope, high_slope = residual_ * dq;
  for (int i = 0;
       i < 5 && high_slope * slope < 0 && std::abs(high_slope) > 0.8 * std::abs(slope); ++i)
  {
    share = low + std::clamp((share - low) * low_slope / (low_slope - high_slope),
                             0.05 * (share - low), 0.95 * (share - low));
    go(share);
    high_slope = residual_ * dq;
  }
}

template <int dim, typename Forces>
bool Body<dim, Forces>::step(double load, double part_of_last)
{
  ties_ = ties_at(load);
  if (tied_ != nullptr)
    tied_->follow(ties_);
  Vector q(q_), dq(q_.size());
  q.add(part_of_last, last_dq_);
  if (!evaluate(q, load))
  {
    q = q_;
    if (!evaluate(q, load))
      return false;
  }
  for (int i = 0; residual_.l2_norm() > 1e-9 * measure(); ++i)
  {
    if (i == 25)
      return false;
    ++iterations_;
    system_->clear();
    equilibrium_.add_tangent(*system_);
    Vector right(residual_);
    right *= -1;
    if (!system_->solve(right, dq))
      return false;
    const double before = residual_.l2_norm();
    search(q, dq, load);
    // The last digits are lost in the bulk modulus.
    if (residual_.l2_norm() < 1e-6 * measure() && residual_.l2_norm() > 0.5 * before)
      break;
  }

  const Vector force = from_outside(load);
  for (unsigned i = 0; i < model_.n_dofs(); ++i)
    work_ += (force_[i] + force[i]) / 2 * (trial_u_[i] - u_[i]);
  largest_work_ = std::max(largest_work_, std::abs(work_));
  plastic_ += equilibrium_.energy().plastic_step;
  equilibrium_.history().accept();
  force_   = force;
  u_       = trial_u_;
  last_dq_ = q;
  last_dq_ -= q_;
  q_           = q;
  last_length_ = load - load_;
  load_        = load;
  return true;
}

template <int dim, typename Forces>
void Body<dim, Forces>::go(double load, int steps, const std::function<void()> &look)
{
  const double from = load_;
  for (int i = 1; i <= steps; ++i)
  {
    const double goal  = i == steps ? load : from + (load - from) * i / steps;
    double       share = 1;
    while (load_ != goal)
    {
      const double next = share == 1 ? goal : load_ + share * (goal - load_);
      const double part = last_length_ != 0 ? (next - load_) / last_length_ : 0;
      bool         done = false;
      try
      {
        done = step(next, part > 0 && part < 3 ? part : 0.);
      }
      catch (const std::runtime_error &)
      {
      }
      if (!done && (share /= 2) < 1e-4)
        throw std::runtime_error("no equilibrium found beyond load " +
                                 std::to_string(load_));
      if (done)
        share = std::min(1., 2 * share);
    }
    look();
  }
}

template <int dim, typename Forces>
double Body<dim, Forces>::energy_error() const
{
  if (largest_work_ == 0)
    return 0;
  return std::abs(work_ - equilibrium_.energy().elastic - plastic_) / largest_work_;
}

template <int dim, typename Forces>
std::vector<dealii::Point<dim>> Body<dim, Forces>::places() const
{
  const dealii::QGauss<dim>    rule(3);
  const dealii::MappingQ1<dim> mapping;
  std::vector<Node>            places;
  for (const auto &cell : model_.cells())
    for (const auto &point : rule.get_points())
      places.push_back(mapping.transform_unit_to_real_cell(cell.cell, point));
  return places;
}

template <int dim, typename Forces>
double Body<dim, Forces>::largest_plastic_strain() const
{
  double largest = 0;
  for (const PlasticState &state : equilibrium_.history().all_accepted())
    largest = std::max(largest, state.equivalent_plastic_strain);
  return largest;
}

template <int dim, typename Forces>
unsigned Body<dim, Forces>::dof_at(const Node &node, unsigned component) const
{
  for (unsigned i = 0; i < model_.n_dofs(); ++i)
    if (component_[i] == component && model_.nodes()[i].distance(node) < 1e-6)
      return i;
  throw std::runtime_error("no node there");
}

template class Body<2>;
template class Body<3>;
template class Body<2, PlainElement<2>>;
} // namespace throughbend
