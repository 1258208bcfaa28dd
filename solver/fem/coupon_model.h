#pragma once
// The coupon as unknowns: mesh, quadratic displacements, and everything about cells and
// faces that does not change during a pass, laid out for fast assembly. Every rank holds
// the whole mesh and whole vectors and works on the cells it owns; one rank is simply the
// case where it owns them all. Holds no loads, no history, no solution.

#include "meshes/setup/placed_coupon.h"
#include "solver/fem/flaw_lips.h"

#include <deal.II/base/mpi.h>
#include <deal.II/distributed/shared_tria.h>
#include <deal.II/dofs/dof_handler.h>
#include <deal.II/fe/fe_system.h>
#include <deal.II/lac/vector.h>

#include <functional>
#include <memory>
#include <vector>

namespace throughbend
{
using Vector = dealii::Vector<double>;

/// Reference data of one owned cell. Local unknowns are component-major: component c of
/// node a has the local number c * n_nodes + a.
template <int dim>
struct CellData
{
  typename dealii::DoFHandler<dim>::active_cell_iterator cell;
  std::vector<unsigned>                                  dofs; ///< local to global
  int                                                    zone = 0;
  unsigned number                                             = 0; ///< of all ranks' cells
  std::vector<double>
      gradient; ///< dN_a/dX_k at point q: [(q * dim + k) * n_nodes + a] [1/mm]
  std::vector<double>             weight;   ///< reference volume of point q [mm^dim]
  std::vector<dealii::Point<dim>> position; ///< of point q on the coupon in place [mm]
  /// Functions that the dilatation may follow, orthonormal in the weights:
  /// [m * n_points + q].
  std::vector<double> dilatation_basis;
};

/// One owned face that can touch a tool.
template <int dim>
struct FaceData
{
  unsigned              cell   = 0; ///< index into CouponModel::cells
  unsigned              number = 0; ///< of the faces of all ranks
  CouponFace            name   = CouponFace::convex;
  std::vector<unsigned> nodes;  ///< the cell's nodes on the face
  std::vector<unsigned> dofs;   ///< cell-local unknowns, component-major over `nodes`
  std::vector<double>   shape;  ///< N of face node i at point q: [q * nodes + i]
  std::vector<double>   weight; ///< reference area of point q [mm^(dim-1)]
  std::vector<dealii::Point<dim>> position; ///< of point q on the flat coupon in place [mm]
};

template <int dim>
class CouponModel
{
public:
  /// Uses the whole communicator. Throws nothing of its own; deal.II's exceptions pass.
  CouponModel(const PlacedCoupon &coupon, MPI_Comm communicator);

  /// A body of any other shape, whole and (in the plane) one millimetre wide, for checks on
  /// simple geometry: boundary ids are CouponFace names, material ids zones. `held` says of
  /// each node and component whether it is taken out of the unknowns.
  using Holds = std::function<bool(const dealii::Point<dim> &node, unsigned component)>;
  CouponModel(const dealii::Triangulation<dim> &shape, const Holds &held,
              MPI_Comm communicator);

  const dealii::DoFHandler<dim> &dof_handler() const { return dof_handler_; }
  unsigned                       n_dofs() const { return dof_handler_.n_dofs(); }
  unsigned                       n_nodes_per_cell() const { return n_nodes_; }
  unsigned                       n_points_per_cell() const { return n_points_; }
  unsigned                       n_points_per_face() const { return n_face_points_; }
  unsigned n_dilatations() const { return n_dilatations_; } ///< functions per cell
  MPI_Comm communicator() const { return communicator_; }
  bool     alone() const { return alone_; } ///< one rank, which then uses no MPI
  Extent   extent() const { return extent_; }

  /// What a force of this model is multiplied with to be that of the whole coupon [-]: the
  /// mirrored halves, and in a plane model the width in mm.
  double whole_coupon_factor() const { return factor_; }

  const std::vector<CellData<dim>> &cells() const { return cells_; }
  const std::vector<FaceData<dim>> &faces() const { return faces_; }
  const std::vector<bool>          &held() const { return held_; } ///< not solved for
  const Vector &lumped_volume() const { return volume_; }          ///< per unknown
  /// Where each unknown's node lies in the coupon in place [mm].
  const std::vector<dealii::Point<dim>> &nodes() const { return nodes_; }

  /// The same on the straight grid, where every row and column of nodes is a straight line.
  const std::vector<dealii::Point<dim>> &grid_nodes() const { return grid_nodes_; }

  /// Direction of each unknown: 0 along, 1 up, 2 across.
  const std::vector<unsigned char> &component() const { return component_; }

  /// Flaws with the unknowns of their lips; empty without any.
  const std::vector<FlawLips> &flaws() const { return flaws_; }

  /// Unknowns that meet in the tangent though they share no cell: those across a flaw.
  const std::vector<std::vector<unsigned>> &couplings() const { return couplings_; }

  double level() const { return level_; } ///< of the flat coupon's convex face [mm]

  /// Cells and faces of all ranks; their numbers depend on the mesh alone.
  unsigned n_all_cells() const { return mesh_->n_active_cells(); }
  unsigned n_all_faces() const { return n_all_faces_; }

  /// Unknowns are numbered by the ranks that own them. In the common order, that of the
  /// mesh, they stand the same for any number of ranks.
  const std::vector<unsigned> &common_number() const { return common_number_; }
  Vector                       in_common_order(const Vector &own) const;
  Vector                       in_own_order(const Vector &common) const;

  /// Sums entries over the ranks, in place.
  void   sum_over_ranks(Vector &vector) const;
  double sum_over_ranks(double value) const;
  double max_over_ranks(double value) const;

private:
  void number_unknowns();
  void find_common_order();
  void find_nodes(std::vector<dealii::Point<dim>> &nodes) const;
  void hold_symmetry_planes();
  void collect_cells();
  void collect_faces();

  MPI_Comm                                    communicator_;
  Extent                                      extent_;
  double                                      factor_ = 1;
  double                                      level_  = 0;
  bool                                        alone_  = true; ///< one rank: no MPI is used
  std::unique_ptr<dealii::Triangulation<dim>> mesh_;
  dealii::FESystem<dim>                       element_;
  dealii::DoFHandler<dim>                     dof_handler_;
  unsigned                                    n_nodes_       = 0;
  unsigned                                    n_points_      = 0;
  unsigned                                    n_face_points_ = 0;
  unsigned                                    n_dilatations_ = dim + 1;
  unsigned                                    n_all_faces_   = 0;
  std::vector<unsigned>                       common_number_; ///< of each unknown
  std::vector<unsigned char>                  component_;
  std::vector<CellData<dim>>                  cells_;
  std::vector<FaceData<dim>>                  faces_;
  std::vector<bool>                           held_;
  Vector                                      volume_;
  std::vector<dealii::Point<dim>>             nodes_, grid_nodes_;
  std::vector<FlawLips>                       flaws_;
  std::vector<std::vector<unsigned>>          couplings_;
};
} // namespace throughbend
