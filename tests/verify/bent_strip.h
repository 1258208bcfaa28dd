#pragma once
// A strip in plane strain bent by turning one straight end plane against the other, without
// axial force: the set-up of Hill's finite bending. Gives moment, shape and stresses across
// the thickness. No reference values here.

#include "tests/support/body.h"

#include <vector>

namespace throughbend
{
/// What the strip is cut into.
struct StripMesh
{
  int    layers = 4, along = 1; ///< cells through the thickness and along the strip
  double cell_length = 2;       ///< [mm]; the thickness is 10 mm
};

/// At one material depth, mean over the points along the strip.
struct DepthPoint
{
  double radius         = 0; ///< in the bent state [mm]
  double span           = 0; ///< share of the bent thickness that the point stands for [mm]
  double hoop           = 0; ///< Kirchhoff stress along the strip [MPa]
  double radial         = 0; ///< [MPa]
  double plastic_strain = 0;
};

class BentStrip
{
public:
  static constexpr double thickness = 10; ///< [mm]

  BentStrip(const StripMesh &mesh, const ZoneMaterial &metal);

  /// Bends on to rotation per length times thickness = bend [-].
  void bend(
      double bend, int steps, const std::function<void()> &look = [] {});

  double bending() const;      ///< rotation per length times thickness [-]
  double moment() const;       ///< per mm of width [N]
  double inner_radius() const; ///< [mm]
  double outer_radius() const; ///< [mm]
  double outer_log() const;    ///< log strain along the convex face [-]
  double inner_log() const;
  double thinned() const { return (outer_radius() - inner_radius()) / thickness; }

  std::vector<DepthPoint> across() const; ///< from the concave face outwards
  /// Where hoop and radial stress are equal, from the middle of the thickness outwards,
  /// per thickness at first [-].
  double neutral_offset() const;
  /// Radial stress at the neutral layer from the balance of the rings outside and inside of
  /// its cell, carried on in straight lines [MPa].
  double least_radial() const;
  /// Least radial stress at any quadrature point [MPa].
  double least_radial_at_points() const;

  /// Largest spread of the plastic strain along the strip at one depth [-].
  double spread_along() const;

  double                energy_error() const { return body_.energy_error(); }
  const Body<2>        &body() const { return body_; }
  const CouponModel<2> &model() const { return body_.model(); }

private:
  double radius_at(double y) const;
  double shrinkage_at(double y) const;
  template <typename Look>
  void for_each_point(Look look) const;

  StripMesh             mesh_;
  double                length_;
  Body<2>               body_;
  std::vector<unsigned> end_x_,
      end_y_; ///< displacements of the turning plane, from y = 0 up
};
} // namespace throughbend
