// The constitutive update against difference quotients, objectivity, closed forms of simple
// deformations, and its own yield condition. Sources stand beside the values.

#include "tests/support/metals.h"
#include "tests/support/update_checks.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <vector>

using namespace throughbend;

namespace
{
constexpr double pi = 3.14159265358979323846;

constexpr double young = 210000, poisson = 0.3;

ZoneMaterial steel(const FlowCurve &flow)
{
  return metal(young, poisson, flow);
}

/// One curve of every law. Parameters invented; the formula has a kink.
std::vector<FlowCurve> all_laws()
{
  return {perfectly_plastic(345),
          linear_hardening(300, 1500),
          reference_plate(),
          swift_hardening(759, 0.00388, 0.2),
          ludwik_hardening(280, 500, 0.4),
          tabulated({{0, 260}, {0.02, 330}, {0.1, 410}, {0.3, 470}}),
          formula_hardening("s0 + k*p^n + (p < 0.05 ? 0*s0 : h*(p-0.05))",
                            "s0:270 MPa, k:450 MPa, n:0.35, h:300 MPa")};
}
} // namespace

TEMPLATE_TEST_CASE_SIG(
    "The tangent is that of the stress in elastic and plastic steps, with "
    "history and turned",
    "[unit][material][tangent]", ((int dim), dim), 2, 3)
{
  std::mt19937 random(dim);
  for (const FlowCurve &flow : all_laws())
  {
    const ZoneMaterial zone = steel(flow);
    for (int i = 0; i < 8; ++i)
    {
      INFO("law " << to_text(flow.law) << ", sample " << i);
      check_tangent_along_path<dim>(zone, random, {0.08, 0.08});
    }
  }
}

TEMPLATE_TEST_CASE_SIG("The tangent holds where principal stretches coincide",
                       "[unit][material][tangent]", ((int dim), dim), 2, 3)
{
  const ZoneMaterial zone = steel(reference_plate());
  const double       near = 1 + 1e-9; // a difference quotient of its own would fail here
  for (const Matrix3 &F : {unit, Matrix3{{{1.001, 0, 0}, {0, 1.001, 0}, {0, 0, 1}}},
                           Matrix3{{{1.02, 0, 0}, {0, 1.02, 0}, {0, 0, 1}}},
                           Matrix3{{{1.02, 0, 0}, {0, 1.02 * near, 0}, {0, 0, 1}}},
                           Matrix3{{{1.05, 0, 0}, {0, 1, 0}, {0, 0, 1}}}, about_z(0.4)})
    CHECK(update_tangent_error<dim>(F, {}, zone) < 1e-6);
}

TEST_CASE("A point without a backstress is updated by j2_update", "[unit][material]")
{
  std::mt19937       random(3);
  const ZoneMaterial zone = steel(reference_plate());
  PlasticState       state;
  Matrix3            F = unit;
  for (int step = 0; step < 5; ++step)
  {
    F                   = product(random_deformation<3>(random, 0.04), F);
    const auto chosen   = plastic_update<3>(F, state, zone);
    const auto directly = j2_update<3>(F, state, zone);
    CHECK(chosen.kirchhoff == directly.kirchhoff);
    CHECK(chosen.tangent == directly.tangent);
    state = directly.state;
  }
}

TEST_CASE("The plane update is the spatial one without strain across", "[unit][material]")
{
  std::mt19937       random(17);
  const ZoneMaterial zone = steel(reference_plate());
  for (int i = 0; i < 50; ++i)
    check_plane_is_a_section(zone, random, 4);
}

TEST_CASE("Turning a virgin point around gives neither stress nor flow", "[unit][material]")
{
  const ZoneMaterial zone = steel(perfectly_plastic(250));
  PlasticState       a, b;
  for (int degree = 0; degree <= 360; degree += 5)
  {
    const auto plane = j2_update<2>(about_z(degree * pi / 180), a, zone);
    const auto space = j2_update<3>(about_skew_axis(degree * pi / 180), b, zone);
    CHECK(worst(plane.kirchhoff, {}) < 1e-9);
    CHECK(worst(space.kirchhoff, {}) < 1e-9);
    a = plane.state;
    b = space.state;
  }
  CHECK(a.equivalent_plastic_strain == 0);
  CHECK(b.equivalent_plastic_strain == 0);
}

TEST_CASE("A stressed point that turns takes its stress along", "[unit][material]")
{
  std::mt19937       random(23);
  const ZoneMaterial zone = steel(reference_plate());
  for (int i = 0; i < 10; ++i)
    check_turned_stress(zone, random);
}

TEST_CASE("A pulled bar follows its flow curve, whatever the law", "[unit][material]")
{
  for (const FlowCurve &flow : all_laws())
    check_first_pull(steel(flow), young, 0.2, 10);
}

TEST_CASE("A bar's tensile force follows the published law of the necking benchmark",
          "[unit][material]")
{
  // Simo & Hughes (1998), Computational Inelasticity, round bar: E 206.9 GPa, nu .29, flow
  // stress 450 + 265 (1 - exp(-16.93 p)) + 129.24 p; area 129.20 mm^2. Forces and half
  // elongations of a bar 2 x 26.667 mm before it necks: F = A0 s exp(-(p + s/E)), evaluated
  // outside this project's code.
  const ZoneMaterial zone = metal(206900, 0.29, necking_steel());
  const double       half = 26.667, area = 129.20;
  const struct
  {
    double p, force, elongation;
  } published[] = {{0.01, 62.86e3, 0.332}, {0.05, 74.48e3, 1.450}, {0.10, 79.14e3, 2.902}};
  for (const auto &row : published)
  {
    const double stretch = 1 + row.elongation / half;
    const auto   result  = pulled<3>(std::log(stretch), Sides::free, {}, zone);
    CHECK(result.state.equivalent_plastic_strain == Approx(row.p).margin(5e-5));
    CHECK(area * result.kirchhoff[0][0] / stretch == Approx(row.force).epsilon(3e-4));
  }
}

TEST_CASE("Pulled in plane strain, a bar yields at 1.125 Y and goes on to 1.155 Y",
          "[unit][material]")
{
  // Mises in plane strain: first yield at Y / sqrt(1 - nu + nu^2), later 2 Y / sqrt(3);
  // textbook (Hill 1950, The Mathematical Theory of Plasticity, ch. II).
  const double       Y = 250, nu = poisson;
  const ZoneMaterial zone  = steel(perfectly_plastic(Y));
  const double       first = Y / std::sqrt(1 - nu + nu * nu);
  const double       edge  = first * (1 - nu * nu) / young;
  const auto         below = pulled<2>(edge * 0.9999, Sides::held, {}, zone),
             above         = pulled<2>(edge * 1.0001, Sides::held, {}, zone);
  CHECK(below.state.equivalent_plastic_strain == 0);
  CHECK(above.state.equivalent_plastic_strain > 0);
  CHECK(below.kirchhoff[0][0] == Approx(1.1251 * Y).epsilon(2e-4));
  PlasticState state;
  double       stress = 0;
  for (int step = 1; step <= 100; ++step)
  {
    const auto result = pulled<2>(edge + 5e-4 * step, Sides::held, state, zone);
    state             = result.state;
    CHECK(result.kirchhoff[0][0] >= stress - 1e-6);
    stress = result.kirchhoff[0][0];
  }
  CHECK(stress == Approx(2 / std::sqrt(3.) * Y).epsilon(1e-4));
}

TEST_CASE("In simple shear without hardening the shear stress stays at Y / sqrt 3",
          "[unit][material]")
{
  // Lee, Mallett & Wertheimer (1983), J. Appl. Mech. 50, 554: rate forms may oscillate
  // here.
  const double       Y    = 250;
  const ZoneMaterial zone = steel(perfectly_plastic(Y));
  PlasticState       state;
  for (int step = 1; step <= 600; ++step)
  {
    const double  shear  = 0.01 * step;
    const Matrix3 F      = {{{1, shear, 0}, {0, 1, 0}, {0, 0, 1}}};
    const auto    result = j2_update<2>(F, state, zone);
    state                = result.state;
    if (step >= 2)
      CHECK(result.kirchhoff[0][1] == Approx(Y / std::sqrt(3.)).epsilon(2e-3));
  }
  CHECK(state.equivalent_plastic_strain == Approx(6 / std::sqrt(3.)).epsilon(2e-3));
}

TEST_CASE("Plastic flow keeps the volume through any history", "[unit][material]")
{
  std::mt19937       random(31);
  const ZoneMaterial zone = steel(reference_plate());
  for (int i = 0; i < 20; ++i)
  {
    PlasticState state;
    Matrix3      F = unit;
    for (int step = 0; step < 25; ++step)
    {
      Matrix3 next = random_deformation<3>(random, 0.05);
      // Nearly isochoric, or pressure alone would grow without bound.
      const double shrink = std::cbrt(determinant(product(next, F)));
      for (auto &row : next)
        for (double &value : row)
          value /= shrink;
      F     = product(next, F);
      state = j2_update<3>(F, state, zone).state;
      CHECK(determinant(full(state.inverse_plastic_metric)) == Approx(1).epsilon(1e-11));
    }
  }
}

TEST_CASE("After flow the stress lies on the yield surface, also after enormous steps",
          "[unit][material]")
{
  std::mt19937 random(37);
  for (const FlowCurve &flow : all_laws())
  {
    const ZoneMaterial zone = steel(flow);
    for (const double size : {2e-3, 0.02, 0.3, 1.0})
      for (int i = 0; i < 20; ++i)
      {
        const Matrix3 F = random_deformation<3>(random, size);
        if (determinant(F) < 1e-3)
          continue;
        const auto   result = j2_update<3>(F, {}, zone);
        const double p      = result.state.equivalent_plastic_strain;
        INFO("law " << to_text(flow.law) << ", size " << size << ", p " << p);
        REQUIRE(std::isfinite(p));
        if (p > 0)
          CHECK(von_mises(result.kirchhoff) == Approx(flow.stress(p)).epsilon(1e-8));
        else
          CHECK(von_mises(result.kirchhoff) <= flow.stress(0) * (1 + 1e-12));
      }
    // A stretch of e^3 in one step, and a bare touch of the yield surface.
    for (const double strain : {3.0, -3.0})
    {
      const Matrix3 F      = {{{std::exp(strain), 0, 0},
                               {0, std::exp(-strain / 2), 0},
                               {0, 0, std::exp(-strain / 2)}}};
      const auto    result = j2_update<3>(F, {}, zone);
      const double  p      = result.state.equivalent_plastic_strain;
      CHECK(von_mises(result.kirchhoff) == Approx(flow.stress(p)).epsilon(1e-8));
      CHECK(p == Approx(3 - flow.stress(p) / (3 * zone.shear)).epsilon(1e-8));
    }
    const double  touch = flow.stress(0) / (3 * zone.shear) * (1 + 1e-10);
    const Matrix3 F     = {{{std::exp(touch), 0, 0},
                            {0, std::exp(-touch / 2), 0},
                            {0, 0, std::exp(-touch / 2)}}};
    const double  p     = j2_update<3>(F, {}, zone).state.equivalent_plastic_strain;
    CHECK(p >= 0);
    CHECK(p < 1e-8);
  }
}

TEST_CASE("Stored and dissipated energy approach the work done as steps get smaller",
          "[unit][material]")
{
  // A path that is not proportional: pulled along x while it shears and turns.
  const ZoneMaterial zone = steel(reference_plate());
  const auto         path = [](double s)
  {
    const Matrix3 stretch = {{{std::exp(0.2 * s), 0.3 * s * s, 0.1 * s},
                              {0, std::exp(-0.12 * s), -0.05 * s},
                              {0, 0, std::exp(-0.08 * s)}}};
    return product(about_skew_axis(0.8 * s), stretch);
  };
  const auto error = [&](int steps)
  {
    PlasticState state;
    Matrix3      old_stress{};
    double       work = 0, dissipated = 0, stored = 0;
    for (int i = 1; i <= steps; ++i)
    {
      const Matrix3 from = path(double(i - 1) / steps), to = path(double(i) / steps);
      Matrix3       middle{}, change{};
      for (std::size_t r = 0; r < 3; ++r)
        for (std::size_t s = 0; s < 3; ++s)
        {
          middle[r][s] = (from[r][s] + to[r][s]) / 2;
          change[r][s] = to[r][s] - from[r][s];
        }
      const Matrix3 l      = product(change, inverse(middle, determinant(middle)));
      const auto    result = j2_update<3>(to, state, zone);
      for (std::size_t r = 0; r < 3; ++r)
        for (std::size_t s = 0; s < 3; ++s)
          work += (old_stress[r][s] + result.kirchhoff[r][s]) / 2 * l[r][s];
      old_stress = result.kirchhoff;
      dissipated += result.plastic_work;
      stored = result.elastic_energy;
      state  = result.state;
    }
    return std::abs(work - dissipated - stored) / work;
  };
  const double coarse = error(50), fine = error(200), finest = error(800);
  INFO(coarse << ' ' << fine << ' ' << finest);
  CHECK(finest < 1e-3);
  CHECK(fine < coarse / 2.5); // at least first order, four times the steps
  CHECK(finest < fine / 2.5);
}

TEST_CASE("A closed elastic cycle gives all work back and leaves no trace",
          "[unit][material]")
{
  const ZoneMaterial zone = steel(perfectly_plastic(1e9));
  PlasticState       state;
  for (const double s : {0.1, 0.3, 0.2, 0.0})
  {
    const Matrix3 F      = {{{1 + s, s / 2, 0}, {0, 1 - s / 3, s}, {0, 0, 1}}};
    const auto    result = j2_update<3>(F, state, zone);
    state                = result.state;
    CHECK(result.plastic_work == 0);
    if (s == 0)
    {
      CHECK(worst(result.kirchhoff, {}) < 1e-9);
      CHECK(result.elastic_energy == Approx(0).margin(1e-15));
    }
  }
}
