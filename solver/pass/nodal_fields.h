#pragma once
// Stress, strain and contact pressure at the nodes, from where they are computed: the
// quadrature points of cells and faces. Only reads; writes no file.
//
// In each cell a (tri)linear function is fitted to the values at its quadrature points by
// least squares (Hinton & Campbell 1974, Int. J. Numer. Methods Eng. 8, 461; a quadratic
// element's stress is accurate to that order and no further), evaluated at the nodes, and
// averaged over the cells of the same zone that meet there. So a field is continuous inside
// a zone and may jump at its boundary. Contact pressure is spread from a face's points to
// its nodes by hat functions, which keeps an even pressure even, its sum (to the accuracy
// with which a face's points integrate a hat) and its sign.

#include "solver/pass/pass_observer.h"

#include <array>
#include <vector>

namespace throughbend
{
/// What is known at a node, in this order.
enum class NodalQuantity
{
  stress_xx, ///< Cauchy [MPa]
  stress_yy,
  stress_zz, ///< out of the plane; not 0 in plane strain
  stress_xy,
  stress_xz,
  stress_yz,
  von_mises_stress, ///< [MPa]
  plastic_strain,   ///< equivalent [-]
  axial_strain,     ///< log stretch of a line that lay along the coupon, ln|F e_x| [-]
  contact_pressure  ///< per undeformed area [MPa]
};
constexpr std::size_t n_nodal_quantities = 10;

/// The coupon at one moment, the same on every rank.
struct NodalState
{
  double              travel = 0; ///< [mm]
  StepKind            kind   = StepKind::push;
  Vector              u;      ///< displacement [mm]
  std::vector<double> values; ///< [place * n_nodal_quantities + quantity]
};

/// Works on meshes of whole coupons: every rank gets every node.
template <int dim>
class NodalFields
{
public:
  static constexpr std::size_t n_cell_nodes = dim == 2 ? 9 : 27;

  /// One cell with its nodes, x fastest, then y, then z.
  struct Cell
  {
    int                                                 zone = 0;
    std::array<std::array<unsigned, dim>, n_cell_nodes> dofs{};
    std::array<std::size_t, n_cell_nodes> places{}; ///< nodes, apart for each zone
    /// 0, or on a flaw: 1 on its left lip, 2 on its right one.
    std::array<int, n_cell_nodes> lips{};
    dealii::Point<dim>            centre;
  };

  explicit NodalFields(const CouponModel<dim> &model);

  /// Everything at the nodes as the equations last evaluated it. All ranks must call it.
  NodalState at_nodes(const PassView<dim> &view, double travel, StepKind kind) const;

  const std::vector<Cell> &cells() const { return cells_; }

  /// Places in cells() of those that this rank owns, in the order of the model.
  const std::vector<std::size_t> &owned() const { return owned_; }

  /// Whether the values are as many as at_nodes() gives.
  bool fits(const NodalState &state) const
  {
    return state.values.size() == n_places_ * n_nodal_quantities;
  }

private:
  using CellValues = std::array<double, n_nodal_quantities>;

  CellValues at_point(const PassView<dim> &view, std::size_t cell, std::size_t q) const;
  void       add_cells(const PassView<dim> &view, std::vector<double> &values) const;
  void       add_pressure(const PassView<dim> &view, std::vector<double> &values) const;

  std::vector<Cell>        cells_;
  std::vector<std::size_t> owned_;
  std::vector<unsigned>    lexicographic_; ///< of the element's node numbers
  std::size_t              n_places_ = 0;
  std::vector<double>      fit_;       ///< value at node a from point q [a * points + q]
  std::vector<double>      shares_;    ///< 1 / number of cells at each place
  std::vector<double>      face_area_; ///< hat-function area of each place [mm^(dim-1)]

  struct Spread
  {
    std::size_t place = 0;
    double      area  = 0; ///< of a face point, by the hat function of the place
  };
  std::vector<std::vector<Spread>> spread_; ///< of each owned face [q * face nodes + a]
};
} // namespace throughbend
