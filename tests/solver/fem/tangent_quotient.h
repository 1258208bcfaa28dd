#pragma once
// Assembled tangents of internal and contact forces against difference quotients of those
// forces.

#include "solver/fem/contact_assembly.h"
#include "solver/fem/equilibrium.h"
#include "tests/solver/fem/dense_system.h"
#include "tests/solver/fem/small_coupon.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>
#include <utility>

namespace throughbend
{
template <int dim>
Vector forces(Equilibrium<dim> &equilibrium, const Vector &u)
{
  Vector force(u.size());
  REQUIRE(equilibrium.add_forces(u, force));
  return force;
}

/// Largest error of the assembled tangent at u against central difference quotients, and
/// its asymmetry, both relative to the largest entry.
template <int dim>
std::pair<double, double> tangent_errors(const CouponModel<dim> &model,
                                         Equilibrium<dim> &equilibrium, const Vector &u)
{
  DenseSystem<dim> dense(model);
  forces(equilibrium, u);
  equilibrium.add_tangent(dense);
  const auto      &K    = dense.matrix();
  constexpr double h    = 1e-6;
  double           size = 0, error = 0, skew = 0;
  for (unsigned j = 0; j < u.size(); ++j)
  {
    Vector plus(u), minus(u);
    plus[j] += h;
    minus[j] -= h;
    const Vector up = forces(equilibrium, plus), down = forces(equilibrium, minus);
    for (unsigned i = 0; i < u.size(); ++i)
    {
      size  = std::max(size, std::abs(K(i, j)));
      error = std::max(error, std::abs((up[i] - down[i]) / (2 * h) - K(i, j)));
      skew  = std::max(skew, std::abs(K(i, j) - K(j, i)));
    }
  }
  return {error / size, skew / size};
}

/// The largest of each on the way through two large random steps, from u, which is moved
/// along; the plastic history of both steps is accepted.
template <int dim>
std::pair<double, double> flowing_tangent_errors(const CouponModel<dim> &model,
                                                 Equilibrium<dim> &equilibrium, Vector &u,
                                                 std::mt19937 &random)
{
  double flowing = 0, skew = 0;
  for (int step = 0; step < 2; ++step)
  {
    shake(u, random, dim == 2 ? 0.06 : 0.12);
    const auto [error, asymmetry] = tangent_errors(model, equilibrium, u);
    flowing                       = std::max(flowing, error);
    skew                          = std::max(skew, asymmetry);
    forces(equilibrium, u);
    equilibrium.history().accept();
  }
  return {flowing, skew};
}

/// Largest error of the contact tangent at u against central difference quotients, relative
/// to its largest entry.
template <int dim>
double contact_tangent_error(const CouponModel<dim> &model, ContactAssembly<dim> &contact,
                             const Vector &u, double travel)
{
  const auto forces = [&](const Vector &at)
  {
    Vector f(at.size());
    contact.add_forces(at, travel, f);
    return f;
  };
  forces(u);
  DenseSystem<dim> dense(model);
  contact.add_tangent(dense);
  constexpr double h    = 1e-7;
  double           size = 0, error = 0;
  for (unsigned j = 0; j < u.size(); ++j)
  {
    Vector plus(u), minus(u);
    plus[j] += h;
    minus[j] -= h;
    const Vector up = forces(plus), down = forces(minus);
    for (unsigned i = 0; i < u.size(); ++i)
    {
      size = std::max(size, std::abs(dense.matrix()(i, j)));
      error =
          std::max(error, std::abs(-(up[i] - down[i]) / (2 * h) - dense.matrix()(i, j)));
    }
  }
  forces(u);
  REQUIRE(size > 0);
  return error / size;
}

} // namespace throughbend
