// Newton on a real step of reference case R: the last iterations must square the error,
// which only an exact tangent does, and failing must be a value.

#include "meshes/setup/placed_coupon.h"
#include "solver/fem/newton.h"
#include "solver/setup/pass_tools.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <sstream>

using namespace throughbend;

namespace
{
struct Bench
{
  Bench()
      : c(coarse()), model(placed_coupon(c), MPI_COMM_WORLD),
        equations(model, zone_materials(c), pass_tools(c, model.extent()),
                  contact_stiffness(c)),
        settings(newton_settings(equilibrium_goal(c), model.whole_coupon_factor())),
        u(model.n_dofs()), regularisation(5e-9 * c.material.young / 100)
  {
  }
  static Case coarse()
  {
    Case c       = reference_case();
    c.mesh.level = MeshLevel::quick;
    return c;
  }
  /// Steps of at most 0.25 mm, halved where Newton refuses, until the coupon is well
  /// plastic. Returns the last step's motion, scaled to 0.25 mm.
  Vector go_to(double travel)
  {
    Vector last(u.size());
    double at = 0, step = 0.02;
    for (int tries = 0; at < travel - 1e-9; ++tries)
    {
      REQUIRE(tries < 200);
      const double more = std::min(step, travel - at);
      Vector       next(u);
      next.add(more, last);
      if (!solve_newton(equations, next, {at + more, regularisation}, settings).converged())
      {
        step = more / 2;
        continue;
      }
      equations.accept(next);
      last = next;
      last -= u;
      last /= more;
      u = next;
      at += more;
      step = std::min(2 * more, 0.25);
    }
    last *= 0.25;
    return last;
  }

  Case             c;
  CouponModel<2>   model;
  PassEquations<2> equations;
  NewtonSettings   settings;
  Vector           u;
  double           regularisation;
};
} // namespace

TEST_CASE("The last Newton iterations of an elastic-plastic step square the error",
          "[fem][newton]")
{
  Bench        bench;
  const Vector guess = bench.go_to(4);
  CHECK(bench.equations.equilibrium().energy().plastic_step > 0);
  Vector u(bench.u), du(u.size());
  u += guess;
  const LoadPoint     load{4.25, bench.regularisation};
  std::vector<double> residuals;
  std::ostringstream  said;
  REQUIRE(bench.equations.evaluate(u, load));
  for (int i = 0; i < 15; ++i)
  {
    residuals.push_back(bench.equations.residual().l2_norm() /
                        bench.equations.contact_norm());
    said << residuals.back() << ' ';
    if (residuals.back() < 1e-10)
      break;
    Vector right(bench.equations.residual());
    right *= -1;
    REQUIRE(bench.equations.solve(right, du));
    u += du;
    REQUIRE(bench.equations.evaluate(u, load));
  }
  INFO("unbalanced / contact force: " << said.str());
  WARN("unbalanced / contact force: " << said.str());
  REQUIRE(residuals.back() < 1e-10);
  // From the first residual below 1e-3 on: the order log r2 / log r1 approaches 2 while
  // rounding (about 1e-11) is still far.
  double best = 0;
  for (std::size_t i = 0; i + 2 < residuals.size(); ++i)
    if (residuals[i] < 1e-2 && residuals[i + 1] > 1e-9)
      best = std::max(best, std::log(residuals[i + 2] / residuals[i + 1]) /
                                std::log(residuals[i + 1] / residuals[i]));
  CHECK(residuals.size() <= 12);
  CHECK(best > 1.6);
}

TEST_CASE("A tighter tolerance costs a few iterations, not many", "[fem][newton]")
{
  Bench        loose, tight;
  const Vector guess = loose.go_to(2);
  tight.go_to(2);
  tight.settings.tolerance = 1e-9;
  Vector a(loose.u), b(tight.u);
  a += guess;
  b += guess;
  const NewtonReport few  = solve_newton(loose.equations, a, {2.25, loose.regularisation},
                                         loose.settings),
                     many = solve_newton(tight.equations, b, {2.25, tight.regularisation},
                                         tight.settings);
  REQUIRE(few.converged());
  REQUIRE(many.converged());
  CHECK(few.residual <= 1e-3);
  CHECK(many.residual <= 1e-9);
  CHECK(many.iterations <= few.iterations + 4);
}

TEST_CASE("No contact force is so large that anything is small beside it", "[fem][newton]")
{
  Bench        bench;
  const Vector guess         = bench.go_to(2);
  bench.settings.most_force  = 1; // [N], a hundredth of what presses here
  bench.settings.least_force = bench.settings.most_force;
  Vector next(bench.u);
  next += guess;
  REQUIRE(solve_newton(bench.equations, next, {2.25, bench.regularisation}, bench.settings)
              .converged());
  REQUIRE(bench.equations.contact_norm() > 100);
  CHECK(bench.equations.residual().l2_norm() <= bench.settings.tolerance * 1);
}

TEST_CASE("An impossible start, too few iterations and no progress are told, not thrown",
          "[fem][newton]")
{
  Bench        bench;
  const Vector guess = bench.go_to(0.5);
  Vector       absurd(bench.u);
  absurd[bench.model.cells()[0].dofs[0]] += 1000;
  CHECK(solve_newton(bench.equations, absurd, {0.5, bench.regularisation}, bench.settings)
            .end == NewtonEnd::inside_out);
  Vector nothing(bench.u);
  nothing[3] = std::nan("");
  CHECK(solve_newton(bench.equations, nothing, {0.5, bench.regularisation}, bench.settings)
            .end == NewtonEnd::inside_out);
  // The tools 8 mm deeper at once, and one iteration to cope with it.
  bench.settings.max_iterations = 1;
  Vector             far(bench.u);
  const NewtonReport report =
      solve_newton(bench.equations, far, {8.5, bench.regularisation}, bench.settings);
  CHECK_FALSE(report.converged());
  CHECK(report.iterations <= 1);
  // The history was not touched by any of that: the next step goes as usual.
  bench.settings.max_iterations = 20;
  Vector next(bench.u);
  next += guess;
  CHECK(solve_newton(bench.equations, next, {0.75, bench.regularisation}, bench.settings)
            .converged());
}
