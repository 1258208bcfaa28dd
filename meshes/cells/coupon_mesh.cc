#include "meshes/cells/coupon_mesh.h"

#include <deal.II/grid/grid_generator.h>
#include <deal.II/grid/grid_tools.h>

#include <algorithm>
#include <map>
#include <stdexcept>

namespace throughbend
{
namespace
{
constexpr double close = 1e-6; // [mm]

constexpr dealii::types::boundary_id id(CouponFace face)
{
  return static_cast<dealii::types::boundary_id>(face);
}

/// The seam that a spot of the straight grid lies on, or none.
const Seam *seam_at(const std::vector<Seam> &seams, const CouponPoint &at)
{
  const auto found =
      std::find_if(seams.begin(), seams.end(),
                   [&](const Seam &seam)
                   { return std::abs(at.x - seam.grid) < close && seam.parts(at.y); });
  return found == seams.end() ? nullptr : &*found;
}

/// Names the faces of a mesh on the straight grid that has flaws in it.
void name_faces(dealii::Triangulation<2> &mesh, const std::vector<Seam> &seams,
                const CouponGrid &grid, double level)
{
  for (const auto &cell : mesh.active_cell_iterators())
    for (const auto &face : cell->face_iterators())
    {
      if (!face->at_boundary())
        continue;
      const dealii::Point<2> middle    = face->center();
      const CouponPoint      at        = spot(middle, level);
      const bool             on_a_seam = seam_at(seams, at) != nullptr;
      const CouponFace       name =
          std::abs(at.x - grid.x.front()) < close && !on_a_seam ? CouponFace::left_end
                : std::abs(at.x - grid.x.back()) < close  ? CouponFace::right_end
                : std::abs(at.y - grid.y.front()) < close ? CouponFace::convex
                : std::abs(at.y - grid.y.back()) < close  ? CouponFace::concave
                : cell->center()[0] < middle[0]           ? CouponFace::left_lip
                                                          : CouponFace::right_lip;
      face->set_boundary_id(id(name));
    }
}

/// The mesh once more, cut along the seams: their corners doubled, the second one for the
/// cells on the right. Of a seam in the plane of symmetry only the right one is in the
/// model.
void cut_along(const std::vector<Seam> &seams, const CouponGrid &grid, double level,
               dealii::Triangulation<2> &mesh)
{
  auto [vertices, cells, unused] = dealii::GridTools::get_coarse_mesh_description(mesh);
  std::map<unsigned, unsigned> twin;
  std::map<unsigned, double>   line; // of each doubled corner [mm]
  const std::size_t            whole = vertices.size();
  for (unsigned v = 0; v < whole; ++v)
  {
    const Seam *const seam = seam_at(seams, spot(vertices[v], level));
    if (seam == nullptr || seam->grid < grid.x.front() + close)
      continue;
    twin[v] = static_cast<unsigned>(vertices.size());
    line[v] = seam->grid;
    vertices.push_back(vertices[v]);
  }
  for (dealii::CellData<2> &cell : cells)
  {
    double middle = 0;
    for (const unsigned v : cell.vertices)
      middle += vertices[v][0] / 4;
    for (unsigned &v : cell.vertices)
      if (const auto found = twin.find(v); found != twin.end() && middle > line.at(v))
        v = found->second;
  }
  mesh.clear();
  mesh.create_triangulation(vertices, cells, {});
  name_faces(mesh, seams, grid, level);
}
} // namespace

template <int dim>
void make_coupon_mesh(dealii::Triangulation<dim> &mesh, const CouponGrid &grid,
                      const CouponShape &shape, double level)
{
  const auto steps = [](const std::vector<double> &lines)
  {
    std::vector<double> widths;
    for (std::size_t i = 0; i + 1 < lines.size(); ++i)
      widths.push_back(lines[i + 1] - lines[i]);
    return widths;
  };
  std::vector<std::vector<double>> widths = {steps(grid.x), steps(grid.y)};
  dealii::Point<dim>               low, high;
  low[0]  = grid.x.front();
  high[0] = grid.x.back();
  low[1]  = level + grid.y.front();
  high[1] = level + grid.y.back();
  if constexpr (dim == 3)
  {
    widths.push_back(steps(grid.z));
    low[2]  = grid.z.front();
    high[2] = grid.z.back();
  }
  dealii::GridGenerator::subdivided_hyper_rectangle(mesh, widths, low, high,
                                                    /*colorize=*/true);
  // Lines and zones are those of the straight grid, so a cell lies in one zone however its
  // corners move afterwards.
  if (!shape.seams().empty())
  {
    if constexpr (dim == 2)
      cut_along(shape.seams(), grid, level, mesh);
    else
      throw std::logic_error("flaws are modelled in the plane only");
  }
  for (const auto &cell : mesh.active_cell_iterators())
  {
    const CouponPoint flat = shape.leaned(spot(cell->center(), level));
    cell->set_material_id(static_cast<dealii::types::material_id>(shape.zone(flat)));
  }
}

template <int dim>
CouponPoint spot(const dealii::Point<dim> &point, double level)
{
  return {point[0], point[1] - level, dim == 3 ? point[dim - 1] : 0.};
}

template <int dim>
void give_shape(dealii::Triangulation<dim> &mesh, const CouponShape &shape,
                const RoundedEdges &edges, double level)
{
  // By cells, because the two corners of a flaw's lips stand in one place on the grid.
  std::vector<bool> done(mesh.n_vertices(), false);
  std::vector<std::pair<dealii::Point<dim> *, dealii::Point<dim>>> moves;
  for (const auto &cell : mesh.active_cell_iterators())
    for (const unsigned v : cell->vertex_indices())
    {
      if (done[cell->vertex_index(v)])
        continue;
      done[cell->vertex_index(v)]   = true;
      dealii::Point<dim> &point     = cell->vertex(v);
      const Flank         cell_side = v % 2 == 1 ? Flank::left : Flank::right;
      const CouponPoint   grid      = spot(point, level);
      const CouponPoint   shaped    = edges.rounded(
               grid, shape.shaped(shape.parted(grid, cell_side, shape.leaned(grid))));
      dealii::Point<dim> moved(point);
      moved[0] = shaped.x;
      moved[1] = level + shaped.y;
      if constexpr (dim == 3)
        moved[2] = shaped.z;
      moves.emplace_back(&point, moved);
    }
  for (const auto &[point, moved] : moves)
    *point = moved;
}

template void        make_coupon_mesh<2>(dealii::Triangulation<2> &, const CouponGrid &,
                                  const CouponShape &, double);
template void        make_coupon_mesh<3>(dealii::Triangulation<3> &, const CouponGrid &,
                                  const CouponShape &, double);
template void        give_shape<2>(dealii::Triangulation<2> &, const CouponShape &,
                            const RoundedEdges &, double);
template void        give_shape<3>(dealii::Triangulation<3> &, const CouponShape &,
                            const RoundedEdges &, double);
template CouponPoint spot<2>(const dealii::Point<2> &, double);
template CouponPoint spot<3>(const dealii::Point<3> &, double);
} // namespace throughbend
