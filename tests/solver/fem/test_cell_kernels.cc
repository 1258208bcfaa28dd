// The kernels for wide registers against those for any machine, on whole meshes with
// plastic history: one source, so all that may differ is rounding.

#include "solver/fem/equilibrium.h"
#include "solver/setup/zone_materials.h"
#include "tests/solver/fem/dense_system.h"
#include "tests/solver/fem/small_coupon.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;

namespace
{
enum class Metals
{
  zones,
  swift,
  table,
  mixed,
  backstress
};

std::vector<ZoneMaterial> zones_of(const Case &c, const Metals metals)
{
  std::vector<ZoneMaterial> zones = zone_materials(c);
  for (ZoneMaterial &zone : zones)
  {
    if (metals == Metals::swift)
    {
      zone.flow.law       = HardeningLaw::swift;
      zone.flow.strength  = 700;
      zone.flow.prestrain = 0.004;
      zone.flow.exponent  = 0.2;
    }
    if (metals == Metals::table)
    {
      zone.flow.law    = HardeningLaw::table;
      zone.flow.points = {{0, 250}, {0.01, 300}, {0.1, 420}};
    }
    if (metals == Metals::backstress)
      zone.kinematic = {100, 40};
  }
  return zones;
}

template <int dim>
struct Evaluated
{
  Vector                     force;
  dealii::FullMatrix<double> tangent;
  StrainEnergy               energy;
};

template <int dim>
Evaluated<dim> evaluate(const CouponModel<dim> &model, Equilibrium<dim> &equilibrium,
                        const Vector &u)
{
  Evaluated<dim> result;
  result.force.reinit(u.size());
  REQUIRE(equilibrium.add_forces(u, result.force));
  DenseSystem<dim> dense(model);
  equilibrium.add_tangent(dense);
  result.tangent = dense.matrix();
  result.energy  = equilibrium.energy();
  return result;
}

double relative(const double a, const double b)
{
  return std::abs(a - b) / std::max(std::abs(b), 1e-300);
}
} // namespace

TEMPLATE_TEST_CASE_SIG("Code for wide registers and for any give the same forces, tangents "
                       "and states",
                       "[fem][kernels]", ((int dim), dim), 2, 3)
{
  if (best_registers() != Registers::wide)
  {
    WARN("this machine has no wide registers");
    return;
  }
  const auto metals = GENERATE(Metals::zones, Metals::swift, Metals::table, Metals::mixed,
                               Metals::backstress);
  const Case c      = small_coupon<dim>();
  const CouponModel<dim> model(placed_coupon(c), MPI_COMM_WORLD);
  Equilibrium<dim>       any(model, zones_of(c, metals), 1, Registers::any);
  Equilibrium<dim>       wide(model, zones_of(c, metals), 1, Registers::wide);
  if (metals == Metals::mixed)
  {
    std::vector<StrengthMix> mixes;
    for (std::size_t p = 0; p < any.history().all_accepted().size(); ++p)
      mixes.push_back({0, 1, static_cast<double>(p % 5) / 5});
    any.mix(mixes);
    wide.mix(mixes);
  }
  std::mt19937 random(dim);
  Vector       u(model.n_dofs());
  for (int step = 0; step < 3; ++step)
  {
    // Elastic at first in most cells. A strain e is known to 1e-16 / e, so it is no
    // smaller.
    shake(u, random, step == 0 ? 0.004 : dim == 2 ? 0.06 : 0.12);
    const Evaluated<dim> a = evaluate(model, any, u), b = evaluate(model, wide, u);
    Vector               force(a.force);
    force -= b.force;
    CHECK(force.linfty_norm() < 1e-12 * b.force.linfty_norm());
    double largest = 0, worst = 0;
    for (unsigned i = 0; i < u.size(); ++i)
      for (unsigned j = 0; j < u.size(); ++j)
      {
        largest = std::max(largest, std::abs(b.tangent(i, j)));
        worst   = std::max(worst, std::abs(a.tangent(i, j) - b.tangent(i, j)));
      }
    CHECK(worst < 1e-12 * largest);
    CHECK(relative(a.energy.elastic, b.energy.elastic) < 1e-12);
    CHECK((step == 0 || b.energy.plastic_step > 0));
    CHECK(std::abs(a.energy.plastic_step - b.energy.plastic_step) <=
          1e-12 * b.energy.plastic_step);
    any.history().accept();
    wide.history().accept();
    double strain = 0;
    for (std::size_t p = 0; p < any.history().all_accepted().size(); ++p)
      strain =
          std::max(strain, std::abs(any.history().accepted(p).equivalent_plastic_strain -
                                    wide.history().accepted(p).equivalent_plastic_strain));
    CHECK(strain < 1e-14);
    // Errors of one step must not count in the next.
    wide.history().restore(any.history().all_accepted());
  }
}
