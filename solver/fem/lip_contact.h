#pragma once
// What keeps the lips of a flaw apart when a bend presses them together: a stiff spring
// between facing points, square to the mean of the two lips, without friction. Points face
// each other for good, so lips may part as they like but slide along each other only by
// little. Symmetric, of an energy, and blind to rigid motion. Plane models only.
//
// With d = x_right - x_left, t = the sum of the lips' tangents (upward), l = |t|:
//   gap g = (d_x t_y - d_y t_x) / l,  energy k g^2 / 2 per undeformed length where g < 0.
// Of a flaw in the plane of symmetry of a half model the left lip is the image of the right
// one, z = (-x_1, y_1, .., x_1, y_1, ..) = M r, and half of the energy belongs to the
// model:
//   force M^T f / 2, tangent M^T K M / 2.

#include "solver/fem/coupon_model.h"
#include "solver/fem/linear_system.h"

#include <array>
#include <vector>

namespace throughbend
{
class LipContact
{
public:
  /// `stiffness` [MPa/mm]: pressure over overlap.
  template <int dim>
  LipContact(const CouponModel<dim> &model, double stiffness);

  /// Adds the derivative of the energy at u; every rank adds all of it.
  void add_forces(const Vector &u, Vector &force);

  /// Adds the second derivative at the u of the last add_forces().
  void add_tangent(LinearSystem &system) const;

  double energy() const { return energy_; } ///< at the last add_forces() [N mm]

  double stiffness() const { return stiffness_; } ///< [MPa/mm]
  void   stiffen(double factor) { stiffness_ *= factor; }
  void   restore(double stiffness) { stiffness_ = stiffness; } ///< [MPa/mm]

private:
  static constexpr std::size_t n_unknowns = 12;
  using Row                               = std::array<double, n_unknowns>;
  using Block                             = std::array<double, n_unknowns * n_unknowns>;

  /// Where two cells face each other: x and y of three nodes of the left lip, then of the
  /// right one, from below.
  struct Facing
  {
    std::array<unsigned, n_unknowns> dofs{};
    Row                              sign{};       ///< -1: this one is the image of its dof
    Row                              at_first{};   ///< where they lay [mm]
    double                           length   = 0; ///< [mm]
    bool                             mirrored = false;
  };
  void add_tangent_of(std::size_t facing, LinearSystem &system) const;

  double              stiffness_;
  std::vector<Facing> facings_;
  std::vector<Block>  tangents_; ///< of each facing [row * n_unknowns + column]
  std::vector<bool>   active_;
  double              energy_ = 0;
};
} // namespace throughbend
