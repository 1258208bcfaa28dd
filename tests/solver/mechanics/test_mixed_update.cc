// The update with a backstress against the closed form of its law, difference quotients,
// objectivity and j2_update. Numbers of the metals are invented.

#include "tests/support/shifting_metal.h"
#include "tests/support/update_checks.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <vector>

using namespace throughbend;

namespace
{
constexpr double E = 210000, nu = 0.3;

ZoneMaterial steel(const FlowCurve &flow, double saturation, double rate)
{
  return metal(E, nu, flow, {saturation, rate});
}

/// All hardening is kinematic.
ShiftingMetal shifting(double rate)
{
  return {E, nu, 250, 150, rate};
}

J2Result<3> pulled_bar(double strain, const PlasticState &old, const ZoneMaterial &zone)
{
  return pulled<3>(strain, Sides::free, old, zone);
}

std::vector<ZoneMaterial> mixed_metals()
{
  return {
      steel(reference_plate(), 120, 30),
      shifting(60).material(),
      steel(swift_hardening(759, 0.00388, 0.2), 100, 80),
      steel(tabulated({{0, 260}, {0.02, 330}, {0.1, 410}, {0.3, 470}}), 60, 400),
      steel(perfectly_plastic(345), 90, 5), // its surface shrinks as it shifts
      steel(formula_hardening("s0*(1 + p/e0)^n", "s0:280 MPa, e0:0.004, n:0.15"), 80, 50)};
}
} // namespace

TEMPLATE_TEST_CASE_SIG("The tangent with a backstress is that of the stress",
                       "[unit][material][tangent]", ((int dim), dim), 2, 3)
{
  std::mt19937 random(dim);
  for (const ZoneMaterial &zone : mixed_metals())
    for (int i = 0; i < 8; ++i)
    {
      INFO("law " << to_text(zone.flow.law) << ", sample " << i);
      check_tangent_along_path<dim>(zone, random, {0.08, 0.005, 0.08});
    }
}

TEMPLATE_TEST_CASE_SIG("The tangent with a backstress holds where stretches coincide",
                       "[unit][material][tangent]", ((int dim), dim), 2, 3)
{
  const ZoneMaterial zone = mixed_metals()[0];
  const PlasticState state =
      plastic_update<dim>({{{1.03, 0.02, 0}, {0, 0.98, 0}, {0, 0, 1}}}, {}, zone).state;
  for (const Matrix3 &F : {unit, Matrix3{{{1.02, 0, 0}, {0, 1.02, 0}, {0, 0, 1}}},
                           Matrix3{{{1.05, 0, 0}, {0, 1, 0}, {0, 0, 1}}}, about_z(0.4)})
  {
    CHECK(update_tangent_error<dim>(F, {}, zone) < 1e-6);
    CHECK(update_tangent_error<dim>(F, state, zone) < 1e-6);
  }
}

TEST_CASE("A vanishing backstress leaves what j2_update gives", "[unit][material]")
{
  std::mt19937 random(5);
  ZoneMaterial mixed = steel(reference_plate(), 1e-9, 20), plain = mixed;
  plain.kinematic = {};
  for (int i = 0; i < 20; ++i)
  {
    PlasticState a, b;
    Matrix3      F = unit;
    for (int step = 0; step < 4; ++step)
    {
      F                 = product(random_deformation<3>(random, 0.05), F);
      const auto shifts = mixed_update<3>(F, a, mixed);
      const auto widens = plastic_update<3>(F, b, plain);
      CHECK(worst(shifts.kirchhoff, widens.kirchhoff) < 1e-7);
      CHECK(shifts.elastic_energy == Approx(widens.elastic_energy).epsilon(1e-9));
      CHECK(shifts.plastic_work == Approx(widens.plastic_work).margin(1e-8));
      CHECK(worst(shifts.state.inverse_plastic_metric,
                  widens.state.inverse_plastic_metric) < 1e-11);
      for (std::size_t r = 0; r < 9; ++r)
        for (std::size_t s = 0; s < 9; ++s)
          CHECK(shifts.tangent[r][s] == Approx(widens.tangent[r][s]).margin(1e-3));
      a = shifts.state;
      b = widens.state;
    }
  }
}

TEST_CASE("With a backstress the plane update is the spatial one without strain across",
          "[unit][material]")
{
  std::mt19937 random(17);
  for (const ZoneMaterial &zone : mixed_metals())
    check_plane_is_a_section(zone, random, 6);
}

TEST_CASE("A rotation on top turns the stress and leaves the state alone",
          "[unit][material]")
{
  std::mt19937 random(23);
  for (const ZoneMaterial &zone : mixed_metals())
    check_turned_stress(zone, random);
}

TEST_CASE("A first pull follows the flow curve whatever part of it is kinematic",
          "[unit][material]")
{
  for (const ZoneMaterial &zone : mixed_metals())
    for (const int steps : {1, 10})
      check_first_pull(zone, E, 0.15, steps);
}

TEST_CASE("Between fixed strains the stress runs along the closed form of the law",
          "[unit][material]")
{
  const double        amplitude = 0.01;
  const ShiftingMetal metal     = shifting(60);
  const ZoneMaterial  zone      = metal.material();
  for (const int steps : {1, 7}) // per branch: the update integrates the law exactly
  {
    PlasticState state;
    LoopPoint    closed;
    double       last = 0;
    for (int turn = 0; turn < 12; ++turn)
    {
      const double target = turn % 2 == 0 ? amplitude : -amplitude;
      double       stress = 0;
      for (int step = 1; step <= steps; ++step)
      {
        const auto result = pulled_bar(last + (target - last) * step / steps, state, zone);
        state             = result.state;
        stress            = result.kirchhoff[0][0];
      }
      last   = target;
      closed = metal.after(closed, target);
      INFO("branch " << turn << " in " << steps << " steps");
      CHECK(stress == Approx(closed.stress).epsilon(1e-7));
    }
    CHECK(std::abs(pulled_bar(last, state, zone).kirchhoff[0][0]) ==
          Approx(metal.stabilised_stress(amplitude)).epsilon(1e-6));
  }
}

TEST_CASE("On reversal the metal yields as much earlier as it has shifted",
          "[unit][material]")
{
  for (const ZoneMaterial &zone : mixed_metals())
  {
    const auto   forward = pulled_bar(0.03, {}, zone);
    const double p       = forward.state.equivalent_plastic_strain;
    const double shift   = zone.kinematic.monotonic(p).stress;
    const double drop    = 2 * (zone.flow.stress(p) - shift); // size of the surface
    const double edge    = 0.03 - drop / E;
    CHECK(pulled_bar(edge + 1e-7, forward.state, zone).plastic_work == 0);
    CHECK(pulled_bar(edge - 1e-7, forward.state, zone).state.equivalent_plastic_strain > p);
  }
}

TEST_CASE("In simple shear the stress rises without swinging", "[unit][material]")
{
  // With the corotational rate of Jaumann it swings: Nagtegaal & de Jong (1982); Lee,
  // Mallett & Wertheimer (1983) J. Appl. Mech. 50, 554.
  for (const double rate : {0.2, 1., 20.})
  {
    const ShiftingMetal metal = shifting(rate);
    const ZoneMaterial  zone  = metal.material();
    PlasticState        state;
    double              last = 0;
    for (int step = 1; step <= 600; ++step)
    {
      const auto result =
          plastic_update<2>({{{1, 0.01 * step, 0}, {0, 1, 0}, {0, 0, 1}}}, state, zone);
      state = result.state;
      INFO("rate " << rate << ", shear " << 0.01 * step);
      CHECK(result.kirchhoff[0][1] > last * (1 - 2e-4));
      last = result.kirchhoff[0][1];
    }
    if (rate == 20)
      CHECK(last == Approx((metal.yield + metal.saturation) / std::sqrt(3.)).epsilon(2e-3));
  }
}

TEST_CASE("Work done goes into elastic strain and plastic flow; none comes from nowhere",
          "[unit][material]")
{
  std::mt19937 random(41);
  for (const ZoneMaterial &zone : mixed_metals())
  {
    // A pull and a push back, work by trapezium.
    PlasticState state;
    double       work = 0, plastic = 0, elastic = 0, stress = 0, last = 0;
    for (int step = 1; step <= 300; ++step)
    {
      const double strain = step <= 150 ? 2e-4 * step : 2e-4 * (300 - step);
      const auto   result = pulled_bar(strain, state, zone);
      work += (result.kirchhoff[0][0] + stress) / 2 * (strain - last);
      stress = result.kirchhoff[0][0];
      last   = strain;
      plastic += result.plastic_work;
      elastic = result.elastic_energy;
      state   = result.state;
    }
    CHECK(work == Approx(plastic + elastic).epsilon(1e-3));

    // Dissipated is what is not locked in: never negative on any path.
    for (int path = 0; path < 10; ++path)
    {
      state     = {};
      Matrix3 F = unit;
      for (int step = 0; step < 20; ++step)
      {
        F                   = product(random_deformation<3>(random, 0.01), F);
        const auto   result = plastic_update<3>(F, state, zone);
        const double locked = back_energy(result.state, zone) - back_energy(state, zone);
        CHECK(result.plastic_work - locked >= -1e-9);
        state = result.state;
      }
    }
  }
}

TEST_CASE("After flow the shifted stress lies on the yield surface, also after enormous "
          "steps",
          "[unit][material]")
{
  std::mt19937 random(37);
  for (const ZoneMaterial &zone : mixed_metals())
    for (const double size : {0.02, 0.3, 0.8})
      for (int i = 0; i < 20; ++i)
      {
        // A symmetric F has no rotation, so the back strain is read as it stands.
        const Matrix3 F     = full(symmetric_part(random_deformation<3>(random, size)));
        const Matrix3 first = {{{1.02, 0.01, 0}, {0.01, 0.98, 0}, {0, 0, 1}}};
        if (spectrum<3>(symmetric_part(F)).values[0] < 0.05 || determinant(F) < 0.05)
          continue;
        const auto state  = plastic_update<3>(first, {}, zone).state;
        const auto result = plastic_update<3>(F, state, zone);
        if (spectrum<3>(symmetric_part(F)).values[1] < 0.05 ||
            spectrum<3>(symmetric_part(F)).values[2] < 0.05)
          continue;
        const double  p    = result.state.equivalent_plastic_strain;
        const Matrix3 beta = full(result.state.back_strain);
        const double  mean =
            (result.kirchhoff[0][0] + result.kirchhoff[1][1] + result.kirchhoff[2][2]) / 3;
        double square = 0;
        for (std::size_t k = 0; k < 3; ++k)
          for (std::size_t l = 0; l < 3; ++l)
          {
            const double shifted = result.kirchhoff[k][l] - (k == l ? mean : 0) -
                                   2 * zone.kinematic.modulus() / 3 * beta[k][l];
            square += shifted * shifted;
          }
        const double surface = zone.kinematic.isotropic_part(zone.flow, p).stress;
        REQUIRE(p > state.equivalent_plastic_strain);
        CHECK(std::sqrt(1.5 * square) == Approx(surface).epsilon(1e-7));
        CHECK(determinant(full(result.state.inverse_plastic_metric)) ==
              Approx(1).epsilon(1e-10));
      }
}

TEST_CASE("Cut into finer steps, a path that turns converges", "[unit][material]")
{
  const ZoneMaterial zone  = mixed_metals()[0];
  const auto         ended = [&](int steps)
  {
    PlasticState state;
    Matrix3      tau{};
    for (int i = 1; i <= 2 * steps; ++i)
    {
      const double a  = std::min(1., double(i) / steps),
                   b  = std::max(0., double(i) / steps - 1);
      const Matrix3 F = product(about_skew_axis(b), {{{std::exp(0.05 * a), 0.12 * b, 0},
                                                      {0, std::exp(-0.03 * a), 0.05 * b},
                                                      {0, 0, std::exp(-0.02 * a)}}});
      const auto    result = plastic_update<3>(F, state, zone);
      state                = result.state;
      tau                  = result.kirchhoff;
    }
    return tau;
  };
  const Matrix3 finest = ended(1280);
  const double  coarse = worst(ended(20), finest), fine = worst(ended(80), finest);
  INFO("differences [MPa] " << coarse << ", " << fine);
  CHECK(fine < 1);
  CHECK(fine < coarse / 2.5);
}
