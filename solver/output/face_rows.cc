#include "solver/output/face_rows.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace throughbend
{
namespace
{
template <int dim>
using Cells = std::vector<const typename NodalFields<dim>::Cell *>;

/// Number of the first of a cell's three nodes along a face, on the mid-plane in 3D.
constexpr std::size_t first_node(Face face)
{
  return face == Face::convex ? 0 : 6;
}

/// Mean stress over von Mises stress, of one and the same interpolated stress [-].
double triaxiality(double xx, double yy, double zz, double xy, double xz, double yz)
{
  const double mean = (xx + yy + zz) / 3;
  const double von_mises =
      std::sqrt(1.5 * ((xx - mean) * (xx - mean) + (yy - mean) * (yy - mean) +
                       (zz - mean) * (zz - mean) + 2 * (xy * xy + xz * xz + yz * yz)));
  return von_mises > 0 ? mean / von_mises : 0.;
}

/// The cells along a face, from left to right.
template <int dim>
Cells<dim> cells_along(const CouponModel<dim> &model, const NodalFields<dim> &fields,
                       double height, Face face)
{
  const auto &nodes = model.grid_nodes();
  const auto  X     = [&](const auto &cell) -> const dealii::Point<dim> &
  { return nodes[cell.dofs[first_node(face)][0]]; };
  constexpr double close = 1e-6; // [mm]
  Cells<dim>       found;
  for (const auto &cell : fields.cells())
    if (std::abs(X(cell)[1] - height) < close &&
        (dim == 2 || std::abs(X(cell)[dim - 1]) < close))
      found.push_back(&cell);
  std::sort(found.begin(), found.end(),
            [&](const auto *a, const auto *b) { return X(*a)[0] < X(*b)[0]; });
  return found;
}
} // namespace

template <int dim>
std::vector<SurfaceRow> face_rows(const PassView<dim> &view, const NodalFields<dim> &fields,
                                  const NodalState &state)
{
  std::vector<SurfaceRow> rows;
  for (const Face face : {Face::convex, Face::concave})
  {
    const double height =
        view.model.level() + (face == Face::convex ? 0. : view.c.coupon.thickness);
    const Cells<dim> cells   = cells_along(view.model, fields, height, face);
    const auto       strains = view.probe.face_strains(state.u, face);
    if (strains.size() != 2 * cells.size())
      throw std::logic_error("the probe's face and the fields' face differ");

    for (std::size_t i = 0; i < strains.size(); ++i)
    {
      const auto &cell = *cells[i / 2];
      // The probe's points lie at -+1/sqrt(3); between which nodes, and how far along?
      const double      share = i % 2 == 0 ? 1 - 1 / std::sqrt(3.) : 1 / std::sqrt(3.);
      const std::size_t a     = first_node(face) + i % 2;
      const auto        mixed = [&](NodalQuantity quantity)
      {
        const auto k  = static_cast<std::size_t>(quantity);
        const auto at = [&](std::size_t node)
        { return state.values[cell.places[node] * n_nodal_quantities + k]; };
        return (1 - share) * at(a) + share * at(a + 1);
      };
      const auto place = [&](std::size_t node)
      {
        return Vec2{view.model.nodes()[cell.dofs[node][0]][0] + state.u[cell.dofs[node][0]],
                    view.model.nodes()[cell.dofs[node][1]][1] +
                        state.u[cell.dofs[node][1]]};
      };
      const Vec2 chord = place(a + 1) - place(a);
      const Vec2 t     = (1 / length(chord)) * chord;

      SurfaceRow row;
      row.face           = face;
      row.position       = strains[i].position;
      row.x              = strains[i].x;
      row.y              = strains[i].y;
      row.axial_strain   = strains[i].strain;
      row.plastic_strain = mixed(NodalQuantity::plastic_strain);
      row.axial_stress   = t.x * t.x * mixed(NodalQuantity::stress_xx) +
                         t.y * t.y * mixed(NodalQuantity::stress_yy) +
                         2 * t.x * t.y * mixed(NodalQuantity::stress_xy);
      row.pressure = mixed(NodalQuantity::contact_pressure);
      row.zone     = cell.zone;
      row.triaxiality =
          triaxiality(mixed(NodalQuantity::stress_xx), mixed(NodalQuantity::stress_yy),
                      mixed(NodalQuantity::stress_zz), mixed(NodalQuantity::stress_xy),
                      mixed(NodalQuantity::stress_xz), mixed(NodalQuantity::stress_yz));
      rows.push_back(row);
    }
  }
  return rows;
}

template std::vector<SurfaceRow> face_rows(const PassView<2> &, const NodalFields<2> &,
                                           const NodalState &);
template std::vector<SurfaceRow> face_rows(const PassView<3> &, const NodalFields<3> &,
                                           const NodalState &);
} // namespace throughbend
