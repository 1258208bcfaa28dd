// The update with a backstress against the closed form of its law, difference quotients,
// objectivity and j2_update. Numbers of the metals are invented.

#include "tests/support/update_quotient.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <vector>

using namespace throughbend;

namespace
{
constexpr double pi = 3.14159265358979323846, E = 210000, nu = 0.3;

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

double worst(const Symmetric3 &a, const Symmetric3 &b)
{
  return worst(full(a), full(b));
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

ZoneMaterial steel(const FlowCurve &flow, double saturation, double rate)
{
  return {E / (2 * (1 + nu)), E / (3 * (1 - 2 * nu)), flow, {saturation, rate}};
}

FlowCurve voce(double yield, double saturation, double rate, double hardening)
{
  FlowCurve flow;
  flow.law        = HardeningLaw::voce;
  flow.yield      = yield;
  flow.saturation = saturation;
  flow.rate       = rate;
  flow.hardening  = hardening;
  return flow;
}

/// All hardening is kinematic: the yield surface keeps its size.
ZoneMaterial purely_kinematic(double yield, double saturation, double rate)
{
  return steel(voce(yield, saturation, rate, 0), saturation, rate);
}

std::vector<ZoneMaterial> mixed_metals()
{
  FlowCurve swift;
  swift.law       = HardeningLaw::swift;
  swift.strength  = 759;
  swift.prestrain = 0.00388;
  swift.exponent  = 0.2;
  FlowCurve table;
  table.law    = HardeningLaw::table;
  table.points = {{0, 260}, {0.02, 330}, {0.1, 410}, {0.3, 470}};
  FlowCurve formula;
  formula.law                = HardeningLaw::formula;
  formula.formula.expression = "s0*(1 + p/e0)^n";
  formula.formula.constants =
      read_formula_constants("s0:280 MPa, e0:0.004, n:0.15").constants;
  tabulate(formula.formula);
  FlowCurve perfect;
  perfect.yield = 345; // its surface shrinks as it shifts
  return {steel(voce(250, 200, 12, 150), 120, 30),
          purely_kinematic(250, 150, 60),
          steel(swift, 100, 80),
          steel(table, 60, 400),
          steel(perfect, 90, 5),
          steel(formula, 80, 50)};
}

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

/// Axial log strain, sides free, by bisection on the lateral stretch.
J2Result<3> pulled(double strain, const PlasticState &old, const ZoneMaterial &zone)
{
  double      low = -0.2, high = 0.2;
  J2Result<3> result;
  for (int i = 0; i < 60; ++i)
  {
    const double  side = std::exp((low + high) / 2);
    const Matrix3 F    = {{{std::exp(strain), 0, 0}, {0, side, 0}, {0, 0, side}}};
    result             = plastic_update<3>(F, old, zone);
    (result.kirchhoff[1][1] < 0 ? low : high) = (low + high) / 2;
  }
  return result;
}

/// Stress at the end of a branch that begins at plastic strain e_0 and backstress x and
/// goes in direction v to total strain e, yield surface of constant size (Lemaitre &
/// Chaboche 1990, sec. 5.4.4): X = v S + (x - v S) exp(-v rate (e_p - e_0)).
struct Branch
{
  double stress, plastic_strain, backstress;
};

Branch branch(const Branch &start, double e, double yield, double saturation, double rate)
{
  const double v       = e > start.plastic_strain + start.stress / E ? 1 : -1;
  const auto   shifted = [&](double plastic)
  {
    return v * saturation + (start.backstress - v * saturation) *
                                std::exp(-v * rate * (plastic - start.plastic_strain));
  };
  double low = start.plastic_strain, high = start.plastic_strain;
  (v > 0 ? high : low) += v * 0.1;
  for (int i = 0; i < 200; ++i)
  {
    const double middle = (low + high) / 2;
    // v yield + X(e_p) - E (e - e_p) rises with e_p.
    (v * yield + shifted(middle) - E * (e - middle) < 0 ? low : high) = middle;
  }
  return {E * (e - low), low, shifted(low)};
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
      CHECK(update_tangent_error<dim>(random_deformation<dim>(random, 2e-4), {}, zone) <
            1e-6);
      PlasticState state;
      Matrix3      F = random_deformation<dim>(random, 0.05);
      CHECK(update_tangent_error<dim>(F, state, zone) < 1e-6);
      for (int step = 0; step < 3; ++step)
      {
        state = plastic_update<dim>(F, state, zone).state;
        F     = product(random_deformation<dim>(random, step == 1 ? 0.005 : 0.08), F);
        if (step == 2)
          F = product(dim == 2 ? about_z(2 * pi / 3) : about_skew_axis(2 * pi / 3), F);
        if (step != 1) // a small step may also go back
          CHECK(plastic_update<dim>(F, state, zone).state.equivalent_plastic_strain >
                state.equivalent_plastic_strain);
        CHECK(update_tangent_error<dim>(F, state, zone) < 1e-6);
      }
      state         = plastic_update<dim>(F, state, zone).state;
      bool unloaded = false;
      for (int attempt = 0; attempt < 20 && !unloaded; ++attempt)
      {
        const Matrix3 back = product(random_deformation<dim>(random, 3e-4), F);
        unloaded           = plastic_update<dim>(back, state, zone).plastic_work == 0;
        if (unloaded)
          CHECK(update_tangent_error<dim>(back, state, zone) < 1e-6);
      }
      CHECK(unloaded);
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
  ZoneMaterial mixed = steel(voce(250, 200, 12, 150), 1e-9, 20), plain = mixed;
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
  {
    PlasticState plane, space;
    Matrix3      F = unit;
    for (int step = 0; step < 6; ++step)
    {
      F            = product(random_deformation<2>(random, 0.04), F);
      const auto a = plastic_update<2>(F, plane, zone);
      const auto b = plastic_update<3>(F, space, zone);
      CHECK(worst(a.kirchhoff, b.kirchhoff) < 1e-8);
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
}

TEST_CASE("A rotation on top turns the stress and leaves the state alone",
          "[unit][material]")
{
  std::mt19937 random(23);
  for (const ZoneMaterial &zone : mixed_metals())
  {
    const Matrix3      first = random_deformation<3>(random, 0.05);
    const PlasticState state = plastic_update<3>(first, {}, zone).state;
    const Matrix3      F     = product(random_deformation<3>(random, 0.02), first);
    const auto         still = plastic_update<3>(F, state, zone);
    for (int degree = 0; degree <= 360; degree += 45)
    {
      const Matrix3 turn     = about_skew_axis(degree * pi / 180);
      const auto    turned   = plastic_update<3>(product(turn, F), state, zone);
      const Matrix3 expected = product(turn, product(still.kirchhoff, transposed(turn)));
      CHECK(worst(turned.kirchhoff, expected) < 1e-8);
      CHECK(worst(turned.state.back_strain, still.state.back_strain) < 1e-13);
      CHECK(worst(turned.state.inverse_plastic_metric, still.state.inverse_plastic_metric) <
            1e-13);
    }
    // A loaded point that is only turned goes on as if nothing had happened.
    const auto later = plastic_update<3>(product(about_skew_axis(2), F), still.state, zone);
    CHECK(later.plastic_work == Approx(0).margin(1e-9));
  }
}

TEST_CASE("A first pull follows the flow curve whatever part of it is kinematic",
          "[unit][material]")
{
  for (const ZoneMaterial &zone : mixed_metals())
    for (const double direction : {1., -1.})
      for (const int steps : {1, 10})
      {
        PlasticState state;
        for (int step = 1; step <= steps; ++step)
        {
          const double strain = direction * 0.15 * step / steps;
          const auto   result = pulled(strain, state, zone);
          state               = result.state;
          const double p      = state.equivalent_plastic_strain;
          INFO("law " << to_text(zone.flow.law) << ", strain " << strain);
          CHECK(direction * result.kirchhoff[0][0] ==
                Approx(zone.flow.stress(p)).epsilon(1e-9));
          CHECK(direction * strain == Approx(p + zone.flow.stress(p) / E).epsilon(1e-8));
        }
      }
}

TEST_CASE("Between fixed strains the stress runs along the closed form of the law",
          "[unit][material]")
{
  const double Y = 250, S = 150, rate = 60, amplitude = 0.01;
  const auto   zone = purely_kinematic(Y, S, rate);
  for (const int steps : {1, 7}) // per branch: the update integrates the law exactly
  {
    PlasticState state;
    Branch       closed{0, 0, 0};
    double       last = 0;
    for (int turn = 0; turn < 12; ++turn)
    {
      const double target = turn % 2 == 0 ? amplitude : -amplitude;
      double       stress = 0;
      for (int step = 1; step <= steps; ++step)
      {
        const auto result = pulled(last + (target - last) * step / steps, state, zone);
        state             = result.state;
        stress            = result.kirchhoff[0][0];
      }
      last   = target;
      closed = branch(closed, target, Y, S, rate);
      INFO("branch " << turn << " in " << steps << " steps");
      CHECK(stress == Approx(closed.stress).epsilon(1e-7));
    }
    // Stabilised: stress amplitude = Y + C / gamma tanh(gamma (plastic range) / 2).
    const double range = 2 * (amplitude - std::abs(closed.stress) / E);
    const double loop  = Y + S * std::tanh(rate * range / 2);
    CHECK(std::abs(pulled(last, state, zone).kirchhoff[0][0]) ==
          Approx(loop).epsilon(1e-6));
  }
}

TEST_CASE("On reversal the metal yields as much earlier as it has shifted",
          "[unit][material]")
{
  for (const ZoneMaterial &zone : mixed_metals())
  {
    const auto   forward = pulled(0.03, {}, zone);
    const double p       = forward.state.equivalent_plastic_strain;
    const double shift   = zone.kinematic.monotonic(p).stress;
    const double drop    = 2 * (zone.flow.stress(p) - shift); // size of the surface
    const double edge    = 0.03 - drop / E;
    CHECK(pulled(edge + 1e-7, forward.state, zone).plastic_work == 0);
    CHECK(pulled(edge - 1e-7, forward.state, zone).state.equivalent_plastic_strain > p);
  }
}

TEST_CASE("In simple shear the stress rises without swinging", "[unit][material]")
{
  // With the corotational rate of Jaumann it swings: Nagtegaal & de Jong (1982); Lee,
  // Mallett & Wertheimer (1983) J. Appl. Mech. 50, 554.
  for (const double rate : {0.2, 1., 20.})
  {
    const double Y = 250, S = 150;
    const auto   zone = purely_kinematic(Y, S, rate);
    PlasticState state;
    double       last = 0;
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
      CHECK(last == Approx((Y + S) / std::sqrt(3.)).epsilon(2e-3));
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
      const auto   result = pulled(strain, state, zone);
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
