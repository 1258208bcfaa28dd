// The factor by halves against CHOLMOD's of the whole matrix, which knows of no halves.

#include "meshes/setup/placed_coupon.h"
#include "solver/fem/equilibrium.h"
#include "solver/fem/halved_factor.h"
#include "solver/fem/row_product.h"
#include "solver/fem/serial_system.h"
#include "solver/fem/strip_cut.h"
#include "solver/setup/set_up.h"
#include "tests/solver/fem/small_coupon.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <memory>
#include <random>
#include <vector>

using namespace throughbend;

namespace
{
std::vector<double> random_numbers(const std::size_t n)
{
  std::mt19937                           random(3);
  std::uniform_real_distribution<double> number(-1, 1);
  std::vector<double>                    numbers(n);
  for (double &each : numbers)
    each = number(random);
  return numbers;
}

double largest(const std::vector<double> &x)
{
  double largest = 0;
  for (const double each : x)
    largest = std::max(largest, std::abs(each));
  return largest;
}

/// A coupon of 96 cells, long enough to be cut across, some of it plastic. As half model,
/// so that some unknowns are held.
struct Strip
{
  Strip()
      : c(long_coupon()), model(placed_coupon(c), MPI_COMM_WORLD),
        equilibrium(model, zone_materials(c)),
        matrix(std::make_shared<CompressedColumns>(model))
  {
    std::mt19937 random(12);
    Vector       u(model.n_dofs()), unused(model.n_dofs());
    shake(u, random, 0.01);
    REQUIRE(equilibrium.add_forces(u, unused));
    REQUIRE(equilibrium.energy().plastic_step > 0);
  }
  static Case long_coupon()
  {
    Case c           = small_coupon<2>();
    c.coupon.length  = 96;
    c.mesh.model     = ModelChoice::automatic;
    c.mesh.cell_size = 1;
    return c;
  }
  SymmetricTriangle triangle(const double regularisation)
  {
    ColumnSystem system(matrix);
    system.clear();
    equilibrium.add_tangent(system);
    system.add_diagonal(regularisation, model.lumped_volume());
    SymmetricPart part(*matrix);
    part.take(*matrix);
    return part.triangle();
  }

  Case                               c;
  CouponModel<2>                     model;
  Equilibrium<2>                     equilibrium;
  std::shared_ptr<CompressedColumns> matrix;
};
} // namespace

TEST_CASE("A coupon in two halves is solved like a whole one", "[fem][solver]")
{
  Strip      strip;
  CellCrew   alone(1);
  const auto pattern = strip.triangle(1);
  const auto halved  = make_halved_factor(pattern, alone);
  const auto whole   = make_simplicial_factor(pattern);
  const auto right   = random_numbers(static_cast<std::size_t>(pattern.size()));
  REQUIRE(halved != nullptr);
  // Definite, then so negative a diagonal that there are eigenvalues of both signs, then
  // the first again: nothing of the old factors is left.
  for (const double regularisation : {1., -3e4, 1.})
  {
    INFO("regularisation " << regularisation);
    const SymmetricTriangle matrix = strip.triangle(regularisation);
    std::vector<double>     expected(right), found(right);
    REQUIRE(whole->factorise(matrix));
    whole->solve(expected);
    REQUIRE(halved->factorise(matrix));
    halved->solve(found);
    for (std::size_t i = 0; i < found.size(); ++i)
      found[i] -= expected[i];
    CHECK(largest(found) < 1e-8 * largest(expected));
  }
}

TEST_CASE("The cut of a coupon is one row of nodes, and nothing joins the halves",
          "[fem][solver]")
{
  Strip          strip;
  const auto     pattern = strip.triangle(1);
  const StripCut parts   = cut_across(pattern);
  CHECK(parts.pays());
  // Two layers of quadratic cells: five nodes across, of two unknowns each.
  CHECK(parts.cut.size() == 10);
  std::vector<int> side(static_cast<std::size_t>(pattern.size()), 2);
  for (const int half : {0, 1})
    for (const int i : parts.halves[half])
      side[i] = half;
  CHECK(parts.halves[0].size() + parts.halves[1].size() + 10 == side.size());
  int joined = 0;
  for (int j = 0; j < pattern.size(); ++j)
    for (int k = pattern.starts[j]; k < pattern.starts[j + 1]; ++k)
      joined += side[j] + side[pattern.rows[k]] == 1;
  CHECK(joined == 0);
}

TEST_CASE("A second thread changes no digit of factors and products", "[fem][solver]")
{
  Strip      strip;
  CellCrew   alone(1), pair(2);
  const auto matrix = strip.triangle(1);
  const auto right  = random_numbers(static_cast<std::size_t>(matrix.size()));
  const auto by     = [&](CellCrew &crew)
  {
    const auto factor = make_halved_factor(matrix, crew);
    REQUIRE(factor != nullptr);
    REQUIRE(factor->factorise(matrix));
    std::vector<double> x(right);
    factor->solve(x);
    return x;
  };
  CHECK(by(alone) == by(pair));

  const Vector x(right.begin(), right.end());
  const auto   product = [&](CellCrew &crew)
  {
    RowProduct rows(*strip.matrix, crew);
    rows.take();
    Vector y(x.size());
    rows.vmult(y, x);
    return y;
  };
  CHECK(product(alone) == product(pair));
  Vector difference = strip.matrix->times(x);
  difference -= product(pair);
  CHECK(difference.linfty_norm() < 1e-12 * strip.matrix->times(x).linfty_norm());
}

TEST_CASE("A singular half is a value, and what has no small cut is left whole",
          "[fem][solver]")
{
  Strip             strip;
  CellCrew          alone(1);
  SymmetricTriangle matrix = strip.triangle(1);
  const auto        halved = make_halved_factor(matrix, alone);
  REQUIRE(halved != nullptr);
  std::fill(matrix.values.begin(), matrix.values.end(), 0.);
  CHECK_FALSE(halved->factorise(matrix));

  SymmetricTriangle full; // every unknown meets every other
  for (int j = 0; j < 40; ++j)
  {
    full.starts.push_back(static_cast<int>(full.rows.size()));
    for (int i = j; i < 40; ++i)
      full.rows.push_back(i);
  }
  full.starts.push_back(static_cast<int>(full.rows.size()));
  full.values.assign(full.rows.size(), 1.);
  full.scale.assign(40, 1.);
  CHECK(make_halved_factor(full, alone) == nullptr);
}
