// The mechanics under `check` against values that were computed without any of this code
// (closed form, ODE or fibre integration), for the 3/8 in coupon on the 4t fixture of ASME
// IX QW-466.1: t = 9.525 mm, w = 38.1 mm, nose and shoulder radius 19.05 mm, opening
// 60.325 mm.

#include "solver/screening/bend_statics.h"
#include "solver/screening/finite_bending.h"
#include "solver/screening/force_band.h"
#include "solver/screening/guided_beam.h"
#include "solver/screening/plastic_moment.h"
#include "solver/screening/springback.h"
#include "tests/support/flow_curves.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace throughbend;

namespace
{
constexpr double   degree = 3.14159265358979323846 / 180;
constexpr double   t = 9.525, w = 38.1;
const BendGeometry jig{19.05, 19.05, t, 49.2125};

Material strip(double young, double hardening)
{
  Material m;
  m.young   = young;
  m.poisson = 0.3;
  m.flow    = linear_hardening(250, hardening);
  return m;
}

/// The flow curve of the independent fibre-beam model: 700 (0.00412 + p)^0.1875 MPa.
Material low_carbon()
{
  Material m;
  m.young   = 200000;
  m.poisson = 0.3;
  m.flow    = mild_steel();
  return m;
}
} // namespace

TEST_CASE("fully plastic moments by Hill 1950", "[unit][screening]")
{
  // Computed by hand from Y w t^2 / 4 and 2/sqrt3 of it, N m.
  struct Row
  {
    double yield, narrow, wide;
  };
  for (const Row &row : {Row{170, 146.9, 169.6},
                         {250, 216.0, 249.5},
                         {276, 238.5, 275.4},
                         {345, 298.1, 344.3},
                         {355, 306.8, 354.2},
                         {690, 596.3, 688.5}})
  {
    CHECK(plastic_moment(row.yield, w, t, WidthState::narrow) / 1000 ==
          Approx(row.narrow).margin(0.06));
    CHECK(plastic_moment(row.yield, w, t, WidthState::plane_strain) / 1000 ==
          Approx(row.wide).margin(0.06));
  }
  // 1 - (1/3)(kappa_e/kappa)^2, by hand.
  CHECK(moment_share(1) == Approx(2. / 3));
  CHECK(moment_share(0.5) == Approx(1. / 3));
  CHECK(moment_share(2) == Approx(0.9167).margin(5e-5));
  CHECK(moment_share(3) == Approx(0.9630).margin(5e-5));
  CHECK(moment_share(5) == Approx(0.9867).margin(5e-5));
  CHECK(moment_share(10) == Approx(0.9967).margin(5e-5));
}

TEST_CASE("finite bending of a strip agrees with an independent fibre integration",
          "[unit][screening]")
{
  // Hill 1950, ch. XI, extended to finite E; computed independently, converged with 401 and
  // 1601 points. Lengths over t0, moments over (2/sqrt3) Y t0^2 / 4.
  struct Row
  {
    double young, hardening, rotation, radius, thickness, out, in, moment;
  };
  const Row rows[] = {{200e3, 0, 0.1, 9.5127, 0.99880, 0.0499, -0.0500, 0.9974},
                      {200e3, 0, 0.2, 4.5187, 0.99661, 0.0981, -0.1012, 0.9930},
                      {200e3, 0, 0.3, 2.8547, 0.99444, 0.1439, -0.1550, 0.9887},
                      {200e3, 0, 0.4, 2.0233, 0.99228, 0.1875, -0.2116, 0.9844},
                      {200e3, 0, 0.5, 1.5249, 0.99012, 0.2291, -0.2712, 0.9801},
                      {200e3, 1000, 0.2, 4.5202, 0.99635, 0.0983, -0.1009, 1.2902},
                      {200e3, 1000, 0.4, 2.0320, 0.98943, 0.1894, -0.2073, 1.5638},
                      {200e3, 2000, 0.2, 4.5211, 0.99617, 0.0985, -0.1007, 1.5843},
                      {200e3, 2000, 0.4, 2.0369, 0.98783, 0.1905, -0.2049, 2.1338},
                      {2000e3, 0, 0.4, 2.0081, 0.99732, 0.1841, -0.2191, 0.994}};
  for (const Row &row : rows)
  {
    const BendCurve curve(strip(row.young, row.hardening), 1, 1.5);
    const BentStrip bent = curve.at_rotation(row.rotation);
    INFO("E " << row.young << ", H " << row.hardening << ", k " << row.rotation);
    CHECK(bent.inner_radius == Approx(row.radius).epsilon(0.002));
    CHECK(bent.thickness == Approx(row.thickness).margin(0.0011));
    CHECK(bent.outer_strain == Approx(row.out).margin(0.0008));
    CHECK(bent.inner_strain == Approx(row.in).margin(0.0016));
    // The curve is kept rising, so a perfectly plastic strip, which weakens by 2 % as it
    // thins, keeps its top.
    CHECK(bent.moment / (2 / std::sqrt(3.) * 250 / 4) ==
          Approx(row.moment).epsilon(row.hardening > 0 ? 0.005 : 0.02));
  }
}

TEST_CASE("the curve's points belong together", "[unit][screening]")
{
  const BendCurve curve(low_carbon(), t, 19.05);
  const BentStrip at = curve.at_radius(19.05);
  CHECK(at.inner_radius == Approx(19.05).epsilon(1e-6));
  CHECK(curve.at_moment(at.moment).rotation == Approx(at.rotation).epsilon(1e-6));
  CHECK(curve.at_rotation(at.rotation).moment == Approx(at.moment).epsilon(1e-6));
  // Independent fibre integration: 475 N m on 38.1 mm, 1.905 times the plastic moment.
  CHECK(at.moment * w / 1000 == Approx(475).epsilon(0.005));
  // Elastic to begin with: M = E' I k.
  const BentStrip &first = curve.points()[1];
  CHECK(first.moment == Approx(curve.stiffness() * first.rotation).epsilon(0.01));
  // The work of the moment's complement grows as its own integral: by hand, M k / 2 there.
  CHECK(first.co_work == Approx(first.moment * first.rotation / 2).epsilon(1e-9));
}

TEST_CASE("straight-leg statics of the 4t fixture", "[unit][screening]")
{
  // Elementary statics, computed by hand: stroke in mm by leg angle; ram force in kN by leg
  // angle and friction for M = 249.5 N m.
  for (const auto &[beta, stroke] : {std::pair{0., 0.},
                                     {15., 11.51},
                                     {30., 21.05},
                                     {45., 29.49},
                                     {60., 37.61},
                                     {75., 47.28},
                                     {85., 63.69}})
    CHECK(straight_leg(jig, beta * degree).stroke == Approx(stroke).margin(0.02));

  struct Row
  {
    double              friction;
    std::vector<double> force; ///< at the angles below
    double              peak, at;
  };
  const double angles[] = {0, 15, 30, 45, 50, 55, 60, 65, 70, 75, 80, 85};
  for (const Row &row : {Row{0,
                             {10.14, 12.62, 14.73, 16.06, 16.19, 16.09, 15.65, 14.73, 13.09,
                              10.41, 6.51, 2.14},
                             16.20,
                             50.6},
                         Row{0.1,
                             {10.04, 12.80, 15.33, 17.29, 17.70, 17.91, 17.83, 17.31, 16.09,
                              13.77, 9.85, 4.49},
                             17.92,
                             56.4},
                         Row{0.2,
                             {9.95, 12.97, 15.92, 18.47, 19.13, 19.64, 19.89, 19.73, 18.90,
                              16.88, 12.97, 6.73},
                             19.90,
                             61.0},
                         Row{0.3,
                             {9.85, 13.14, 16.48, 19.60, 20.50, 21.28, 21.83, 22.01, 21.52,
                              19.79, 15.88, 8.87},
                             22.02,
                             64.3}})
  {
    const double moment = 249.5e3;
    for (std::size_t i = 0; i < row.force.size(); ++i)
    {
      const StraightLeg leg = straight_leg(jig, angles[i] * degree);
      INFO("mu " << row.friction << ", beta " << angles[i]);
      CHECK(ram_force(leg, shoulder_force(jig, leg, moment, row.friction), row.friction) /
                1000 ==
            Approx(row.force[i]).margin(0.02));
    }
    const HingePeak peak = hinge_peak(jig, moment, row.friction);
    CHECK(peak.force / 1000 == Approx(row.peak).margin(0.02));
    CHECK(peak.leg.angle / degree == Approx(row.at).margin(0.6));
  }
}

TEST_CASE("half lengths that a leg needs", "[unit][screening]")
{
  // Computed by hand from (B + t/2) beta + (L0 - Q sin beta) / cos beta.
  for (const auto &[beta, length] : {std::pair{45., 40.7},
                                     {60., 40.9},
                                     {75., 43.6},
                                     {80., 46.6},
                                     {85., 55.6},
                                     {87., 67.7},
                                     {88., 82.9},
                                     {89., 128.}})
    CHECK(straight_leg(jig, beta * degree).length ==
          Approx(length).margin(beta < 88.5 ? 0.1 : 0.5));
}

TEST_CASE("the guided beam agrees with the independent fibre-beam model",
          "[unit][screening]")
{
  // Large-rotation fibre beam with contact, computed independently of this project; kN on
  // 38.1 mm, shoulder friction 0, 0.1, 0.2, 0.3, none on the nose. Angles in deg.
  struct Row
  {
    double beta, stroke, force[4], wrap, opening;
  };
  const Row       rows[]  = {{5, 3.65, {16.5, 16.4, 16.4, 16.3}, 0, 1.8},
                             {10, 7.26, {19.1, 19.2, 19.2, 19.3}, 0, 1.9},
                             {20, 14.3, {22.0, 22.5, 22.9, 23.4}, 5.9, 2.1},
                             {30, 20.6, {24.3, 25.3, 26.2, 27.1}, 18.3, 2.2},
                             {40, 26.4, {26.0, 27.6, 29.1, 30.6}, 30.3, 2.4},
                             {50, 31.9, {26.8, 29.2, 31.6, 33.8}, 42.0, 2.6},
                             {60, 37.4, {25.9, 29.5, 32.9, 36.1}, 53.8, 2.8},
                             {70, 43.4, {21.8, 26.8, 31.4, 35.8}, 64.7, 3.1},
                             {75, 47.0, {17.4, 23.0, 28.2, 33.0}, 70.0, 3.2}};
  const double    peaks[] = {26.8, 29.6, 32.9, 36.5}, peaks_at[] = {51, 57, 61, 65};
  const BendCurve curve(low_carbon(), t, 19.05);
  for (int k = 0; k < 4; ++k)
  {
    const auto states = bend_guided(jig, curve, {0, 0.1 * k, 0}, 1000, 1.56);
    REQUIRE(states.size() > 50);
    const auto top =
        std::max_element(states.begin(), states.end(),
                         [](const auto &a, const auto &b) { return a.force < b.force; });
    CHECK(top->force * w / 1000 == Approx(peaks[k]).epsilon(0.015));
    CHECK(top->leg_angle / degree == Approx(peaks_at[k]).margin(2));
    for (const Row &row : rows)
    {
      const auto next =
          std::find_if(states.begin(), states.end(),
                       [&](const auto &s) { return s.leg_angle > row.beta * degree; });
      REQUIRE(next != states.end());
      const BeamState &a = *(next - 1), &b = *next;
      const double share = (row.beta * degree - a.leg_angle) / (b.leg_angle - a.leg_angle);
      const auto   at    = [&](double BeamState::*figure)
      { return a.*figure + share * (b.*figure - a.*figure); };
      INFO("mu " << 0.1 * k << ", beta " << row.beta);
      CHECK(at(&BeamState::travel) == Approx(row.stroke).margin(0.2));
      CHECK(at(&BeamState::force) * w / 1000 == Approx(row.force[k]).epsilon(0.025));
      CHECK(at(&BeamState::wrap) / degree == Approx(row.wrap).margin(1));
      CHECK(2 * at(&BeamState::springback) / degree == Approx(row.opening).margin(0.15));
    }
  }
}

TEST_CASE("the beam's ram work is the work of its bending", "[unit][screening]")
{
  // Without friction: integral F dS = 2 (bending of all fibres). The bent part's work is
  // known by itself: integral M dk over the wrapped length, plus the legs'.
  const BendCurve curve(low_carbon(), t, 19.05);
  const auto      states = bend_guided(jig, curve, {0, 0, 0}, 1000, 1.3);
  double          ram    = 0;
  for (std::size_t i = 1; i < states.size(); ++i)
    ram += (states[i].force + states[i - 1].force) / 2 *
           (states[i].travel - states[i - 1].travel);
  const BentStrip  wrapped = curve.at_radius(19.05);
  const double     per_mm  = wrapped.moment * wrapped.rotation - wrapped.co_work;
  const BeamState &last    = states.back();
  const double     bend    = 2 * per_mm * last.wrap / wrapped.rotation;
  // The legs carry on to their last shape; between nothing and the wrapped density of work.
  const double legs = 2 * per_mm * (last.length - last.wrap / wrapped.rotation);
  CHECK(ram > bend);
  CHECK(ram < bend + legs);
  // Virtual work, exact: F dS = 2 M d(angle) for a hinge. The plastic legs take part in it.
  CHECK(ram == Approx(2 * wrapped.moment * last.leg_angle).epsilon(0.25));
}

TEST_CASE("friction on the nose adds to the force, and no more beyond sticking",
          "[unit][screening]")
{
  const BendCurve curve(low_carbon(), t, 19.05);
  const auto      peak = [&](double nose)
  {
    double force = 0;
    for (const BeamState &s : bend_guided(jig, curve, {nose, 0.1, 0}, 1000, 1.5))
      force = std::max(force, s.force);
    return force;
  };
  CHECK(peak(0.1) > 1.01 * peak(0));
  CHECK(peak(0.1) < 1.05 * peak(0));
  CHECK(peak(0.4) == Approx(peak(0.2)));
}

TEST_CASE("springback by Gardiner 1957", "[unit][screening]")
{
  // Computed by hand; Y, E MPa, t, R mm, R_i/R_f.
  struct Row
  {
    double yield, young, t, radius, ratio;
  };
  for (const Row &row : {Row{250, 200e3, 9.525, 19.05, 0.99250},
                         {250, 200e3, 9.525, 23.81, 0.99063},
                         {355, 210e3, 10, 20, 0.98986},
                         {690, 210e3, 10, 20, 0.98029},
                         {690, 210e3, 10, 31.75, 0.96871},
                         {170, 193e3, 10, 20, 0.99472},
                         {276, 68.9e3, 3.175, 26.2, 0.90098},
                         {276, 68.9e3, 9.525, 31.75, 0.95995},
                         {145, 70.3e3, 9.525, 19.05, 0.98762}})
    CHECK(gardiner_ratio(row.radius, row.yield, row.young, row.t) ==
          Approx(row.ratio).margin(1.5e-4));
  // Plane-strain constants, mid radius: 0.99015.
  CHECK(gardiner_ratio(23.81, 1.1547 * 250, 200e3 / 0.91, 9.525) ==
        Approx(0.99015).margin(1.5e-4));
  // M (1 - nu^2) / (E I) by hand: 1000 N mm/mm on t = 10 mm, E 210 GPa, nu 0.3.
  CHECK(elastic_curvature(1000, 210e3, 0.3, 10) == Approx(5.2e-5).epsilon(1e-9));
}
