#include "solver/fields/face_rows.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace throughbend
{
namespace
{
template <int dim>
using Cells = std::vector<const typename NodalFields<dim>::Cell *>;

/// Number of the first of a cell's three nodes along a face, on its inner end in 3D.
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

/// A line of nodes along a face: the cells that have it, and which of their three it is.
template <int dim>
struct FaceLine
{
  Cells<dim>  cells; ///< from left to right
  std::size_t layer = 0;
};

/// At a place across the width [mm]; of two cells that have the line the inner one's
/// neighbour outward, and at the edge the last.
template <int dim>
FaceLine<dim> line_along(const CouponModel<dim> &model, const NodalFields<dim> &fields,
                         double height, Face face, double across)
{
  const auto &nodes = model.grid_nodes();
  const auto  X     = [&](const auto &cell, std::size_t layer) -> const dealii::Point<dim> &
  { return nodes[cell.dofs[first_node(face) + 9 * layer][0]]; };
  constexpr double close = 1e-6; // [mm]
  FaceLine<dim>    line;
  for (std::size_t layer = 0; layer < (dim == 2 ? 1 : 3) && line.cells.empty(); ++layer)
  {
    line.layer = layer;
    for (const auto &cell : fields.cells())
      if (std::abs(X(cell, layer)[1] - height) < close &&
          (dim == 2 || std::abs(X(cell, layer)[dim - 1] - across) < close))
        line.cells.push_back(&cell);
  }
  std::sort(line.cells.begin(), line.cells.end(),
            [&](const auto *a, const auto *b)
            { return X(*a, line.layer)[0] < X(*b, line.layer)[0]; });
  return line;
}

template <int dim>
std::vector<SurfaceRow> rows_along(const PassView<dim>    &view,
                                   const NodalFields<dim> &fields, const NodalState &state,
                                   Face face, std::size_t number,
                                   std::vector<double> &width_stress)
{
  const double height =
      view.model.level() + (face == Face::convex ? 0. : view.setup.coupon.thickness);
  const FaceLine<dim> line =
      line_along(view.model, fields, height, face, view.probe.lines()[number]);
  const auto strains = view.probe.face_strains(state.u, face, number);
  if (strains.size() != 2 * line.cells.size())
    throw std::logic_error("the probe's face and the fields' face differ");

  std::vector<SurfaceRow> rows;
  width_stress.clear();
  for (std::size_t i = 0; i < strains.size(); ++i)
  {
    const auto &cell = *line.cells[i / 2];
    // The probe's points lie at -+1/sqrt(3); between which nodes, and how far along?
    const double      share = i % 2 == 0 ? 1 - 1 / std::sqrt(3.) : 1 / std::sqrt(3.);
    const std::size_t a     = first_node(face) + 9 * line.layer + i % 2;
    const auto        mixed = [&](NodalQuantity quantity)
    {
      const auto k  = static_cast<std::size_t>(quantity);
      const auto at = [&](std::size_t node)
      { return state.values[cell.places[node] * n_nodal_quantities + k]; };
      return (1 - share) * at(a) + share * at(a + 1);
    };
    const auto place = [&](std::size_t node)
    {
      return PlaneVector{
          view.model.nodes()[cell.dofs[node][0]][0] + state.u[cell.dofs[node][0]],
          view.model.nodes()[cell.dofs[node][1]][1] + state.u[cell.dofs[node][1]]};
    };
    const PlaneVector chord = place(a + 1) - place(a);
    const PlaneVector t     = (1 / length(chord)) * chord;

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
    width_stress.push_back(mixed(NodalQuantity::stress_zz));
  }
  return rows;
}

/// Adds to the mid-width's rows what the other lines have beside them.
template <int dim>
void look_across(const PassView<dim> &view, const NodalFields<dim> &fields,
                 const NodalState &state, Face face,
                 const std::vector<double> &width_stress, std::vector<SurfaceRow> &rows)
{
  for (std::size_t i = 0; i < rows.size(); ++i)
  {
    AcrossRow &across           = rows[i].across.emplace();
    across.width_stress         = width_stress[i];
    across.largest_axial_strain = rows[i].axial_strain;
    across.largest_triaxiality  = rows[i].triaxiality;
  }
  std::vector<double> unused;
  for (std::size_t line = 1; line < view.probe.lines().size(); ++line)
  {
    const auto beside = rows_along(view, fields, state, face, line, unused);
    if (beside.size() != rows.size())
      throw std::logic_error("the lines across the width differ in their points");
    for (std::size_t i = 0; i < rows.size(); ++i)
    {
      const SurfaceRow &row    = beside[i];
      AcrossRow        &across = *rows[i].across;
      if (row.axial_strain > across.largest_axial_strain)
      {
        across.largest_axial_strain = row.axial_strain;
        across.largest_across       = view.probe.convex_across(line);
        across.largest_shift        = row.position - rows[i].position;
        across.largest_triaxiality  = row.triaxiality;
      }
      if (line + 1 < view.probe.lines().size())
        continue;
      across.edge_shift          = row.position - rows[i].position;
      across.edge_x              = row.x;
      across.edge_y              = row.y;
      across.edge_axial_strain   = row.axial_strain;
      across.edge_plastic_strain = row.plastic_strain;
      across.edge_axial_stress   = row.axial_stress;
      across.edge_pressure       = row.pressure;
      across.edge_triaxiality    = row.triaxiality;
    }
  }
}
} // namespace

template <int dim>
std::vector<SurfaceRow> face_rows(const PassView<dim> &view, const NodalFields<dim> &fields,
                                  const NodalState &state)
{
  std::vector<SurfaceRow> rows;
  for (const Face face : {Face::convex, Face::concave})
  {
    std::vector<double> width_stress;
    auto                own = rows_along(view, fields, state, face, 0, width_stress);
    if (dim == 3)
      look_across(view, fields, state, face, width_stress, own);
    rows.insert(rows.end(), own.begin(), own.end());
  }
  return rows;
}

template std::vector<SurfaceRow> face_rows(const PassView<2> &, const NodalFields<2> &,
                                           const NodalState &);
template std::vector<SurfaceRow> face_rows(const PassView<3> &, const NodalFields<3> &,
                                           const NodalState &);
} // namespace throughbend
