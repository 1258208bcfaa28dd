// Bounds and bands of the closed forms against passes of coupons unlike case R.

#include "solver/screening/screening.h"
#include "tests/support/flow_curves.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

using namespace throughbend;

TEST_CASE("Bounds of stretch and release hold for coupons unlike R", "[unit][screening]")
{
  // Passes of this program, standard mesh, of cases drawn at random (Voce steels, metric):
  // speed if all that was let go became motion, springback of a leg, largest stretch.
  struct Pass
  {
    double length, width, thickness, yield, saturation, rate, hardening, young;
    double plunger, radius, opening, on_plunger, on_shoulders;
    double speed, springback, stretch; ///< [m/s], [deg], [-]
  };
  for (const Pass &pass : {Pass{124.9, 16, 3, 690, 350, 12, 150, 200e3, 19.8, 4.03, 30.06,
                                0.22, 0.04, 14.21, 9.42, 0.158},
                           Pass{142.6, 20, 6, 690, 100, 30, 300, 200e3, 12, 13.82, 27.98,
                                0.03, 0.26, 12.02, 4.65, 1.032},
                           Pass{114, 17, 3, 900, 100, 12, 0, 200e3, 6, 8.71, 16.16, 0.09,
                                0.18, 13.48, 8.1, 2.38},
                           Pass{162.8, 22, 3, 350, 200, 12, 150, 70e3, 9, 7.83, 18.25, 0.02,
                                0.06, 8.26, 11.96, 0.357},
                           Pass{231.4, 38, 8, 460, 200, 12, 150, 70e3, 16, 22.59, 36.68,
                                0.19, 0.28, 11.95, 9.41, 0.573},
                           Pass{232.2, 139, 15, 900, 200, 5, 0, 200e3, 99, 14.97, 132.18,
                                0.05, 0.21, 11.19, 1.91, 0.235},
                           Pass{415.9, 103, 25, 180, 0, 12, 150, 70e3, 125, 47.08, 177.23,
                                0.08, 0.25, 4.65, 1.6, 0.286}})
  {
    Case c           = reference_case();
    c.coupon         = {pass.length, pass.width, pass.thickness, 0};
    c.material.young = pass.young;
    c.material.flow =
        voce_hardening(pass.yield, pass.saturation, pass.rate, pass.hardening);
    c.fixture.plunger.width       = pass.plunger;
    c.fixture.plunger.nose_radius = pass.plunger / 2;
    c.fixture.shoulders.radius    = pass.radius;
    c.fixture.shoulders.opening   = pass.opening;
    c.friction.plunger            = pass.on_plunger;
    c.friction.shoulders          = pass.on_shoulders;
    const Screening screening     = screen(c);
    const auto      line          = [&](const char *key) -> const ScreenLine &
    {
      const ScreenLine *const found = screening.find(key);
      REQUIRE(found != nullptr);
      return *found;
    };
    INFO("t " << pass.thickness << ", plunger " << pass.plunger);
    CHECK(line("ejection_speed").value > pass.speed);
    CHECK(*line("springback").low < pass.springback);
    CHECK(*line("springback").high > pass.springback);
    // Without an upper end where the metal hardens too little.
    const auto &most = line("outer_elongation").high;
    CHECK((!most || *most > pass.stretch));
  }
}

TEST_CASE("Tight noses, slick noses and sharp shoulders keep within the bands of catalogue "
          "metals",
          "[unit][screening]")
{
  // Passes of this program, standard mesh; metals from the catalogue (s355, 304-annealed-2,
  // 304-annealed). Each lay outside one band before: springback of at most 1.59 deg,
  // stretch of at most 13.0 %, force of at most 149 kN.
  struct Pass
  {
    FlowCurve flow;
    double    young;
    double    length, width, thickness, plunger, radius, opening, friction;
    double    springback, stretch, force; ///< [deg], [-], [N]
  };
  for (const Pass &pass : {Pass{swift_hardening(702.9, 0.0068322, 0.137), 205e3, 38.115, 36,
                                3, 4.5, 1.5, 11.1, 0.3, 1.808, 0.5625, 27433},
                           Pass{swift_hardening(1275, 0.002, 0.45), 193e3, 509.6, 192, 16,
                                128, 32, 172.8, 0.02, 3.117, 0.1391, 109944},
                           Pass{swift_hardening(1400, 0.002, 0.44), 193e3, 262.89, 144, 12,
                                96, 6, 121.2, 0.12, 2.509, 0.1202, 156157}})
  {
    Case c                        = reference_case();
    c.coupon                      = {pass.length, pass.width, pass.thickness, 0};
    c.material.young              = pass.young;
    c.material.flow               = pass.flow;
    c.fixture.plunger.width       = pass.plunger;
    c.fixture.plunger.nose_radius = pass.plunger / 2;
    c.fixture.shoulders.radius    = pass.radius;
    c.fixture.shoulders.opening   = pass.opening;
    c.friction                    = {pass.friction, pass.friction, pass.friction};
    const Screening screening     = screen(c);
    INFO("plunger " << pass.plunger);
    const auto holds = [&](const char *key, const double simulated)
    {
      const ScreenLine *const line = screening.find(key);
      REQUIRE(line != nullptr);
      INFO(key << " " << *line->low << " to " << *line->high);
      CHECK(*line->low < simulated);
      CHECK(*line->high > simulated);
    };
    holds("springback", pass.springback);
    holds("outer_elongation", pass.stretch);
    holds("peak_force", pass.force);
  }
}

TEST_CASE("Shoulders that are sharp for the thickness take the force that passes take",
          "[unit][screening]")
{
  // Passes of this program, standard mesh, of case R with other shoulders. Without the dent
  // that a sharp shoulder makes the band ended up to 17 % below them.
  struct Pass
  {
    double radius, friction;
    bool   rolls;
    double peak; ///< [N]
  };
  for (const Pass &pass : {Pass{5, 0.05, false, 37129}, Pass{2, 0.05, false, 44290},
                           Pass{5, 0.25, false, 45151}, Pass{2, 0.25, false, 51527},
                           Pass{2, 0.12, true, 44592}})
  {
    Case c                   = reference_case();
    c.fixture.shoulders.kind = pass.rolls ? ShoulderKind::rollers : ShoulderKind::solid;
    c.fixture.shoulders.rollers_turn  = pass.rolls;
    c.fixture.shoulders.radius        = pass.radius;
    c.fixture.shoulders.depth         = pass.radius + 25;
    c.friction                        = {pass.friction, pass.friction, pass.friction};
    const Screening         screening = screen(c);
    const ScreenLine *const peak      = screening.find("peak_force");
    REQUIRE(peak != nullptr);
    INFO("radius " << pass.radius << ", friction " << pass.friction);
    CHECK(*peak->low < pass.peak);
    CHECK(*peak->high > pass.peak);
    CHECK(peak->note == "sharp shoulders bite into the legs");
  }
  const Screening round = screen(reference_case());
  CHECK(round.find("peak_force")->note.empty());
}
