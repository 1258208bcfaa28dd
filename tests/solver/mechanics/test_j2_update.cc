// The constitutive update against difference quotients, objectivity, closed forms of simple
// deformations, and its own yield condition. Sources stand beside the values.

#include "tests/support/update_quotient.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <vector>

using namespace throughbend;

namespace
{
constexpr double pi = 3.14159265358979323846;

Matrix3 transposed(const Matrix3 &a)
{
  Matrix3 t{};
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j)
      t[i][j] = a[j][i];
  return t;
}

double worst(const Matrix3 &a, const Matrix3 &b)
{
  double largest = 0;
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j)
      largest = std::max(largest, std::abs(a[i][j] - b[i][j]));
  return largest;
}

Matrix3 about_z(double a)
{
  return {{{std::cos(a), -std::sin(a), 0}, {std::sin(a), std::cos(a), 0}, {0, 0, 1}}};
}

Matrix3 about_skew_axis(double a)
{
  const Matrix3 x = {
      {{1, 0, 0}, {0, std::cos(a), -std::sin(a)}, {0, std::sin(a), std::cos(a)}}};
  return product(product(about_z(0.7), x), transposed(about_z(0.7)));
}

double mises(const Matrix3 &tau)
{
  const double mean = (tau[0][0] + tau[1][1] + tau[2][2]) / 3;
  double       sum  = 0;
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j)
    {
      const double s = tau[i][j] - (i == j ? mean : 0);
      sum += s * s;
    }
  return std::sqrt(1.5 * sum);
}

ZoneMaterial steel(const FlowCurve &flow)
{
  const double E = 210000, nu = 0.3;
  return {E / (2 * (1 + nu)), E / (3 * (1 - 2 * nu)), flow};
}

FlowCurve perfect(double yield)
{
  FlowCurve flow;
  flow.yield = yield;
  return flow;
}

FlowCurve voce()
{
  FlowCurve flow;
  flow.law        = HardeningLaw::voce;
  flow.yield      = 250;
  flow.saturation = 200;
  flow.rate       = 12;
  flow.hardening  = 150;
  return flow;
}

/// One curve of every law. Parameters invented.
std::vector<FlowCurve> all_laws()
{
  FlowCurve linear;
  linear.law       = HardeningLaw::linear;
  linear.yield     = 300;
  linear.hardening = 1500;
  FlowCurve swift;
  swift.law       = HardeningLaw::swift;
  swift.strength  = 759;
  swift.prestrain = 0.00388;
  swift.exponent  = 0.2;
  FlowCurve ludwik;
  ludwik.law      = HardeningLaw::ludwik;
  ludwik.yield    = 280;
  ludwik.strength = 500;
  ludwik.exponent = 0.4;
  FlowCurve table;
  table.law    = HardeningLaw::table;
  table.points = {{0, 260}, {0.02, 330}, {0.1, 410}, {0.3, 470}};
  FlowCurve formula;
  formula.law                = HardeningLaw::formula;
  formula.formula.expression = "s0 + k*p^n + (p < 0.05 ? 0*s0 : h*(p-0.05))"; // with a kink
  formula.formula.constants =
      read_formula_constants("s0:270 MPa, k:450 MPa, n:0.35, h:300 MPa").constants;
  tabulate(formula.formula);
  return {perfect(345), linear, voce(), swift, ludwik, table, formula};
}

/// Random F near the unit matrix; plane: no out-of-plane part.
template <int dim>
Matrix3 random_deformation(std::mt19937 &random, double size)
{
  std::uniform_real_distribution<double> entry(-size, size);
  Matrix3                                F = unit;
  for (std::size_t i = 0; i < dim; ++i)
    for (std::size_t j = 0; j < dim; ++j)
      F[i][j] += entry(random);
  return F;
}

/// Axial stretch exp(strain), sides free (`sides` of them; 1 = plane strain), by bisection
/// on the lateral stretch.
template <int dim>
J2Result<dim> pulled(double strain, int sides, const PlasticState &old,
                     const ZoneMaterial &zone)
{
  double        low = -2 * std::abs(strain) - 0.1, high = 2 * std::abs(strain) + 0.1;
  J2Result<dim> result;
  for (int i = 0; i < 200; ++i)
  {
    const double middle = (low + high) / 2;
    Matrix3      F      = unit;
    F[0][0]             = std::exp(strain);
    F[1][1]             = std::exp(middle);
    if (sides == 2)
      F[2][2] = std::exp(middle);
    result                                    = j2_update<dim>(F, old, zone);
    (result.kirchhoff[1][1] < 0 ? low : high) = middle;
  }
  return result;
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
      // Elastic from the virgin state.
      CHECK(update_tangent_error<dim>(random_deformation<dim>(random, 2e-4), {}, zone) <
            1e-6);
      // Plastic from the virgin state, then twice from what that left, the last one turned
      // by a third of a turn.
      PlasticState state;
      Matrix3      F = random_deformation<dim>(random, 0.05);
      CHECK(update_tangent_error<dim>(F, state, zone) < 1e-6);
      for (int step = 0; step < 2; ++step)
      {
        state = j2_update<dim>(F, state, zone).state;
        F     = product(random_deformation<dim>(random, 0.08), F);
        if (step == 1)
          F = product(dim == 2 ? about_z(2 * pi / 3) : about_skew_axis(2 * pi / 3), F);
        CHECK(j2_update<dim>(F, state, zone).state.equivalent_plastic_strain >
              state.equivalent_plastic_strain);
        CHECK(update_tangent_error<dim>(F, state, zone) < 1e-6);
      }
      // Elastic unloading within a plastic history.
      state         = j2_update<dim>(F, state, zone).state;
      bool unloaded = false;
      for (int attempt = 0; attempt < 20 && !unloaded; ++attempt)
      {
        const Matrix3 back = product(random_deformation<dim>(random, 3e-4), F);
        unloaded           = j2_update<dim>(back, state, zone).plastic_work == 0;
        if (unloaded)
          CHECK(update_tangent_error<dim>(back, state, zone) < 1e-6);
      }
      CHECK(unloaded);
    }
  }
}

TEMPLATE_TEST_CASE_SIG("The tangent holds where principal stretches coincide",
                       "[unit][material][tangent]", ((int dim), dim), 2, 3)
{
  const ZoneMaterial zone = steel(voce());
  const double       near = 1 + 1e-9; // a difference quotient of its own would fail here
  for (const Matrix3 &F : {unit, Matrix3{{{1.001, 0, 0}, {0, 1.001, 0}, {0, 0, 1}}},
                           Matrix3{{{1.02, 0, 0}, {0, 1.02, 0}, {0, 0, 1}}},
                           Matrix3{{{1.02, 0, 0}, {0, 1.02 * near, 0}, {0, 0, 1}}},
                           Matrix3{{{1.05, 0, 0}, {0, 1, 0}, {0, 0, 1}}}, about_z(0.4)})
    CHECK(update_tangent_error<dim>(F, {}, zone) < 1e-6);
}

TEST_CASE("The plane update is the spatial one without strain across", "[unit][material]")
{
  std::mt19937       random(17);
  const ZoneMaterial zone = steel(voce());
  for (int i = 0; i < 50; ++i)
  {
    PlasticState plane, space;
    Matrix3      F = unit;
    for (int step = 0; step < 4; ++step)
    {
      F            = product(random_deformation<2>(random, 0.04), F);
      const auto a = j2_update<2>(F, plane, zone);
      const auto b = j2_update<3>(F, space, zone);
      CHECK(worst(a.kirchhoff, b.kirchhoff) < 1e-8);
      CHECK(a.state.equivalent_plastic_strain ==
            Approx(b.state.equivalent_plastic_strain).margin(1e-13));
      CHECK(a.elastic_energy == Approx(b.elastic_energy).epsilon(1e-10));
      CHECK(a.plastic_work == Approx(b.plastic_work).margin(1e-10));
      for (std::size_t k = 0; k < 6; ++k)
        CHECK(a.state.inverse_plastic_metric[k] ==
              Approx(b.state.inverse_plastic_metric[k]).margin(1e-12));
      for (std::size_t r = 0; r < 4; ++r)
        for (std::size_t s = 0; s < 4; ++s)
          CHECK(a.tangent[r][s] ==
                Approx(b.tangent[r / 2 * 3 + r % 2][s / 2 * 3 + s % 2]).margin(1e-4));
      plane = a.state;
      space = b.state;
    }
  }
}

TEST_CASE("Turning a virgin point around gives neither stress nor flow", "[unit][material]")
{
  const ZoneMaterial zone = steel(perfect(250));
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
  const ZoneMaterial zone = steel(voce());
  for (int i = 0; i < 10; ++i)
  {
    const Matrix3      first = random_deformation<3>(random, 0.05);
    const PlasticState state = j2_update<3>(first, {}, zone).state;
    const Matrix3      F     = product(random_deformation<3>(random, 0.02), first);
    const auto         still = j2_update<3>(F, state, zone);
    for (int degree = 0; degree <= 360; degree += 45)
    {
      const Matrix3 turn     = about_skew_axis(degree * pi / 180);
      const auto    turned   = j2_update<3>(product(turn, F), state, zone);
      const Matrix3 expected = product(turn, product(still.kirchhoff, transposed(turn)));
      CHECK(worst(turned.kirchhoff, expected) < 1e-8);
      CHECK(turned.state.equivalent_plastic_strain ==
            Approx(still.state.equivalent_plastic_strain).epsilon(1e-12));
    }
  }
}

TEST_CASE("A pulled bar follows its flow curve, whatever the law", "[unit][material]")
{
  const double E = 210000;
  for (const FlowCurve &flow : all_laws())
  {
    const ZoneMaterial zone = steel(flow);
    for (const double direction : {1., -1.})
    {
      PlasticState state;
      for (int step = 1; step <= 10; ++step)
      {
        const double strain = direction * 0.02 * step;
        const auto   result = pulled<3>(strain, 2, state, zone);
        state               = result.state;
        const double p      = state.equivalent_plastic_strain;
        INFO("law " << to_text(flow.law) << ", strain " << strain);
        CHECK(direction * result.kirchhoff[0][0] == Approx(flow.stress(p)).epsilon(1e-9));
        // Log strains add up: total = plastic + stress / E.
        CHECK(direction * strain == Approx(p + flow.stress(p) / E).epsilon(1e-8));
      }
    }
  }
}

TEST_CASE("A bar's tensile force follows the published law of the necking benchmark",
          "[unit][material]")
{
  // Simo & Hughes (1998), Computational Inelasticity, round bar: E 206.9 GPa, nu .29, flow
  // stress 450 + 265 (1 - exp(-16.93 p)) + 129.24 p; area 129.20 mm^2. Forces and half
  // elongations of a bar 2 x 26.667 mm before it necks: F = A0 s exp(-(p + s/E)), evaluated
  // outside this project's code.
  const double E = 206900, nu = 0.29;
  FlowCurve    flow;
  flow.law        = HardeningLaw::voce;
  flow.yield      = 450;
  flow.saturation = 265;
  flow.rate       = 16.93;
  flow.hardening  = 129.24;
  const ZoneMaterial zone{E / (2 * (1 + nu)), E / (3 * (1 - 2 * nu)), flow};
  const double       half = 26.667, area = 129.20;
  const struct
  {
    double p, force, elongation;
  } published[] = {{0.01, 62.86e3, 0.332}, {0.05, 74.48e3, 1.450}, {0.10, 79.14e3, 2.902}};
  for (const auto &row : published)
  {
    const double stretch = 1 + row.elongation / half;
    const auto   result  = pulled<3>(std::log(stretch), 2, {}, zone);
    CHECK(result.state.equivalent_plastic_strain == Approx(row.p).margin(5e-5));
    CHECK(area * result.kirchhoff[0][0] / stretch == Approx(row.force).epsilon(3e-4));
  }
}

TEST_CASE("Pulled in plane strain, a bar yields at 1.125 Y and goes on to 1.155 Y",
          "[unit][material]")
{
  // Mises in plane strain: first yield at Y / sqrt(1 - nu + nu^2), later 2 Y / sqrt(3);
  // textbook (Hill 1950, The Mathematical Theory of Plasticity, ch. II).
  const double       Y = 250, E = 210000, nu = 0.3;
  const ZoneMaterial zone  = steel(perfect(Y));
  const double       first = Y / std::sqrt(1 - nu + nu * nu);
  const double       edge  = first * (1 - nu * nu) / E;
  const auto         below = pulled<2>(edge * 0.9999, 1, {}, zone),
             above         = pulled<2>(edge * 1.0001, 1, {}, zone);
  CHECK(below.state.equivalent_plastic_strain == 0);
  CHECK(above.state.equivalent_plastic_strain > 0);
  CHECK(below.kirchhoff[0][0] == Approx(1.1251 * Y).epsilon(2e-4));
  PlasticState state;
  double       stress = 0;
  for (int step = 1; step <= 100; ++step)
  {
    const auto result = pulled<2>(edge + 5e-4 * step, 1, state, zone);
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
  const ZoneMaterial zone = steel(perfect(Y));
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
  const ZoneMaterial zone = steel(voce());
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
          CHECK(mises(result.kirchhoff) == Approx(flow.stress(p)).epsilon(1e-8));
        else
          CHECK(mises(result.kirchhoff) <= flow.stress(0) * (1 + 1e-12));
      }
    // A stretch of e^3 in one step, and a bare touch of the yield surface.
    for (const double strain : {3.0, -3.0})
    {
      const Matrix3 F      = {{{std::exp(strain), 0, 0},
                               {0, std::exp(-strain / 2), 0},
                               {0, 0, std::exp(-strain / 2)}}};
      const auto    result = j2_update<3>(F, {}, zone);
      const double  p      = result.state.equivalent_plastic_strain;
      CHECK(mises(result.kirchhoff) == Approx(flow.stress(p)).epsilon(1e-8));
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
  const ZoneMaterial zone = steel(voce());
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
  const ZoneMaterial zone = steel(perfect(1e9));
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
