// The guided bend against a beam that was computed before this project had a solver and
// shares nothing with it: large rotations, moment over curvature from finite plane-strain
// bending, wrapping the nose, sliding over shoulders with friction, unloading elastically.

#include "solver/setup/set_up.h"
#include "tests/verify/ladder.h"
#include "tests/verify/pass_figures.h"
#include "tests/verify/small_jig.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>
#include <vector>

using namespace throughbend;

namespace
{
struct BeamRow
{
  double angle;     ///< of a leg at the shoulder [deg]
  double travel;    ///< [mm]
  double forces[4]; ///< at friction 0, 0.1, 0.2, 0.3 [kN]
  double wrap;      ///< per side [deg]
  double opening;   ///< of both legs on release there [deg]
};

const std::vector<BeamRow> beam           = {{5, 3.65, {16.5, 16.4, 16.4, 16.3}, 0, 1.8},
                                             {10, 7.26, {19.1, 19.2, 19.2, 19.3}, 0, 1.9},
                                             {20, 14.3, {22.0, 22.5, 22.9, 23.4}, 5.9, 2.1},
                                             {30, 20.6, {24.3, 25.3, 26.2, 27.1}, 18.3, 2.2},
                                             {40, 26.4, {26.0, 27.6, 29.1, 30.6}, 30.3, 2.4},
                                             {50, 31.9, {26.8, 29.2, 31.6, 33.8}, 42.0, 2.6},
                                             {60, 37.4, {25.9, 29.5, 32.9, 36.1}, 53.8, 2.8},
                                             {70, 43.4, {21.8, 26.8, 31.4, 35.8}, 64.7, 3.1},
                                             {75, 47.0, {17.4, 23.0, 28.2, 33.0}, 70.0, 3.2},
                                             {80, 52.0, {11.0, 16.7, 21.9, 26.9}, 74.9, 3.5},
                                             {83, 56.8, {6.6, 11.6, 16.4, 20.9}, 76.9, 3.7}};
constexpr double           wrap_moment    = 475;                      // [N m]
constexpr double           peaks[4]       = {26.8, 29.6, 32.9, 36.5}; // [kN]
constexpr double           peak_angles[4] = {51, 57, 61, 65};         // [deg]

// Without friction the crown leaves the nose in jerks, and near the default step the force
// at 83 degrees comes out up to 6 % too low at one length or another; at this one and at
// shorter ones it is the same within 1 % [mm].
constexpr double frictionless_step = 0.3;

// Where the moment peaks under the nose's last contact; see the note.
constexpr double steep = 80;

std::string degrees(double angle)
{
  return std::to_string(std::lround(angle)) + " deg";
}

double force(const PassSample &s)
{
  return s.ram_force / 1000;
}
} // namespace

TEST_CASE("The guided bend follows an independent beam at four frictions", "[verify]")
{
  Rung rung("beam_model", "Guided bend against an independent beam with contact",
            "Large-rotation beam with contact and friction, its moment over curvature from "
            "Hill's finite plane-strain bending with hardening, integrated independently "
            "before this project's code (computed)");
  rung.note(
      "Coupon 9.525 x 38.1 x 152.4 mm in the jig of 38.1/60.3 mm with radii of 19.05 "
      "mm; 700 (0.00412 + p)^0.1875 MPa, E 200 GPa, nu 0.3; friction on the shoulders "
      "alone. Compared at equal leg angle: ours is that of the straight end beyond the "
      "shoulder. Without friction in steps of 0.3 mm at most: the crown leaves the nose in "
      "jerks.");

  for (int k = 0; k < 4; ++k)
  {
    const double      friction = 0.1 * k;
    const std::string rubbed   = ", friction 0." + std::to_string(k);
    Case              c        = small_jig(friction);
    c.material.flow            = mild_steel();
    c.ram.stroke               = 60;
    if (friction == 0)
      c.solver.largest_step = frictionless_step;
    const PassRecord run = push(c);

    for (const BeamRow &row : beam)
      rung.row("force at " + degrees(row.angle) + rubbed + " [kN]", row.forces[k],
               at_angle(run, row.angle, force),
               within_percent(row.angle < steep || k == 0 ? 10 : 20));
    for (const BeamRow &row : beam)
    {
      if (row.angle < steep || k == 0)
        continue;
      // Of the beam: N at the shoulder, and what its wrapped section carries.
      const double radians = row.angle * 3.14159265358979323846 / 180;
      const double N =
          row.forces[k] / 2 / (std::cos(radians) + friction * std::sin(radians));
      rung.row("same, the beam's moment raised by N t/4, at " + degrees(row.angle) +
                   rubbed + " [kN]",
               row.forces[k] * (1 + N * c.coupon.thickness / 4 / wrap_moment),
               at_angle(run, row.angle, force), within_percent(10));
    }
    const Peak top = peak(run);
    rung.row("peak force" + rubbed + " [kN]", peaks[k], top.force * c.coupon.width / 1000,
             within_percent(10));
    rung.row("leg angle at the peak" + rubbed + " [deg]", peak_angles[k],
             at(run, top.travel, [](const PassSample &s) { return s.right.angle; }),
             within(5));
    if (k == 0)
      for (const BeamRow &row : beam)
        rung.row("travel at " + degrees(row.angle) + " [mm]", row.travel,
                 at_angle(run, row.angle, [](const PassSample &s) { return s.travel; }),
                 within(0.5));
    // Wrapped, a leg lags behind: the beam's by 5 to 14 degrees, a bar's by less.
    for (const BeamRow &row : beam)
      if (k == 1 && row.angle >= 20 && row.angle <= 60)
        rung.row("wrap per side at " + degrees(row.angle) + rubbed + " [deg]", row.wrap,
                 at_angle(run, row.angle, [](const PassSample &s) { return s.wrap / 2; }),
                 within(6));
    rung.row("largest energy error" + rubbed + " [-]", 0, largest_energy_error(run),
             no_more(0.005));
  }
  rung.note(
      "20 % at 80 deg and beyond with friction, where ours is the higher by 13 to 19 "
      "%: there the lever arm (13 mm) is hardly longer than the bar is thick, and the "
      "pull along the legs makes the moment peak where the nose touches. A bar spreads "
      "that load over its thickness, so the hinge lies about t/4 beside the peak and "
      "the moment at the peak is higher by up to N t/4, 17 % of the 475 N m that the "
      "wrapped section carries. A beam has no thickness to spread it over; its force "
      "raised by N t/4 is met within 10 %. Without friction the moment does not peak, and "
      "ours is within 8 % throughout. The mesh does not matter (6 layers "
      "and cells of 0.8 mm: 25.5 for 25.1 kN at 80 deg and 0.2). Reference case R, "
      "computed with solid elements twice, has no such difference at its steep angles.");
  rung.note(
      "Wrap: ours is the outermost place that touches, theirs the end of the stretch "
      "that has taken the nose's radius; the bar leaves the nose in between (gap 1 to "
      "4 mm) and touches further out.");

  for (const BeamRow &row : beam)
  {
    if (row.angle != 10 && row.angle != 40 && row.angle != 70 && row.angle != 80)
      continue;
    Case c               = small_jig(0);
    c.material.flow      = mild_steel();
    c.ram.stroke         = row.travel;
    const PassRecord run = push(c);
    REQUIRE(run.release.completed);
    rung.row("opening of both legs on release from " + degrees(row.angle) + " [deg]",
             row.opening, run.release.left_springback + run.release.right_springback,
             within(0.5));
  }
  rung.note("Springback: the tools are taken away at the reference's travel, no friction.");
}

TEST_CASE("Past the peak the force does not hang on the length of a step", "[verify]")
{
  // Guesses that carried a jerk of the crown on made the force 12 % too low at these two
  // lengths. Short steps are the measure.
  const auto at_80_degrees = [](double step)
  {
    Case c                = small_jig(0);
    c.material.flow       = mild_steel();
    c.ram.stroke          = 53;
    c.solver.largest_step = step;
    return at_angle(push(c), 80, force);
  };
  const double measure = at_80_degrees(frictionless_step);
  const double usual   = step_lengths(small_jig(0)).largest;
  for (const double step : {usual, 1.45})
  {
    INFO(step << " mm");
    CHECK(at_80_degrees(step) == Approx(measure).epsilon(0.05));
  }
}
