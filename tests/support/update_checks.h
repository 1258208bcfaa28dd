#pragma once
// What every constitutive update must do, whatever the metal: tangents along a path, plane
// strain as a section of space, objectivity, and a first pull along the flow curve. Each
// function is the body of a test case for one metal.

#include "tests/support/matrices.h"
#include "tests/support/update_quotient.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

namespace throughbend
{
enum class Sides
{
  free, ///< uniaxial stress
  held  ///< plane strain: held along z, free along y
};

/// Axial log strain, from the state `old` in one step, by bisection on the lateral stretch.
template <int dim>
J2Result<dim> pulled(double strain, Sides sides, const PlasticState &old,
                     const PointMaterial &material)
{
  double        low = -2 * std::abs(strain) - 0.1, high = 2 * std::abs(strain) + 0.1;
  J2Result<dim> result;
  for (int i = 0; i < 70; ++i)
  {
    const double  middle = (low + high) / 2, side = std::exp(middle);
    const Matrix3 F = {
        {{std::exp(strain), 0, 0}, {0, side, 0}, {0, 0, sides == Sides::free ? side : 1}}};
    result                                    = plastic_update<dim>(F, old, material);
    (result.kirchhoff[1][1] < 0 ? low : high) = middle;
  }
  return result;
}

/// The tangent against difference quotients (to 1e-6): elastic and plastic from the virgin
/// state, then further random steps of these sizes, the last one turned by a third of a
/// turn, and an elastic step back. Steps smaller than 0.01 may go back and need not flow.
template <int dim>
void check_tangent_along_path(const PointMaterial &material, std::mt19937 &random,
                              const std::vector<double> &further)
{
  const double third = 2 * std::acos(-1.) / 3;
  CHECK(update_tangent_error<dim>(random_deformation<dim>(random, 2e-4), {}, material) <
        1e-6);
  PlasticState state;
  Matrix3      F = random_deformation<dim>(random, 0.05);
  CHECK(update_tangent_error<dim>(F, state, material) < 1e-6);
  for (std::size_t step = 0; step < further.size(); ++step)
  {
    state = plastic_update<dim>(F, state, material).state;
    F     = product(random_deformation<dim>(random, further[step]), F);
    if (step + 1 == further.size())
      F = product(dim == 2 ? about_z(third) : about_skew_axis(third), F);
    if (further[step] >= 0.01)
      CHECK(plastic_update<dim>(F, state, material).state.equivalent_plastic_strain >
            state.equivalent_plastic_strain);
    CHECK(update_tangent_error<dim>(F, state, material) < 1e-6);
  }
  state         = plastic_update<dim>(F, state, material).state;
  bool unloaded = false;
  for (int attempt = 0; attempt < 20 && !unloaded; ++attempt)
  {
    const Matrix3 back = product(random_deformation<dim>(random, 3e-4), F);
    unloaded           = plastic_update<dim>(back, state, material).plastic_work == 0;
    if (unloaded)
      CHECK(update_tangent_error<dim>(back, state, material) < 1e-6);
  }
  CHECK(unloaded);
}

/// Along a random path the plane update gives what the spatial one gives without strain
/// across.
inline void check_plane_is_a_section(const PointMaterial &material, std::mt19937 &random,
                                     int steps)
{
  PlasticState plane, space;
  Matrix3      F = unit;
  for (int step = 0; step < steps; ++step)
  {
    F            = product(random_deformation<2>(random, 0.04), F);
    const auto a = plastic_update<2>(F, plane, material);
    const auto b = plastic_update<3>(F, space, material);
    CHECK(worst(a.kirchhoff, b.kirchhoff) < 1e-8);
    CHECK(a.state.equivalent_plastic_strain ==
          Approx(b.state.equivalent_plastic_strain).margin(1e-13));
    CHECK(a.elastic_energy == Approx(b.elastic_energy).epsilon(1e-10));
    CHECK(a.plastic_work == Approx(b.plastic_work).margin(1e-10));
    CHECK(worst(a.state.back_strain, b.state.back_strain) < 1e-12);
    CHECK(worst(a.state.inverse_plastic_metric, b.state.inverse_plastic_metric) < 1e-12);
    for (std::size_t r = 0; r < 4; ++r)
      for (std::size_t s = 0; s < 4; ++s)
        CHECK(a.tangent[r][s] ==
              Approx(b.tangent[r / 2 * 3 + r % 2][s / 2 * 3 + s % 2]).margin(1e-4));
    plane = a.state;
    space = b.state;
  }
}

/// A turn on top of a random deformation turns the stress and leaves the state alone.
inline void check_turned_stress(const PointMaterial &material, std::mt19937 &random)
{
  const Matrix3      first = random_deformation<3>(random, 0.05);
  const PlasticState state = plastic_update<3>(first, {}, material).state;
  const Matrix3      F     = product(random_deformation<3>(random, 0.02), first);
  const auto         still = plastic_update<3>(F, state, material);
  for (int degree = 0; degree <= 360; degree += 45)
  {
    const Matrix3 turn     = about_skew_axis(degree * std::acos(-1.) / 180);
    const auto    turned   = plastic_update<3>(product(turn, F), state, material);
    const Matrix3 expected = product(turn, product(still.kirchhoff, transposed(turn)));
    CHECK(worst(turned.kirchhoff, expected) < 1e-8);
    CHECK(turned.state.equivalent_plastic_strain ==
          Approx(still.state.equivalent_plastic_strain).epsilon(1e-12));
    CHECK(worst(turned.state.back_strain, still.state.back_strain) < 1e-13);
    CHECK(worst(turned.state.inverse_plastic_metric, still.state.inverse_plastic_metric) <
          1e-13);
  }
  // A loaded point that is only turned goes on as if nothing had happened.
  const auto later =
      plastic_update<3>(product(about_skew_axis(2), F), still.state, material);
  CHECK(later.plastic_work == Approx(0).margin(1e-9));
}

/// A first pull, and a first push, to a log strain in equal steps follows the flow curve;
/// log strains add up: total = plastic + stress / E.
inline void check_first_pull(const ZoneMaterial &zone, double young, double strain,
                             int steps)
{
  for (const double direction : {1., -1.})
  {
    PlasticState state;
    for (int step = 1; step <= steps; ++step)
    {
      const double there  = direction * strain * step / steps;
      const auto   result = pulled<3>(there, Sides::free, state, zone);
      state               = result.state;
      const double p      = state.equivalent_plastic_strain;
      INFO("law " << to_text(zone.flow.law) << ", strain " << there);
      CHECK(direction * result.kirchhoff[0][0] ==
            Approx(zone.flow.stress(p)).epsilon(1e-9));
      CHECK(direction * there == Approx(p + zone.flow.stress(p) / young).epsilon(1e-8));
    }
  }
}
} // namespace throughbend
