#include "solver/fem/contact_assembly.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
std::vector<ToolPiece> all_pieces(const std::vector<RigidTool> &tools)
{
  std::vector<ToolPiece> pieces;
  for (std::size_t tool = 0; tool < tools.size(); ++tool)
    for (std::size_t outline = 0; outline < tools[tool].outlines.size(); ++outline)
      pieces.push_back({tool, outline});
  return pieces;
}

/// Bands from the outline at which the springs of a face begin to act [-]: as far as the
/// round sinks in between two points that touch it, d^2 / (8 r).
double widening(const double face_length, const double round, const ContactStiffness &c)
{
  if (face_length <= c.long_face || c.band <= 0)
    return 1;
  constexpr double widest_gap = 0.184; // between eight Gauss points, over the face's length
  const double     distance   = widest_gap * face_length;
  return std::clamp(distance * distance / (8 * round) / c.band, 1., c.widest_band);
}

/// Along the coupon, of a face of a plane model [mm].
template <int dim>
double face_length(const FaceData<dim> &face)
{
  double area = 0;
  for (const double weight : face.weight)
    area += weight;
  return area;
}
} // namespace

template <int dim>
ContactAssembly<dim>::ContactAssembly(const CouponModel<dim> &model,
                                      std::vector<RigidTool>  tools,
                                      ContactStiffness        stiffness)
    : model_(model), tools_(std::move(tools)), pieces_(all_pieces(tools_)),
      stiffness_(stiffness),
      n_points_(model.faces().empty() ? 0 : model.faces().front().weight.size()),
      accepted_(model.faces().size() * n_points_ * pieces_.size()),
      latest_(accepted_.size()), looks_(model.faces().size() * pieces_.size()),
      ways_(model), spring_(model.faces().size() * n_points_ * dim * dim),
      active_(model.faces().size(), false)
{
  widening_.assign(model.faces().size() * pieces_.size(), 1.);
  for (std::size_t f = 0; f < model.faces().size() && dim == 2; ++f)
    for (std::size_t k = 0; k < pieces_.size(); ++k)
      widening_[f * pieces_.size() + k] =
          widening(face_length(model.faces()[f]),
                   tool_of(pieces_[k]).outlines[pieces_[k].outline].sharpest(), stiffness_);
  // Feet on the flat coupon before first touch, so that the first slip starts from there.
  const Vector none(model.n_dofs());
  Vector       unused(model.n_dofs());
  add_forces(none, 0, unused);
  accept();
  for (ContactState &state : accepted_)
    state.stress = {};
}

template <int dim>
dealii::Point<dim> ContactAssembly<dim>::place(const FaceData<dim> &face, std::size_t q,
                                               const Vector &u) const
{
  const CellData<dim> &cell = model_.cells()[face.cell];
  const std::size_t    n    = face.nodes.size();
  dealii::Point<dim>   x    = face.position[q];
  for (int c = 0; c < dim; ++c)
    for (std::size_t i = 0; i < n; ++i)
      x[c] += face.shape[q * n + i] * u[cell.dofs[face.dofs[c * n + i]]];
  return x;
}

template <int dim>
double ContactAssembly<dim>::reach_of(const ToolPiece &piece) const
{
  // Far away the foot point is not needed; near enough, it must be known for the next slip.
  // Under the nose the gap itself is a figure.
  return tool_of(piece).place.duty == ToolDuty::push ? stiffness_.nose_reach
                                                     : stiffness_.reach;
}

template <int dim>
double ContactAssembly<dim>::gone(const std::size_t face, const std::size_t piece) const
{
  const PlaneVector motion = tool_of(pieces_[piece]).motion;
  return motion.x == 0 && motion.y == 0 ? ways_.of(face)
                                        : ways_.of(face) + length(motion) * ways_.of_ram();
}

/// At the latest states of a face, none of which touches the outline.
template <int dim>
typename ContactAssembly<dim>::Look ContactAssembly<dim>::look(const std::size_t f,
                                                               const std::size_t k) const
{
  constexpr double    rounding = 1e-9; // [mm], and as a share
  const RigidTool    &tool     = tool_of(pieces_[k]);
  const RigidProfile &outline  = tool.outlines[pieces_[k].outline];
  const double        band     = springs_of(f, k).band;
  double              room     = std::numeric_limits<double>::infinity();
  Look                look;
  for (std::size_t q = 0; q < n_points_; ++q)
  {
    const ContactState &state = latest_[(f * n_points_ + q) * pieces_.size() + k];
    if (state.gap < 1e29)
    {
      look.reaches = true;
      room         = std::min(room, state.gap - band);
      continue;
    }
    const dealii::Point<dim> x = place(model_.faces()[f], q, ways_.at());
    room                       = std::min(
                              room, outline.out_of_reach(PlaneVector{x[0], x[1]} - tool.shift(ways_.travel()),
                                                         reach_of(pieces_[k])));
  }
  look.limit = gone(f, k) + room * (1 - rounding) - rounding;
  return look;
}

/// Gap, foot and normal of the points that were not looked at.
template <int dim>
void ContactAssembly<dim>::settle() const
{
  if (settled_)
    return;
  settled_ = true;
  for (std::size_t f = 0; f < model_.faces().size(); ++f)
    for (std::size_t k = 0; k < pieces_.size(); ++k)
    {
      Look &look = looks_[f * pieces_.size() + k];
      if (!look.stale)
        continue;
      look.stale = false;
      for (std::size_t q = 0; q < n_points_; ++q)
      {
        ContactState &state = latest_[(f * n_points_ + q) * pieces_.size() + k];
        approach(pieces_[k], place(model_.faces()[f], q, ways_.at()), ways_.travel(),
                 state);
        assert(state.gap >= springs_of(f, k).band &&
               "a point that touches was passed over");
      }
    }
}

/// Where a point stands before an outline; nothing where it is out of its reach.
template <int dim>
std::optional<Proximity>
ContactAssembly<dim>::approach(const ToolPiece &piece, const dealii::Point<dim> &x,
                               const double travel, ContactState &state) const
{
  const RigidTool    &tool    = tool_of(piece);
  const RigidProfile &profile = tool.outlines[piece.outline];
  const PlaneVector   local   = PlaneVector{x[0], x[1]} - tool.shift(travel);
  state                       = {};
  if (!profile.within_reach(local, reach_of(piece)))
    return std::nullopt;
  const Proximity near = profile.proximity(local);
  state.gap            = near.gap;
  state.normal         = near.normal;
  state.foot           = {near.arc_length, dim == 3 ? x[dim - 1] : 0.};
  return near;
}

/// Force per reference area on the coupon and its derivative by the point's place, with the
/// outline's frame n, t turning along it: dn = k t (t . dx), dt = -k n (t . dx),
/// k = curvature / (1 + curvature gap); the foot runs by (t . dx) / (1 + curvature gap).
template <int dim>
void ContactAssembly<dim>::touch(const ToolPiece &piece, const dealii::Point<dim> &x,
                                 double travel, const ContactStiffness &springs,
                                 const ContactState &old, ContactState &state,
                                 double *force, double *stiffness) const
{
  const std::optional<Proximity> found = approach(piece, x, travel, state);
  if (!found || found->gap >= springs.band)
    return;
  const RigidTool     &tool   = tool_of(piece);
  const Proximity     &near   = *found;
  const NormalResponse normal = normal_response(near.gap, springs);
  const Tangential     slip =
      old.gap < 1e29 ? Tangential{state.foot[0] - old.foot[0], state.foot[1] - old.foot[1]}
                         : Tangential{};
  const FrictionResponse friction =
      friction_response(old.stress, slip, normal.pressure, tool.friction, springs);
  state.pressure = normal.pressure;
  state.stress   = friction.stress;
  state.slipping = friction.slipping;

  const PlaneVector n = near.normal, t = {-n.y, n.x};
  const double      stretch = 1 + near.curvature * near.gap;
  const double      turn    = near.curvature / stretch;
  // Rows of the local frame: n, t (and z): force = P n + S t + Z z.
  const double nd[3] = {n.x, n.y, 0}, td[3] = {t.x, t.y, 0}, zd[3] = {0, 0, 1};
  const double P = normal.pressure, S = friction.stress[0], Z = friction.stress[1];
  for (int i = 0; i < dim; ++i)
  {
    force[i] += P * nd[i] + S * td[i] + Z * zd[i];
    for (int j = 0; j < dim; ++j)
    {
      const double dP       = -normal.slope * nd[j];
      const double dfoot[2] = {td[j] / stretch, zd[j]};
      const double dS = friction.by_pressure[0] * dP + friction.by_slip[0][0] * dfoot[0] +
                        friction.by_slip[0][1] * dfoot[1];
      const double dZ = friction.by_pressure[1] * dP + friction.by_slip[1][0] * dfoot[0] +
                        friction.by_slip[1][1] * dfoot[1];
      stiffness[i * dim + j] += dP * nd[i] + P * turn * td[i] * td[j] + dS * td[i] -
                                S * turn * nd[i] * td[j] + dZ * zd[i];
    }
  }
}

template <int dim>
ContactStiffness ContactAssembly<dim>::springs_of(std::size_t face, std::size_t piece) const
{
  ContactStiffness springs = stiffness_;
  const double     wider   = widening_[face * pieces_.size() + piece];
  if (wider > 1)
  {
    springs.band *= wider;
    springs.onset = std::max(springs.onset, springs.band);
  }
  return springs;
}

template <int dim>
void ContactAssembly<dim>::add_forces(const Vector &u, double travel, Vector &force)
{
  assert(u.size() == model_.n_dofs() && "the shape is of another model");
  if (separated_)
    return;
  if (!ways_.add(u, travel)) // all is to be looked at
    std::fill(looks_.begin(), looks_.end(), Look{});
  std::vector<std::size_t> near;    // pieces that the face may touch
  std::vector<bool>        touched; // those that it does
  for (std::size_t f = 0; f < model_.faces().size(); ++f)
  {
    const FaceData<dim> &face = model_.faces()[f];
    const CellData<dim> &cell = model_.cells()[face.cell];
    const std::size_t    n    = face.nodes.size();
    active_[f]                = false;
    near.clear();
    for (std::size_t k = 0; k < pieces_.size(); ++k)
      if (Look &look = looks_[f * pieces_.size() + k]; gone(f, k) < look.limit)
      {
        look.stale = look.reaches;
        settled_   = settled_ && !look.stale;
      }
      else
        near.push_back(k);
    if (near.empty())
      continue;
    touched.assign(near.size(), false);
    for (std::size_t q = 0; q < n_points_; ++q)
    {
      const dealii::Point<dim> x = place(face, q, u);
      std::array<double, dim>  pull{};
      double *const            spring   = &spring_[(f * n_points_ + q) * dim * dim];
      bool                     touching = false;
      std::fill(spring, spring + dim * dim, 0.);
      for (std::size_t j = 0; j < near.size(); ++j)
      {
        const std::size_t k     = near[j];
        const std::size_t index = (f * n_points_ + q) * pieces_.size() + k;
        touch(pieces_[k], x, travel, springs_of(f, k), accepted_[index], latest_[index],
              pull.data(), spring);
        assert(latest_[index].pressure >= 0 && "a tool pulls at the coupon");
        touched[j] = touched[j] || latest_[index].pressure > 0;
        touching |= latest_[index].pressure > 0;
      }
      if (!touching)
        continue;
      active_[f] = true;
      for (int c = 0; c < dim; ++c)
        for (std::size_t i = 0; i < n; ++i)
          force[cell.dofs[face.dofs[c * n + i]]] +=
              face.weight[q] * face.shape[q * n + i] * pull[c];
    }
    for (std::size_t j = 0; j < near.size(); ++j)
      looks_[f * pieces_.size() + near[j]] = touched[j] ? Look{} : look(f, near[j]);
  }
}

template <int dim>
void ContactAssembly<dim>::add_tangent(LinearSystem &system) const
{
  if (separated_)
    return;
  std::vector<double> matrix;
  for (std::size_t f = 0; f < model_.faces().size(); ++f)
  {
    if (!active_[f])
      continue;
    const FaceData<dim> &face = model_.faces()[f];
    const std::size_t    n = face.nodes.size(), size = dim * n;
    matrix.assign(size * size, 0.);
    for (std::size_t q = 0; q < n_points_; ++q)
    {
      const double *const spring = &spring_[(f * n_points_ + q) * dim * dim];
      const double *const shape  = &face.shape[q * n];
      for (int c = 0; c < dim; ++c)
        for (int d = 0; d < dim; ++d)
        {
          const double factor = -face.weight[q] * spring[c * dim + d];
          if (factor == 0)
            continue;
          for (std::size_t i = 0; i < n; ++i)
            for (std::size_t j = 0; j < n; ++j)
              matrix[(c * n + i) * size + d * n + j] += factor * shape[i] * shape[j];
        }
    }
    system.add(face.cell, face.dofs, matrix.data());
  }
}

template <int dim>
ContactState ContactAssembly<dim>::latest(std::size_t face, std::size_t q,
                                          ToolPlace place) const
{
  ContactState nearest;
  for (std::size_t k = 0; k < pieces_.size(); ++k)
    if (tool_of(pieces_[k]).place == place && latest(face, q, k).gap < nearest.gap)
      nearest = latest(face, q, k);
  return nearest;
}

template <int dim>
void ContactAssembly<dim>::accept()
{
  settle();
  accepted_ = latest_;
}

template <int dim>
void ContactAssembly<dim>::separate()
{
  forget_looks();
  separated_ = true;
  for (ContactState &state : latest_)
    state = {};
  accepted_ = latest_;
}

template <int dim>
void ContactAssembly<dim>::stiffen(double factor)
{
  assert(factor >= 1 && "springs only get stiffer during a pass");
  stiffness_.normal *= factor;
  stiffness_.tangential *= factor;
}

template class ContactAssembly<2>;
template class ContactAssembly<3>;
} // namespace throughbend
