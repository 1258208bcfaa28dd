#include "solver/pass/pass_ledger.h"

#include "solver/fem/contact_patch.h"
#include "solver/outcome/coupon_end.h"
#include "solver/pass/surface_strain.h"
#include "solver/pass/width_shape.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double degrees = 180 / 3.14159265358979323846;

/// Over which contact pressure is averaged: the same on every mesh, about a face of the
/// standard one [mm].
double smoothing_length(const PassSetup &setup)
{
  return setup.coupon.thickness / 4;
}
} // namespace

template <int dim>
PassLedger<dim>::PassLedger(const PassSetup &setup, const PassEquations<dim> &equations,
                            const CouponProbe<dim> &probe)
    : setup_(setup), equations_(equations), probe_(probe),
      factor_(equations.model().whole_coupon_factor()),
      force_measure_(1e-2 * setup_.force.bending)
{
  books_.largest_work           = setup_.force.bending * setup.coupon.thickness / 100;
  const CouponModel<dim> &model = equations.model();
  for (const FaceData<dim> &face : model.faces())
  {
    double longest = 0;
    for (const unsigned a : face.nodes)
      for (const unsigned b : face.nodes)
      {
        const auto &dofs = model.cells()[face.cell].dofs;
        const auto  way  = model.nodes()[dofs[a]] - model.nodes()[dofs[b]];
        longest          = std::max(longest, std::hypot(way[0], way[1]));
      }
    face_lengths_.push_back(longest);
  }
}

template <int dim>
double PassLedger<dim>::ram_force() const
{
  const std::vector<ToolForce> forces = equations_.contact().tool_forces();
  double                       up     = 0; // of all that goes down with the ram
  for (std::size_t k = 0; k < forces.size(); ++k)
    if (tool_list()[k].place.duty == ToolDuty::push)
      up += forces[k].force_y;
  return -factor_ * up;
}

template <int dim>
void PassLedger<dim>::book(const Vector &, double travel, StepKind kind)
{
  const CouponModel<dim> &model   = equations_.model();
  const StrainEnergy      strain  = equations_.equilibrium().energy();
  const ContactEnergy     contact = equations_.contact().energy();
  const double            force   = kind == StepKind::release ? 0. : ram_force();
  EnergyBalance          &energy  = books_.energy;
  const EnergyBalance     before  = energy;

  energy.ram_work += (books_.ram_force + force) / 2 * (travel - books_.travel);
  energy.elastic = factor_ * model.sum_over_ranks(strain.elastic);
  energy.contact = factor_ * (contact.springs + equations_.lips().energy());
  energy.plastic += factor_ * model.sum_over_ranks(strain.plastic_step);
  energy.friction += factor_ * contact.friction_step;
  if (kind == StepKind::push)
    energy.regularisation += factor_ * equations_.regularisation_work();
  else
    energy.released +=
        energy.ram_work - before.ram_work -
        (energy.elastic - before.elastic + energy.contact - before.contact +
         energy.plastic - before.plastic + energy.friction - before.friction);
  books_.largest_work = std::max(books_.largest_work, energy.ram_work);
  const double spent  = energy.elastic + energy.plastic + energy.friction + energy.contact +
                       energy.regularisation + energy.released;
  energy.error     = std::abs(energy.ram_work - spent) / books_.largest_work;
  books_.travel    = travel;
  books_.ram_force = force;
}

template <int dim>
PassSample PassLedger<dim>::sample(const Vector &u, StepKind kind) const
{
  const CouponModel<dim> &model = equations_.model();
  PassSample              sample;
  sample.kind      = kind;
  sample.travel    = books_.travel;
  sample.ram_force = books_.ram_force;
  sample.energy    = books_.energy;

  const auto forces = equations_.contact().tool_forces();
  const auto patches =
      contact_patches(model, equations_.contact(), smoothing_length(setup_));
  double sum_x = 0, sum_y = 0, largest = force_measure_;
  for (std::size_t k = 0; k < forces.size(); ++k)
  {
    const ToolForce &tool = forces[k];
    ToolContact     &out  = sample.tools[k];
    out.force_x           = factor_ * tool.force_x;
    out.force_y           = factor_ * tool.force_y;
    out.normal            = factor_ * tool.normal;
    out.slipping          = tool.normal > 0 ? tool.slipping / tool.normal : 0.;
    out.pressure          = tool.pressure;
    out.line_load         = patches[k].line_load;
    out.patch_length      = patches[k].length;
    out.patch_pressure    = patches[k].pressure;
    out.smoothed_pressure = patches[k].smoothed;
    sum_x += out.force_x;
    sum_y += out.force_y;
    largest = std::max(largest, std::hypot(out.force_x, out.force_y));
  }
  look_at_touching(sample);
  if (model.extent() == Extent::half)
  {
    // The modelled half's shoulder and frame carry half each of the whole coupon's force,
    // and the plane of symmetry whatever acts along x.
    for (ToolContact &tool : sample.tools)
      if (tool.place.side == ToolSide::middle)
        tool.force_x = 0;
      else if (tool.place.side == ToolSide::right)
      {
        tool.from_below /= 2;
        tool.force_x /= 2;
        tool.force_y /= 2;
        tool.normal /= 2;
        ToolContact &left = sample.tool(opposite(tool.place));
        left              = tool;
        left.place        = opposite(tool.place);
        left.force_x      = -tool.force_x;
      }
    sum_x = 0;
  }
  sample.equilibrium_error = std::hypot(sum_x, sum_y) / largest;
  sample.penetration       = equations_.contact().deepest();

  sample.left         = probe_.leg(u, Side::left);
  sample.right        = probe_.leg(u, Side::right);
  sample.walk         = probe_.walk(u);
  sample.tilt         = probe_.tilt(u);
  double nearest      = 1e300;
  sample.outer_strain = -1e300;
  for (const FaceStrain &point : probe_.face_strains(u, Face::convex))
  {
    if (point.strain > sample.outer_strain && !is_at_an_end(setup_.coupon, point.position))
    {
      sample.outer_strain    = point.strain;
      sample.outer_strain_at = point.position;
    }
    if (std::abs(point.x) < nearest)
    {
      nearest             = std::abs(point.x);
      sample.crown_strain = point.strain;
    }
  }
  double largest_plastic = 0;
  for (std::size_t p = 0; p < model.cells().size() * model.n_points_per_cell(); ++p)
    largest_plastic =
        std::max(largest_plastic,
                 equations_.equilibrium().history().latest(p).equivalent_plastic_strain);
  sample.point_plastic_strain = model.max_over_ranks(largest_plastic);
  const auto on_face          = [&](CouponFace face)
  { return surface_plastic_strain(model, equations_.equilibrium(), face); };
  sample.plastic_strain         = on_face(CouponFace::convex);
  sample.concave_plastic_strain = on_face(CouponFace::concave);
  if constexpr (dim == 3)
    sample.width = width_shape(setup_, equations_, probe_, u);
  look_at_nose(u, sample);
  for (const LipGap &gap : probe_.flaw_gaps(u))
    sample.flaws.push_back({gap.opening, gap.overlap});
  return sample;
}

template <int dim>
void PassLedger<dim>::look_at_nose(const Vector &u, PassSample &sample) const
{
  const CouponModel<dim>     &model   = equations_.model();
  const ContactAssembly<dim> &contact = equations_.contact();

  // Outermost touching points on either side, by the angle of the nose's normal and by
  // place.
  constexpr double none       = -1e300;
  double           left_angle = none, right_angle = none, left_x = none, right_x = none;
  // A rounded edge stands off the nose from the start, and says nothing of the bend.
  const auto on_flat = [&](const dealii::Point<dim> &at)
  { return dim == 2 || at[dim - 1] <= setup_.coupon.flat_half_width(); };
  const auto each = [&](auto &&look)
  {
    for (std::size_t f = 0; f < model.faces().size(); ++f)
      if (model.faces()[f].name == CouponFace::concave)
        for (std::size_t q = 0; q < model.faces()[f].weight.size(); ++q)
          if (on_flat(model.faces()[f].position[q]))
            look(model.faces()[f].position[q][0], contact.latest(f, q, tool_at::plunger));
  };
  each(
      [&](double x, const ContactState &state)
      {
        if (state.pressure <= 0)
          return;
        const double angle = std::atan2(state.normal.x, -state.normal.y) * degrees;
        left_angle         = std::max(left_angle, -angle);
        right_angle        = std::max(right_angle, angle);
        left_x             = std::max(left_x, -x);
        right_x            = std::max(right_x, x);
      });
  left_angle  = model.max_over_ranks(left_angle);
  right_angle = model.max_over_ranks(right_angle);
  left_x      = model.max_over_ranks(left_x);
  right_x     = model.max_over_ranks(right_x);
  if (right_angle == none)
    return;
  if (model.extent() == Extent::half)
  {
    left_angle = right_angle;
    left_x     = right_x;
  }
  sample.wrap    = std::max(0., left_angle + right_angle);
  double largest = 0;
  each(
      [&](double x, const ContactState &state)
      {
        if (x > -left_x && x < right_x && state.gap < 1e29)
          largest = std::max(largest, state.gap);
      });
  sample.nose_gap = model.max_over_ranks(largest);
  if constexpr (dim == 3)
  {
    put_nose_gaps(setup_.coupon, {-left_x, right_x, books_.travel}, equations_, probe_, u,
                  *sample.width);
    // No contact point lies on the mid-width or on the edge itself.
    sample.nose_gap = std::max(
        {sample.nose_gap, sample.width->nose_gap_middle, sample.width->nose_gap_edge});
  }
}

/// Where the outlines are touched: from below, and on rounds by how long a face.
template <int dim>
void PassLedger<dim>::look_at_touching(PassSample &sample) const
{
  const CouponModel<dim>       &model   = equations_.model();
  const ContactAssembly<dim>   &contact = equations_.contact();
  const std::vector<ToolPiece> &pieces  = contact.pieces();
  // Square to an axis: a flat of every outline, and of no length on a round.
  constexpr double flat = 0.05, down = -0.7;

  std::vector<double> from_below(tool_list().size()), face_over_radius(from_below.size());
  for (std::size_t f = 0; f < model.faces().size(); ++f)
    for (std::size_t q = 0; q < model.faces()[f].weight.size(); ++q)
      for (std::size_t k = 0; k < pieces.size(); ++k)
      {
        const ContactState &state = contact.latest(f, q, k);
        if (state.pressure <= 0)
          continue;
        const RigidTool  &tool  = contact.tool_of(pieces[k]);
        const std::size_t place = tool_number(tool.place);
        if (state.normal.y < down)
          from_below[place] += factor_ * state.pressure * model.faces()[f].weight[q];
        const double radius = tool.gauge.round;
        if (std::min(std::abs(state.normal.x), std::abs(state.normal.y)) > flat &&
            radius > 0)
          face_over_radius[place] =
              std::max(face_over_radius[place], face_lengths_[f] / radius);
      }
  for (std::size_t place = 0; place < from_below.size(); ++place)
  {
    sample.tools[place].from_below       = model.sum_over_ranks(from_below[place]);
    sample.tools[place].face_over_radius = model.max_over_ranks(face_over_radius[place]);
  }
}

template class PassLedger<2>;
template class PassLedger<3>;
} // namespace throughbend
