// What a point is made of: one zone's metal, or two mixed. By hand, and against the two
// laws that are mixed. Metals are invented.

#include "tests/support/flow_curves.h"
#include "tests/support/update_quotient.h"

#include <catch2/catch.hpp>

#include <stdexcept>

using namespace throughbend;

namespace
{
/// G 80 GPa, K 170 GPa; a backstress of up to `saturation` [MPa] at `rate` [-].
ZoneMaterial zone_of(const double yield, const double hardening,
                     const double saturation = 0, const double rate = 30)
{
  return {80000, 170000, voce_hardening(yield, 150, 20, hardening), {saturation, rate}};
}
} // namespace

TEST_CASE("A mix lies between its two metals, and says what its update needs",
          "[unit][material]")
{
  const ZoneMaterial  soft = zone_of(200, 100), strong = zone_of(400, 300);
  const PointMaterial mix(soft, strong, 0.25);
  for (const double p : {0., 0.02, 0.3})
  {
    CHECK(mix.flow(p).stress ==
          Approx(0.75 * soft.flow.stress(p) + 0.25 * strong.flow.stress(p)));
    CHECK(mix.flow(p).slope ==
          Approx(0.75 * soft.flow.at(p).slope + 0.25 * strong.flow.at(p).slope));
  }
  CHECK(mix.symmetric());
  CHECK(mix.state_size() == 7); // C_p^-1 and p
  CHECK(PointMaterial(soft, strong, 0).flow(0.1).stress == soft.flow.stress(0.1));
  CHECK(PointMaterial(soft, strong, 1).flow(0.1).stress == Approx(strong.flow.stress(0.1)));
  CHECK_THROWS_AS(PointMaterial(soft, strong, 1.01), std::invalid_argument);
  CHECK_THROWS_AS(PointMaterial(soft, strong, -0.01), std::invalid_argument);
}

TEST_CASE("A mix has the backstress of its metals, each by its share", "[unit][material]")
{
  const ZoneMaterial  plain = zone_of(400, 300), shifting = zone_of(200, 100, 60);
  const PointMaterial mix(shifting, plain, 0.25), other(plain, shifting, 0.25);
  CHECK(mix.kinematic().saturation == Approx(45));
  CHECK(other.kinematic().saturation == Approx(15));
  CHECK(mix.kinematic().rate == 30);
  CHECK(other.kinematic().rate == 30);
  CHECK_FALSE(mix.symmetric());
  CHECK(mix.state_size() == 13); // and the back strain
  CHECK(PointMaterial(plain, shifting, 0).symmetric());
  CHECK(PointMaterial(shifting, plain, 1).symmetric());
  const double p = 0.04, X = 45 * (1 - std::exp(-30 * p));
  CHECK(mix.isotropic_part(p).stress == Approx(mix.flow(p).stress - X));
  CHECK_THROWS_AS(PointMaterial(shifting, zone_of(200, 100, 60, 31), 0.5),
                  std::invalid_argument);
}

TEST_CASE("In a first pull a mix with a backstress follows the mixed flow curve, and "
          "yields early on the way back",
          "[unit][material]")
{
  const ZoneMaterial  a = zone_of(200, 100, 60), b = zone_of(400, 300, 90);
  const ZoneMaterial  a_plain = zone_of(200, 100), b_plain = zone_of(400, 300);
  const PointMaterial mix(a, b, 0.4), plain(a_plain, b_plain, 0.4);
  PlasticState        state, state_plain;
  Matrix3             F = unit;
  for (int step = 1; step <= 20; ++step)
  {
    F                      = {{{1, 0.005 * step, 0}, {0, 1, 0}, {0, 0, 1}}};
    const J2Result<2> with = plastic_update<2>(F, state, mix),
                      none = plastic_update<2>(F, state_plain, plain);
    CHECK(von_mises(with.kirchhoff) ==
          Approx(mix.flow(with.state.equivalent_plastic_strain).stress).epsilon(2e-3));
    CHECK(von_mises(with.kirchhoff) == Approx(von_mises(none.kirchhoff)).epsilon(2e-3));
    state       = with.state;
    state_plain = none.state;
  }
  // Back by less than twice the yield shear: with a backstress it flows, without not.
  const double  back = 1.8 * plain.flow(0.058).stress / std::sqrt(3.) / 80000;
  const Matrix3 B    = {{{1, 0.1 - back, 0}, {0, 1, 0}, {0, 0, 1}}};
  CHECK(plastic_update<2>(B, state_plain, plain).plastic_work == 0);
  CHECK(plastic_update<2>(B, state, mix).plastic_work > 0);
}

TEST_CASE("The tangent of a mix is the derivative of its stress, with a backstress in both "
          "metals, in one, in none",
          "[unit][material]")
{
  const ZoneMaterial soft = zone_of(200, 100), strong = zone_of(400, 300),
                     soft_back = zone_of(200, 100, 60), strong_back = zone_of(400, 300, 90);
  const Matrix3 first = {{{1.03, 0.02, 0}, {0.01, 0.98, 0}, {0, 0, 1}}};
  const Matrix3 then  = {{{1.02, 0.04, 0}, {0.02, 0.97, 0}, {0, 0, 1}}};
  for (const PointMaterial &mix :
       {PointMaterial(soft, strong, 0.3), PointMaterial(soft_back, strong, 0.3),
        PointMaterial(soft, strong_back, 0.3), PointMaterial(soft_back, strong_back, 0.3)})
  {
    const PlasticState state = plastic_update<2>(first, {}, mix).state;
    CHECK(update_tangent_error<2>(then, state, mix) < 1e-6);
    CHECK(update_tangent_error<3>(then, state, mix) < 1e-6);
  }
}
