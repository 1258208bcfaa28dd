#include "solver/fem/pass_equations.h"

#include "solver/fem/whole_list.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <thread>

namespace throughbend
{
namespace
{
// Of the springs between lips over those against tools at first: about that of a cell
// beside a flaw. Where lips overlap too far all the same they are stiffened during the
// pass.
constexpr double lip_stiffness = 4;

/// Threads for the cells of this rank: few cells are too soon done to share, and several
/// ranks take a core each.
template <int dim>
unsigned n_threads(const CouponModel<dim> &model)
{
  constexpr std::size_t worth_sharing = 1000; // of a plane model
  if (!model.alone() || (dim == 2 && model.cells().size() < worth_sharing))
    return 1;
  constexpr unsigned most = dim == 2 ? 2 : 8;
  return std::clamp(std::thread::hardware_concurrency(), 1u, most);
}

/// Of this rank's cells, or faces.
template <class List>
std::vector<unsigned> numbers_of(const List &list)
{
  std::vector<unsigned> numbers;
  for (const auto &each : list)
    numbers.push_back(each.number);
  return numbers;
}

/// Adds the time of its own life to a counter.
class Timed
{
public:
  explicit Timed(double &seconds) : seconds_(seconds), start_(clock::now()) {}
  ~Timed() { seconds_ += std::chrono::duration<double>(clock::now() - start_).count(); }
  Timed(const Timed &)            = delete;
  Timed &operator=(const Timed &) = delete;

private:
  using clock = std::chrono::steady_clock;
  double           &seconds_;
  clock::time_point start_;
};
} // namespace

template <int dim>
PassEquations<dim>::PassEquations(const CouponModel<dim>   &model,
                                  std::vector<ZoneMaterial> zones,
                                  std::vector<RigidTool> tools, ContactStiffness stiffness)
    : model_(model), equilibrium_(model, std::move(zones), n_threads(model)),
      contact_(model, std::move(tools), stiffness),
      lips_(model, lip_stiffness * stiffness.normal), system_(make_linear_system(model)),
      residual_(model.n_dofs()), contact_force_(model.n_dofs()), base_(model.n_dofs()),
      latest_(model.n_dofs())
{
}

template <int dim>
bool PassEquations<dim>::evaluate(const Vector &u, const LoadPoint &load)
{
  assert(u.size() == model_.n_dofs() && "the shape is of another model");
  assert(load.regularisation >= 0 && "a drag must hold, not push");
  ++work_.evaluations;
  load_ = load;
  bool good;
  {
    const Timed timed(work_.assembly);
    residual_ = 0;
    good      = equilibrium_.add_forces(u, residual_);
    good      = model_.max_over_ranks(good ? 0. : 1.) == 0.;
    if (!good)
      return false;
    model_.sum_over_ranks(residual_);
  }
  const Timed timed(work_.contact);
  contact_force_ = 0;
  contact_.add_forces(u, load.travel, contact_force_);
  model_.sum_over_ranks(contact_force_);
  residual_ -= contact_force_;
  lips_.add_forces(u, residual_);
  latest_ = u;
  for (unsigned i = 0; i < residual_.size(); ++i)
    if (model_.held()[i])
      residual_[i] = 0;
    else
      residual_[i] += load.regularisation * model_.lumped_volume()[i] * (u[i] - base_[i]);
  return std::isfinite(residual_.l2_norm());
}

template <int dim>
bool PassEquations<dim>::solve(const Vector &right_side, Vector &solution)
{
  assert(right_side.size() == model_.n_dofs() && "the load is of another model");
  ++work_.factorisations;
  {
    const Timed timed(work_.assembly);
    system_->clear();
    equilibrium_.add_tangent(*system_);
  }
  {
    const Timed timed(work_.contact);
    contact_.add_tangent(*system_);
    lips_.add_tangent(*system_);
    system_->add_diagonal(load_.regularisation, model_.lumped_volume());
  }
  const Timed timed(work_.solution);
  return system_->solve(right_side, solution);
}

template <int dim>
void PassEquations<dim>::accept(const Vector &u)
{
  assert(u == latest_ && "only the shape last evaluated has a history to take");
  system_->forget_factors();
  equilibrium_.history().accept();
  contact_.accept();
  base_ = u;
}

template <int dim>
PassMemory PassEquations<dim>::memory() const
{
  return {equilibrium_.history().all_accepted(), contact_.all_accepted(),
          contact_.stiffness(), lips_.stiffness(), base_};
}

template <int dim>
void PassEquations<dim>::restore(const PassMemory &memory)
{
  assert(memory.displacement.size() == base_.size() && "the memory is of another model");
  equilibrium_.history().restore(memory.plastic);
  contact_.restore(memory.contact, memory.stiffness);
  lips_.restore(memory.lip_stiffness);
  base_ = memory.displacement;
}

template <int dim>
PassMemory PassEquations<dim>::whole(const PassMemory &own) const
{
  if (model_.alone())
    return own;
  return {whole_list(own.plastic, numbers_of(model_.cells()), model_.n_all_cells(),
                     model_.communicator()),
          whole_list(own.contact, numbers_of(model_.faces()), model_.n_all_faces(),
                     model_.communicator()),
          own.stiffness, own.lip_stiffness, model_.in_common_order(own.displacement)};
}

template <int dim>
PassMemory PassEquations<dim>::share(const PassMemory &whole) const
{
  if (model_.alone())
    return whole;
  return {own_share(whole.plastic, numbers_of(model_.cells()), model_.n_all_cells()),
          own_share(whole.contact, numbers_of(model_.faces()), model_.n_all_faces()),
          whole.stiffness, whole.lip_stiffness, model_.in_own_order(whole.displacement)};
}

template <int dim>
std::string PassEquations<dim>::fault_of(const PassMemory &whole) const
{
  if (whole.displacement.size() != model_.n_dofs())
    return "it is of another model, of another number of unknowns";
  if (whole.plastic.size() !=
      std::size_t{model_.n_all_cells()} * model_.n_points_per_cell())
    return "it is of another model, of another number of points in cells";
  if (whole.contact.size() !=
      std::size_t{model_.n_all_faces()} * contact_.states_per_face())
    return "it is of another model, of another number of contact points";
  return "";
}

template <int dim>
double PassEquations<dim>::regularisation_work() const
{
  double work = 0;
  for (unsigned i = 0; i < base_.size(); ++i)
  {
    const double moved = latest_[i] - base_[i];
    work += load_.regularisation * model_.lumped_volume()[i] * moved * moved;
  }
  return work;
}

template class PassEquations<2>;
template class PassEquations<3>;
} // namespace throughbend
