#include "tests/verify/pressed_body.h"

#include "tests/support/metals.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace throughbend
{
namespace
{
std::vector<ZoneMaterial> zones(const BodyMetal &of)
{
  return {metal(of.young, of.poisson, perfectly_plastic(of.yield))};
}

/// The shape with all of it of zone 0: deal.II's makers number quarters by material id.
template <int dim>
dealii::Triangulation<dim> of_one_metal(const dealii::Triangulation<dim> &shape)
{
  dealii::Triangulation<dim> copy;
  copy.copy_triangulation(shape);
  for (const auto &cell : copy.active_cell_iterators())
    cell->set_material_id(0);
  return copy;
}
} // namespace

template <int dim>
PressedBody<dim>::PressedBody(const dealii::Triangulation<dim> &shape, const Holds &held,
                              const BodyMetal &metal, std::vector<RigidTool> tools,
                              ContactStiffness stiffness, NewtonSettings newton,
                              double drag)
    : model_(of_one_metal(shape), held, MPI_COMM_WORLD),
      equations_(model_, zones(metal), std::move(tools), stiffness), newton_(newton),
      drag_(drag), u_(model_.n_dofs()), reaction_(model_.n_dofs()), last_(model_.n_dofs())
{
}

template <int dim>
void PressedBody<dim>::start()
{
  step(0, u_, u_);
  last_   = 0;
  opened_ = books_;
  books_  = {};
  error_ = largest_ = 0;
}

template <int dim>
void PressedBody<dim>::go(double travel, const Motion &motion, int steps,
                          const std::function<void()> &look)
{
  Vector to(u_);
  for (unsigned component = 0; component < dim; ++component)
    for (const auto &cell : model_.cells())
      for (unsigned a = 0; a < model_.n_nodes_per_cell(); ++a)
      {
        const unsigned i = cell.dofs[component * model_.n_nodes_per_cell() + a];
        if (model_.held()[i])
          to[i] = motion(model_.nodes()[i], component);
      }

  advance(travel, to, steps, look);
}

template <int dim>
void PressedBody<dim>::go(double travel, int steps, const std::function<void()> &look)
{
  advance(travel, u_, steps, look);
}

template <int dim>
void PressedBody<dim>::advance(double travel, const Vector to, int steps,
                               const std::function<void()> &look)
{
  const Vector from(u_);
  const double travel_from = travel_;
  double       done = 0, part = 1. / steps;
  last_part_ = 0;
  while (done < 1 - 1e-9)
  {
    part = std::min(part, 1 - done);
    Vector held(from), guess(u_);
    held.sadd(1 - done - part, done + part, to);
    if (last_part_ > 0)
      guess.add(part / last_part_, last_);
    try
    {
      step(travel_from + (done + part) * (travel - travel_from), held, guess);
    }
    catch (const std::runtime_error &)
    {
      // Once without the guess of the last step, then smaller.
      if (last_part_ > 0)
      {
        last_part_ = 0;
        continue;
      }
      part /= 2;
      if (part * steps < 1e-3)
        throw;
      continue;
    }
    last_part_ = part;
    done += part;
    part = std::min(1.5 * part, 1. / steps);
    look();
  }
}

template <int dim>
void PressedBody<dim>::step(double travel, const Vector &held, const Vector &guess)
{
  Vector u(guess);
  for (unsigned i = 0; i < u.size(); ++i)
    if (model_.held()[i])
      u[i] = held[i];
  const NewtonReport report = solve_newton(equations_, u, {travel, drag_}, newton_);
  iterations_ += report.iterations;
  if (!report.converged())
    throw std::runtime_error("a pressed body found no balance at travel " +
                             std::to_string(travel) + " mm, residual " +
                             std::to_string(report.residual) + ", end " +
                             std::to_string(static_cast<int>(report.end)) + ", after " +
                             std::to_string(report.iterations) + " iterations");
  book(travel, u);
  last_ = u;
  last_ -= u_;
  u_      = u;
  travel_ = travel;
  equations_.accept(u);
}

template <int dim>
void PressedBody<dim>::book(double travel, const Vector &u)
{
  // The equations zero their residual at held unknowns; evaluated anew, it is the reaction.
  Vector inside(u.size()), tools(u.size());
  equations_.equilibrium().add_forces(u, inside);
  equations_.contact().add_forces(u, travel, tools);
  inside -= tools;
  const double plunger = force(tool_at::plunger).force_y;
  books_.outside += -(plunger + plunger_force_) / 2 * (travel - travel_);
  for (unsigned i = 0; i < u.size(); ++i)
    if (model_.held()[i])
      books_.outside += (inside[i] + reaction_[i]) / 2 * (u[i] - u_[i]);
    else
      inside[i] = 0;
  reaction_      = inside;
  plunger_force_ = plunger;

  const StrainEnergy  strain  = equations_.equilibrium().energy();
  const ContactEnergy contact = equations_.contact().energy();
  books_.elastic              = strain.elastic - opened_.elastic;
  books_.contact              = contact.springs - opened_.contact;
  books_.plastic += strain.plastic_step;
  books_.friction += contact.friction_step;
  books_.drag += equations_.regularisation_work();
  largest_ = std::max({largest_, std::abs(books_.outside), std::abs(books_.spent())});
  error_   = std::abs(books_.outside - books_.spent()) / largest_;
}

template <int dim>
ToolForce PressedBody<dim>::force(ToolPlace place) const
{
  return equations_.contact().tool_forces()[tool_number(place)];
}

template <int dim>
double PressedBody<dim>::reaction(unsigned                                 component,
                                  const std::function<bool(const Node &)> &region) const
{
  double            sum = 0;
  std::vector<bool> done(model_.n_dofs(), false);
  for (const auto &cell : model_.cells())
    for (unsigned a = 0; a < model_.n_nodes_per_cell(); ++a)
    {
      const unsigned i = cell.dofs[component * model_.n_nodes_per_cell() + a];
      if (!done[i] && model_.held()[i] && region(model_.nodes()[i]))
        sum += reaction_[i];
      done[i] = true;
    }
  return sum;
}

std::vector<double> graded_widths(double first, double growth, double span)
{
  std::vector<double> widths;
  double              sum = 0;
  for (double width = first; sum < span; width *= growth)
  {
    widths.push_back(width);
    sum += width;
  }
  for (double &width : widths)
    width *= span / sum;
  return widths;
}

RigidProfile flat_face(PlaneVector foot, PlaneVector normal)
{
  const PlaneVector along = {-normal.y, normal.x};
  constexpr double  half = 1000, deep = 200;
  const PlaneVector back = foot - deep * normal;
  // Counter-clockwise, the last line (where nothing touches) at the back.
  return RigidProfile::rounded({{back - half * along, 1},
                                {foot - half * along, 1},
                                {foot + half * along, 1},
                                {back + half * along, 1}});
}

template class PressedBody<2>;
template class PressedBody<3>;
} // namespace throughbend
