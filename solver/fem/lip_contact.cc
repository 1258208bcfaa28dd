#include "solver/fem/lip_contact.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
// Gauss points of four, on -1 to 1.
constexpr std::array<double, 4> points  = {-0.8611363115940526, -0.3399810435848563,
                                           0.3399810435848563, 0.8611363115940526};
constexpr std::array<double, 4> weights = {0.3478548451374538, 0.6521451548625461,
                                           0.6521451548625461, 0.3478548451374538};

/// Gap of d and t with its derivatives by (d_x, d_y, t_x, t_y).
struct Gap
{
  double                               value = 0;
  std::array<double, 4>                slope{};
  std::array<std::array<double, 4>, 4> curvature{};
};

Gap gap_of(const std::array<double, 4> &z)
{
  const double dx = z[0], dy = z[1], tx = z[2], ty = z[3];
  const double l = std::hypot(tx, ty), cross = dx * ty - dy * tx;
  const double t[2] = {tx, ty}, n[2] = {ty / l, -tx / l}, e[2] = {-dy, dx};
  const double l2 = l * l, l3 = l2 * l;
  const double turn[2][2] = {{0, 1}, {-1, 0}};
  Gap          gap;
  gap.value = cross / l;
  for (std::size_t i = 0; i < 2; ++i)
  {
    gap.slope[i]     = n[i];
    gap.slope[2 + i] = e[i] / l - cross * t[i] / l3;
    for (std::size_t j = 0; j < 2; ++j)
    {
      const double mixed          = turn[i][j] / l - n[i] * t[j] / l2;
      gap.curvature[i][2 + j]     = mixed;
      gap.curvature[2 + j][i]     = mixed;
      gap.curvature[2 + i][2 + j] = -(e[i] * t[j] + e[j] * t[i]) / l3 -
                                    cross * (i == j ? 1. : 0.) / l3 +
                                    3 * cross * t[i] * t[j] / (l3 * l2);
    }
  }
  return gap;
}
} // namespace

template <int dim>
LipContact::LipContact(const CouponModel<dim> &model, const double stiffness)
    : stiffness_(stiffness)
{
  for (const std::vector<unsigned> &dofs : model.couplings())
  {
    Facing facing;
    facing.mirrored = dofs.size() == n_unknowns / 2;
    for (std::size_t i = 0; i < n_unknowns; ++i)
    {
      const bool image   = facing.mirrored && i < n_unknowns / 2 && i % 2 == 0;
      facing.dofs[i]     = dofs[i % dofs.size()];
      facing.sign[i]     = image ? -1 : 1;
      facing.at_first[i] = facing.sign[i] * model.nodes()[facing.dofs[i]][i % 2];
    }
    const Row &x = facing.at_first;
    facing.length =
        (std::hypot(x[4] - x[0], x[5] - x[1]) + std::hypot(x[10] - x[6], x[11] - x[7])) / 2;
    facings_.push_back(facing);
  }
  tangents_.resize(facings_.size());
  active_.assign(facings_.size(), false);
}

void LipContact::add_forces(const Vector &u, Vector &force)
{
  energy_ = 0;
  for (std::size_t f = 0; f < facings_.size(); ++f)
  {
    const Facing &facing = facings_[f];
    const double  share  = facing.mirrored ? 0.5 : 1; // of the energy, in this model
    Row           x      = facing.at_first;
    for (std::size_t i = 0; i < n_unknowns; ++i)
      x[i] += facing.sign[i] * u[facing.dofs[i]];
    active_[f] = false;
    for (std::size_t q = 0; q < points.size(); ++q)
    {
      const double s        = points[q];
      const double shape[3] = {s * (s - 1) / 2, 1 - s * s, s * (s + 1) / 2};
      const double along[3] = {s - 0.5, -2 * s, s + 0.5};
      // z = B x: d and t as combinations of the twelve.
      std::array<Row, 4> B{};
      for (std::size_t a = 0; a < 3; ++a)
        for (std::size_t c = 0; c < 2; ++c)
        {
          B[c][2 * a + c]         = -shape[a];
          B[c][6 + 2 * a + c]     = shape[a];
          B[2 + c][2 * a + c]     = along[a];
          B[2 + c][6 + 2 * a + c] = along[a];
        }
      std::array<double, 4> z{};
      for (std::size_t k = 0; k < 4; ++k)
        for (std::size_t i = 0; i < n_unknowns; ++i)
          z[k] += B[k][i] * x[i];
      const Gap gap = gap_of(z);
      if (gap.value >= 0)
        continue;
      if (!active_[f])
        tangents_[f] = {};
      active_[f]          = true;
      const double spring = share * stiffness_ * weights[q] * facing.length / 2;
      energy_ += spring * gap.value * gap.value / 2;
      Row slope{};
      for (std::size_t k = 0; k < 4; ++k)
        for (std::size_t i = 0; i < n_unknowns; ++i)
          slope[i] += gap.slope[k] * B[k][i];
      for (std::size_t i = 0; i < n_unknowns; ++i)
      {
        force[facing.dofs[i]] += facing.sign[i] * spring * gap.value * slope[i];
        double *const row = &tangents_[f][i * n_unknowns];
        for (std::size_t j = 0; j < n_unknowns; ++j)
        {
          double bent = 0;
          for (std::size_t k = 0; k < 4; ++k)
            for (std::size_t m = 0; m < 4; ++m)
              bent += B[k][i] * gap.curvature[k][m] * B[m][j];
          row[j] += spring * (slope[i] * slope[j] + gap.value * bent);
        }
      }
    }
  }
}

void LipContact::add_tangent(LinearSystem &system) const
{
  for (std::size_t f = 0; f < facings_.size(); ++f)
    if (active_[f])
      add_tangent_of(f, system);
}

void LipContact::add_tangent_of(std::size_t f, LinearSystem &system) const
{
  if (!facings_[f].mirrored)
  {
    system.add_coupling(f, tangents_[f].data());
    return;
  }
  constexpr std::size_t half = n_unknowns / 2;
  const Row            &sign = facings_[f].sign;
  Block                 folded{};
  for (std::size_t i = 0; i < n_unknowns; ++i)
    for (std::size_t j = 0; j < n_unknowns; ++j)
      folded[(i % half) * half + j % half] +=
          sign[i] * sign[j] * tangents_[f][i * n_unknowns + j];
  system.add_coupling(f, folded.data());
}

template LipContact::LipContact(const CouponModel<2> &, double);
template LipContact::LipContact(const CouponModel<3> &, double);
} // namespace throughbend
