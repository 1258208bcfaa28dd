// The laws at one contact point against their own definitions: derivatives by difference
// quotients, Coulomb's cone, and dissipation that never turns negative.

#include "solver/mechanics/contact_law.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace throughbend;

namespace
{
constexpr ContactStiffness spring{105000, 52500, 2e-3, 5e-3};

/// The response where the spring is compressed by d [mm].
NormalResponse pressed(double d, const ContactStiffness &stiffness)
{
  return normal_response(stiffness.band - d, stiffness);
}

double size(const Tangential &t)
{
  return std::hypot(t[0], t[1]);
}
} // namespace

TEST_CASE("Outside the contact band there is no pressure", "[unit][contact]")
{
  for (const double d : {-1e30, -1.0, -1e-9, 0.0})
  {
    const NormalResponse none = pressed(d, spring);
    CHECK(none.pressure == 0);
    CHECK(none.slope == 0);
    CHECK(none.energy == 0);
  }
}

TEST_CASE("Pressure is the derivative of the energy and the slope that of the pressure",
          "[unit][contact]")
{
  const double onset = spring.onset;
  for (const double d :
       {0.01 * onset, 0.5 * onset, 0.99 * onset, 1.01 * onset, 3 * onset, 100 * onset})
  {
    const double         h  = 1e-4 * d;
    const NormalResponse at = pressed(d, spring), up = pressed(d + h, spring),
                         down = pressed(d - h, spring);
    CHECK((up.energy - down.energy) / (2 * h) == Approx(at.pressure).epsilon(1e-5));
    CHECK((up.pressure - down.pressure) / (2 * h) == Approx(at.slope).epsilon(1e-5));
  }
}

TEST_CASE("The spring starts softly, has no jump where it becomes firm, and is firm beyond",
          "[unit][contact]")
{
  const double onset = spring.onset;
  for (const double d : {0., onset})
  {
    const double         h    = 1e-9 * onset;
    const NormalResponse down = pressed(d - h, spring), up = pressed(d + h, spring);
    CHECK(up.pressure - down.pressure == Approx(0).margin(4 * h * spring.normal));
    CHECK(up.slope - down.slope == Approx(0).margin(1e-6 * spring.normal));
    CHECK(up.energy - down.energy ==
          Approx(0).margin(1e-6 * spring.normal * onset * onset));
  }
  CHECK(pressed(5 * onset, spring).slope == Approx(spring.normal));
  CHECK(pressed(0.1, spring).pressure == Approx(spring.normal * (0.1 - onset / 2)));
}

TEST_CASE("A spring without onset is a plain one", "[unit][contact]")
{
  const ContactStiffness plain{1000, 500, 0, 0};
  CHECK(pressed(0.02, plain).pressure == Approx(20));
  CHECK(pressed(0.02, plain).energy == Approx(0.2));
  CHECK(pressed(0, plain).pressure == 0);
}

TEST_CASE("Friction stays in Coulomb's cone and slips only on it", "[unit][contact]")
{
  std::mt19937                           random(41);
  std::uniform_real_distribution<double> stress(-60, 60), slip(-2e-3, 2e-3), p(0, 500),
      mu(0, 0.4);
  int sticking = 0, slipping = 0;
  for (int i = 0; i < 2000; ++i)
  {
    const Tangential old{stress(random), stress(random)}, step{slip(random), slip(random)};
    const double     pressure = p(random), friction = mu(random);
    const auto       now = friction_response(old, step, pressure, friction, spring);
    CHECK(size(now.stress) <= friction * pressure * (1 + 1e-12));
    (now.slipping ? slipping : sticking) += 1;
    if (now.slipping)
    {
      CHECK(size(now.stress) == Approx(friction * pressure).margin(1e-12));
      // Along the trial direction.
      const Tangential trial{old[0] - spring.tangential * step[0],
                             old[1] - spring.tangential * step[1]};
      CHECK(trial[0] * now.stress[1] - trial[1] * now.stress[0] ==
            Approx(0).margin(1e-9 * size(trial) * (1 + size(now.stress))));
      CHECK(trial[0] * now.stress[0] + trial[1] * now.stress[1] >= 0);
    }
    else
      for (std::size_t k = 0; k < 2; ++k)
        CHECK(now.stress[k] == Approx(old[k] - spring.tangential * step[k]));
  }
  CHECK(sticking > 100);
  CHECK(slipping > 100);
}

TEST_CASE("Friction's derivatives are its difference quotients in stick and in slip",
          "[unit][contact]")
{
  std::mt19937                           random(43);
  std::uniform_real_distribution<double> stress(-40, 40), slip(-1.5e-3, 1.5e-3), p(20, 500);
  const double                           mu         = 0.15;
  int                                    checked[2] = {0, 0};
  for (int i = 0; i < 500; ++i)
  {
    const Tangential old{stress(random), stress(random)}, step{slip(random), slip(random)};
    const double     pressure = p(random);
    const auto       now      = friction_response(old, step, pressure, mu, spring);
    const auto       go       = [&](double d0, double d1, double dp) {
      return friction_response(old, {step[0] + d0, step[1] + d1}, pressure + dp, mu,
                                           spring);
    };
    const double h = 1e-9, hp = 1e-4;
    const auto   up0 = go(h, 0, 0), down0 = go(-h, 0, 0), up1 = go(0, h, 0),
               down1 = go(0, -h, 0), up_p = go(0, 0, hp), down_p = go(0, 0, -hp);
    bool smooth = true;
    for (const auto *other : {&up0, &down0, &up1, &down1, &up_p, &down_p})
      smooth = smooth && other->slipping == now.slipping;
    if (!smooth)
      continue;
    ++checked[now.slipping];
    for (std::size_t k = 0; k < 2; ++k)
    {
      const double margin = 1e-5 * spring.tangential;
      CHECK((up0.stress[k] - down0.stress[k]) / (2 * h) ==
            Approx(now.by_slip[k][0]).margin(margin));
      CHECK((up1.stress[k] - down1.stress[k]) / (2 * h) ==
            Approx(now.by_slip[k][1]).margin(margin));
      CHECK((up_p.stress[k] - down_p.stress[k]) / (2 * hp) ==
            Approx(now.by_pressure[k]).margin(1e-7));
    }
  }
  CHECK(checked[0] > 50);
  CHECK(checked[1] > 50);
}

TEST_CASE("Sliding never gives energy", "[unit][contact]")
{
  // Slip that the tangential spring does not hold, times the stress against it.
  std::mt19937                           random(47);
  std::uniform_real_distribution<double> slip(-3e-3, 3e-3), p(0, 400);
  Tangential                             old{};
  for (int i = 0; i < 3000; ++i)
  {
    const Tangential step{slip(random), slip(random)};
    const auto       now  = friction_response(old, step, p(random), 0.2, spring);
    double           lost = 0;
    for (std::size_t k = 0; k < 2; ++k)
      lost -= now.stress[k] * (step[k] + (now.stress[k] - old[k]) / spring.tangential);
    CHECK(lost >= -1e-12);
    old = now.stress;
  }
}

TEST_CASE("A slippery tool and an unloaded one rub at nothing", "[unit][contact]")
{
  const auto slippery = friction_response({0, 0}, {0.1, 0}, 300, 0, spring);
  CHECK(slippery.stress[0] == 0);
  CHECK(slippery.by_slip[0][0] == 0);
  const auto unloaded = friction_response({5, 0}, {0.1, 0}, 0, 0.3, spring);
  CHECK(unloaded.stress[0] == 0);
  // Nothing moved, nothing held, no friction: no division by zero.
  const auto still = friction_response({0, 0}, {0, 0}, 0, 0, spring);
  CHECK(std::isfinite(still.stress[0]));
  CHECK(still.stress[0] == 0);
}
