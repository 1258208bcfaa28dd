#include "solver/fem/coupon_model.h"

#include <deal.II/base/quadrature_lib.h>
#include <deal.II/dofs/dof_renumbering.h>
#include <deal.II/dofs/dof_tools.h>
#include <deal.II/fe/fe_q.h>
#include <deal.II/fe/fe_values.h>
#include <deal.II/fe/mapping_q1.h>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace throughbend
{
namespace
{
// Quadratic displacements with a linear dilatation: no volumetric locking and no hourglass
// in bending (Simo, Taylor & Pister 1985, Comput. Methods Appl. Mech. Eng. 51, 177; order
// pair as in Brezzi & Fortin 1991, sec. VI.3).
constexpr unsigned degree = 2;

// Many points per face: with few, points entering and leaving contact make the force ripple
// and Newton chatter. On the faces of a long straight leg in the plane several such sets in
// a row, so that no round of a tool gets in between two points.
template <int dim>
constexpr unsigned face_points = dim == 2 ? 8 : 5;

/// Sets of points that faces of such a length need, of a coupon of the thickness [mm].
/// Those of no more than eight tenths of it, as all of an ordinary coupon, need one.
unsigned face_sets(const double longest, const double thickness)
{
  constexpr double usual = 0.8, apart = 0.05, most = 10;
  if (longest <= usual * thickness)
    return 1;
  return static_cast<unsigned>(
      std::clamp(std::ceil(longest / (apart * thickness * face_points<2>)), 1., most));
}

/// Longest edge along x of the cells, and the height of all [mm].
template <int dim>
std::pair<double, double> longest_and_height(const std::vector<CellData<dim>> &cells)
{
  double longest = 0, low = 1e300, high = -1e300;
  for (const CellData<dim> &data : cells)
    for (const unsigned v : data.cell->vertex_indices())
    {
      longest =
          std::max(longest, std::abs(data.cell->vertex(v)[0] - data.cell->vertex(0)[0]));
      low  = std::min(low, data.cell->vertex(v)[1]);
      high = std::max(high, data.cell->vertex(v)[1]);
    }
  return {longest, high - low};
}

/// Whether there are no other ranks; also where MPI was never started.
bool is_alone(MPI_Comm communicator)
{
  return !dealii::Utilities::MPI::job_supports_mpi() ||
         dealii::Utilities::MPI::n_mpi_processes(communicator) == 1;
}

/// To each rank a length of the coupon: as many cells each, and as few unknowns as can be
/// that two of them share.
template <int dim>
void share_out_lengths(dealii::parallel::shared::Triangulation<dim> &mesh)
{
  std::vector<std::pair<double, unsigned>> order;
  for (const auto &cell : mesh.active_cell_iterators())
    order.emplace_back(cell->center()[0], cell->active_cell_index());
  std::sort(order.begin(), order.end());
  const std::size_t ranks =
      dealii::Utilities::MPI::n_mpi_processes(mesh.get_communicator());
  std::vector<unsigned> owner(order.size());
  for (std::size_t i = 0; i < order.size(); ++i)
    owner[order[i].second] = static_cast<unsigned>(i * ranks / order.size());
  for (const auto &cell : mesh.active_cell_iterators())
    cell->set_subdomain_id(owner[cell->active_cell_index()]);
}

/// For one rank a mesh that knows no MPI: passes may then be made on several threads, and
/// where MPI was never started.
template <int dim>
std::unique_ptr<dealii::Triangulation<dim>> empty_mesh(MPI_Comm   communicator,
                                                       const bool alone)
{
  using Mesh = dealii::Triangulation<dim>;
  if (alone)
    return std::make_unique<Mesh>();
  using Shared = dealii::parallel::shared::Triangulation<dim>;
  auto mesh =
      std::make_unique<Shared>(communicator, Mesh::none,
                               /*artificial cells*/ false, Shared::partition_custom_signal);
  mesh->signals.create.connect([&parts = *mesh] { share_out_lengths(parts); });
  return mesh;
}

/// The functions that a cell's dilatation may follow: 1, x, y(, z), and beyond those the
/// products of two or three of them.
template <int dim>
double dilatation_function(unsigned m, const dealii::Point<dim> &from_first,
                           const dealii::Point<dim> &from_middle)
{
  if (m == 0)
    return 1;
  if (m <= dim)
    return from_first[m - 1];
  const auto &x = from_middle;
  if constexpr (dim == 3)
  {
    if (m == 7)
      return x[0] * x[1] * x[2];
    return x[(m - 4) % 3] * x[(m - 3) % 3];
  }
  return x[0] * x[1];
}

/// Gram-Schmidt on the first `n_functions` of them in the inner product of the cell's
/// weights.
template <int dim>
std::vector<double> dilatation_basis(const std::vector<dealii::Point<dim>> &points,
                                     const std::vector<double>             &weight,
                                     unsigned                               n_functions)
{
  const std::size_t   n = points.size();
  std::vector<double> basis(n_functions * n);
  for (unsigned m = 0; m < n_functions; ++m)
  {
    double *const row = &basis[m * n];
    for (std::size_t q = 0; q < n; ++q)
      row[q] = dilatation_function<dim>(m, dealii::Point<dim>(points[q] - points[0]),
                                        dealii::Point<dim>(points[q] - points[n / 2]));
    for (unsigned before = 0; before <= m; ++before)
    {
      double overlap = 0;
      for (std::size_t q = 0; q < n; ++q)
        overlap += weight[q] * row[q] * (before == m ? row[q] : basis[before * n + q]);
      for (std::size_t q = 0; q < n; ++q)
        if (before == m)
          row[q] /= std::sqrt(overlap);
        else
          row[q] -= overlap * basis[before * n + q];
    }
  }
  return basis;
}

#ifndef NDEBUG
bool is_orthonormal(const std::vector<double> &basis, const std::vector<double> &weight,
                    unsigned n_functions)
{
  const std::size_t n = weight.size();
  for (unsigned a = 0; a < n_functions; ++a)
    for (unsigned b = 0; b <= a; ++b)
    {
      double overlap = 0;
      for (std::size_t q = 0; q < n; ++q)
        overlap += weight[q] * basis[a * n + q] * basis[b * n + q];
      if (std::abs(overlap - (a == b ? 1 : 0)) > 1e-8)
        return false;
    }
  return true;
}
#endif
} // namespace

template <int dim>
CouponModel<dim>::CouponModel(const PlacedCoupon &coupon, MPI_Comm communicator)
    : communicator_(communicator), extent_(coupon.extent),
      factor_((extent_ == Extent::half ? 2. : 1.) * (dim == 2 ? coupon.width : 2.)),
      level_(coupon.level), alone_(is_alone(communicator)),
      mesh_(empty_mesh<dim>(communicator, alone_)),
      element_(dealii::FE_Q<dim>(degree), dim), dof_handler_(*mesh_)
{
  const CouponShape &shape = coupon.shape;
  if (coupon.bilinear_dilatation)
    n_dilatations_ = 1u << dim;
  make_coupon_mesh(*mesh_, coupon.grid, shape, level_);
  number_unknowns();
  if (!shape.straight() || coupon.edges.present())
  {
    give_shape(*mesh_, shape, coupon.edges, level_);
    find_nodes(nodes_);
  }
  if constexpr (dim == 2)
    flaws_ = flaw_lips(dof_handler_, grid_nodes_, shape.seams(), level_);
  for (const FlawLips &lips : flaws_)
    for (const std::vector<unsigned> &facing : facing_unknowns(lips))
      couplings_.push_back(facing);
  hold_symmetry_planes();
  collect_cells();
  collect_faces();
}

template <int dim>
CouponModel<dim>::CouponModel(const dealii::Triangulation<dim> &shape, const Holds &held,
                              MPI_Comm communicator)
    : communicator_(communicator), extent_(Extent::full), alone_(is_alone(communicator)),
      mesh_(empty_mesh<dim>(communicator, alone_)),
      element_(dealii::FE_Q<dim>(degree), dim), dof_handler_(*mesh_)
{
  mesh_->copy_triangulation(shape);
  number_unknowns();
  for (unsigned component = 0; component < dim; ++component)
    for (const auto dof : dealii::DoFTools::extract_dofs(
             dof_handler_,
             element_.component_mask(dealii::FEValuesExtractors::Scalar(component))))
      held_[dof] = held(nodes_[dof], component);
  collect_cells();
  collect_faces();
}

template <int dim>
void CouponModel<dim>::number_unknowns()
{
  dof_handler_.distribute_dofs(element_);
  find_common_order();
  find_nodes(nodes_);
  grid_nodes_ = nodes_;
  held_.assign(n_dofs(), false);
}

/// As they are met from cell to cell; and the direction of each.
template <int dim>
void CouponModel<dim>::find_common_order()
{
  constexpr unsigned                           none = -1u;
  std::vector<dealii::types::global_dof_index> dofs(element_.n_dofs_per_cell());
  common_number_.assign(n_dofs(), none);
  component_.assign(n_dofs(), 0);
  unsigned next = 0;
  for (const auto &cell : dof_handler_.active_cell_iterators())
  {
    cell->get_dof_indices(dofs);
    for (unsigned i = 0; i < dofs.size(); ++i)
    {
      if (common_number_[dofs[i]] == none)
        common_number_[dofs[i]] = next++;
      component_[dofs[i]] =
          static_cast<unsigned char>(element_.system_to_component_index(i).first);
    }
  }
}

template <int dim>
Vector CouponModel<dim>::in_common_order(const Vector &own) const
{
  Vector common(own.size());
  for (unsigned i = 0; i < own.size(); ++i)
    common[common_number_[i]] = own[i];
  return common;
}

template <int dim>
Vector CouponModel<dim>::in_own_order(const Vector &common) const
{
  Vector own(common.size());
  for (unsigned i = 0; i < own.size(); ++i)
    own[i] = common[common_number_[i]];
  return own;
}

template <int dim>
void CouponModel<dim>::find_nodes(std::vector<dealii::Point<dim>> &nodes) const
{
  nodes.resize(n_dofs());
  dealii::DoFTools::map_dofs_to_support_points(dealii::MappingQ1<dim>(), dof_handler_,
                                               nodes);
}

template <int dim>
void CouponModel<dim>::hold_symmetry_planes()
{
  const auto hold = [&](CouponFace face, unsigned component)
  {
    dealii::ComponentMask mask(dim, false);
    mask.set(component, true);
    const dealii::IndexSet found = dealii::DoFTools::extract_boundary_dofs(
        dof_handler_, mask, {static_cast<dealii::types::boundary_id>(face)});
    for (const auto dof : found)
      held_[dof] = true;
  };
  if (extent_ == Extent::half)
    hold(CouponFace::left_end, 0);
  if (dim == 3)
    hold(CouponFace::mid_plane, 2);
}

template <int dim>
void CouponModel<dim>::collect_cells()
{
  const dealii::QGauss<dim> quadrature(degree + 1);
  dealii::FEValues<dim>     values(element_, quadrature,
                                   dealii::update_gradients | dealii::update_JxW_values |
                                       dealii::update_quadrature_points);
  n_points_        = quadrature.size();
  n_nodes_         = element_.n_dofs_per_cell() / dim;
  const unsigned n = element_.n_dofs_per_cell();
  volume_.reinit(n_dofs());

  std::vector<dealii::types::global_dof_index> global(n);
  for (const auto &cell : dof_handler_.active_cell_iterators())
  {
    if (!cell->is_locally_owned())
      continue;
    values.reinit(cell);
    cell->get_dof_indices(global);
    CellData<dim> data;
    data.cell   = cell;
    data.zone   = static_cast<int>(cell->material_id());
    data.number = cell->active_cell_index();
    data.dofs.resize(n);
    data.gradient.resize(n_points_ * dim * n_nodes_);
    data.weight = values.get_JxW_values();
    for (unsigned i = 0; i < n; ++i)
    {
      const auto [component, node]           = element_.system_to_component_index(i);
      data.dofs[component * n_nodes_ + node] = static_cast<unsigned>(global[i]);
      if (component == 0)
        for (unsigned q = 0; q < n_points_; ++q)
          for (unsigned k = 0; k < dim; ++k)
            data.gradient[(q * dim + k) * n_nodes_ + node] = values.shape_grad(i, q)[k];
    }
    data.position = values.get_quadrature_points();
    data.dilatation_basis =
        dilatation_basis<dim>(values.get_quadrature_points(), data.weight, n_dilatations_);

    double volume = 0;
    for (const double w : data.weight)
    {
      assert(w > 0 && "a cell of the mesh is turned inside out");
      volume += w;
    }
    assert(is_orthonormal(data.dilatation_basis, data.weight, n_dilatations_));
    for (const unsigned dof : data.dofs)
      volume_[dof] += volume / n_nodes_;
    cells_.push_back(std::move(data));
  }
  sum_over_ranks(volume_);
}

template <int dim>
void CouponModel<dim>::collect_faces()
{
  // The same on all ranks.
  const auto [longest, height] = longest_and_height(cells_);
  const unsigned sets =
      dim == 2 ? face_sets(max_over_ranks(longest), max_over_ranks(height)) : 1;
  const dealii::QIterated<dim - 1> quadrature(dealii::QGauss<1>(face_points<dim>), sets);
  dealii::FEFaceValues<dim>        values(element_, quadrature,
                                          dealii::update_values | dealii::update_JxW_values |
                                              dealii::update_quadrature_points);
  const auto                       can_touch = [this](const auto &face)
  {
    const auto name = static_cast<CouponFace>(face->boundary_id());
    return face->at_boundary() && name != CouponFace::mid_plane &&
           name != CouponFace::side && name != CouponFace::left_lip &&
           name != CouponFace::right_lip &&
           (name != CouponFace::left_end || extent_ != Extent::half);
  };
  n_face_points_ = quadrature.size();
  std::vector<unsigned> first(n_all_cells()); // number of each cell's first face
  for (const auto &cell : dof_handler_.active_cell_iterators())
  {
    first[cell->active_cell_index()] = n_all_faces_;
    for (const unsigned f : cell->face_indices())
      n_all_faces_ += can_touch(cell->face(f)) ? 1 : 0;
  }
  for (unsigned index = 0; index < cells_.size(); ++index)
    for (const unsigned f : cells_[index].cell->face_indices())
    {
      const auto face = cells_[index].cell->face(f);
      if (!can_touch(face))
        continue;
      values.reinit(cells_[index].cell, f);
      FaceData<dim> data;
      assert(face->boundary_id() <= static_cast<unsigned>(CouponFace::right_lip) &&
             "the face has no name");
      data.cell     = index;
      data.number   = first[cells_[index].number]++;
      data.name     = static_cast<CouponFace>(face->boundary_id());
      data.weight   = values.get_JxW_values();
      data.position = values.get_quadrature_points();
      std::vector<unsigned> along; // element numbering of component 0 of each face node
      for (unsigned i = 0; i < element_.n_dofs_per_cell(); ++i)
        if (element_.system_to_component_index(i).first == 0 &&
            element_.has_support_on_face(i, f))
        {
          along.push_back(i);
          data.nodes.push_back(element_.system_to_component_index(i).second);
        }
      for (unsigned c = 0; c < dim; ++c)
        for (const unsigned node : data.nodes)
          data.dofs.push_back(c * n_nodes_ + node);
      for (unsigned q = 0; q < quadrature.size(); ++q)
        for (const unsigned i : along)
          data.shape.push_back(values.shape_value(i, q));
      faces_.push_back(std::move(data));
    }
}

template <int dim>
void CouponModel<dim>::sum_over_ranks(Vector &vector) const
{
  if (!alone_)
    dealii::Utilities::MPI::sum(vector, communicator_, vector);
}

template <int dim>
double CouponModel<dim>::sum_over_ranks(double value) const
{
  return alone_ ? value : dealii::Utilities::MPI::sum(value, communicator_);
}

template <int dim>
double CouponModel<dim>::max_over_ranks(double value) const
{
  return alone_ ? value : dealii::Utilities::MPI::max(value, communicator_);
}

template class CouponModel<2>;
template class CouponModel<3>;
} // namespace throughbend
