#pragma once
// The passes over which check's closed forms are held against the simulation. Variations of
// reference case R, one or two things at a time, and fixtures scaled as rules scale them.
// All invented; steels and aluminium by handbook flow curves, from memory.

#include "tests/support/reference_case.h"

#include <string>
#include <utility>
#include <vector>

namespace throughbend
{
struct ScreeningCase
{
  std::string name;
  Case        c;
};

inline std::vector<ScreeningCase> screening_cases()
{
  std::vector<ScreeningCase> cases;
  const auto                 base = []
  {
    Case c       = reference_case();
    c.mesh.level = MeshLevel::quick;
    return c;
  };
  const auto add = [&](const std::string &name, const auto &change)
  {
    Case c = base();
    change(c);
    c.fixture.plunger.nose_radius = c.fixture.plunger.width / 2;
    c.fixture.shoulders.depth     = c.fixture.shoulders.radius + 25;
    c.ram.stroke                  = 1000;
    c.ram.capacity                = 1e9;
    cases.push_back({name, c});
  };
  /// Nose n times the thickness wide, and some clearance on either side [mm].
  const auto fixture = [](Case &c, double t, double n, double clearance)
  {
    c.coupon.thickness          = t;
    c.fixture.plunger.width     = n * t;
    c.fixture.shoulders.opening = n * t + 2 * t + 2 * clearance;
  };
  const auto swift = [](Case &c, double strength, double prestrain, double exponent)
  {
    c.material.flow = swift_hardening(strength, prestrain, exponent);
    c.material.flow.settle_yield();
  };

  add("R", [](Case &) {});
  for (const double mu : {0., 0.05, 0.2, 0.3})
    add("friction " + std::to_string(mu).substr(0, 4),
        [&](Case &c) {
          c.friction = {mu, mu, mu};
        });
  for (const double t : {6., 8., 9., 11.})
    add("thickness " + std::to_string(static_cast<int>(t)) + " mm, same fixture",
        [&](Case &c) { c.coupon.thickness = t; });
  for (const double clearance : {0.5, 3., 6., 12.})
    add("clearance " + std::to_string(clearance).substr(0, 4) + " mm",
        [&](Case &c) { fixture(c, 10, 4, clearance); });
  for (const double n : {3., 5.333, 6.667, 10.})
    add("nose " + std::to_string(n).substr(0, 4) + " t",
        [&](Case &c)
        {
          fixture(c, 10, n, 1.6);
          c.coupon.length = 110 + 14 * n;
        });
  for (const double radius : {10., 30.})
    add("shoulder radius " + std::to_string(static_cast<int>(radius)) + " mm",
        [&](Case &c)
        {
          c.fixture.shoulders.radius = radius;
          c.coupon.length            = 120 + 2 * radius;
        });
  for (const double t : {11.7, 12., 12.5})
    add("squeezed: " + std::to_string(t).substr(0, 4) + " mm in a gap of 11.6 mm",
        [&](Case &c) { c.coupon.thickness = t; });
  for (const auto &[t, mu] : {std::pair{11.9, 0.05}, {12.3, 0.2}})
    add("squeezed: " + std::to_string(t).substr(0, 4) + " mm, friction " +
            std::to_string(mu).substr(0, 4),
        [t = t, mu = mu](Case &c)
        {
          c.coupon.thickness = t;
          c.friction         = {mu, mu, mu};
        });
  add("squeezed: 12.1 mm, perfectly plastic",
      [](Case &c)
      {
        c.coupon.thickness    = 12.1;
        c.material.flow       = FlowCurve();
        c.material.flow.yield = 250;
      });
  add("thin: 3 mm, nose 16.5 t",
      [&](Case &c)
      {
        fixture(c, 3, 16.5, 0.8);
        c.coupon.length = 160;
      });
  add("thick: 20 mm, all scaled",
      [&](Case &c)
      {
        fixture(c, 20, 4, 3.2);
        c.fixture.shoulders.radius = 40;
        c.coupon.length            = 320;
      });
  add("length 120 mm", [](Case &c) { c.coupon.length = 120; });
  add("length 220 mm", [](Case &c) { c.coupon.length = 220; });
  add("perfectly plastic, 250 MPa",
      [](Case &c)
      {
        c.material.flow       = FlowCurve();
        c.material.flow.yield = 250;
      });
  add("perfectly plastic, 690 MPa, nose 6.67 t",
      [&](Case &c)
      {
        fixture(c, 10, 6.667, 1.6);
        c.coupon.length       = 200;
        c.material.flow       = FlowCurve();
        c.material.flow.yield = 690;
      });
  add("low-carbon plate (swift 700, 0.0041, 0.19)",
      [&](Case &c) { swift(c, 700, 0.00412, 0.1875); });
  add("S355-like (swift 800, 0.006, 0.15)", [&](Case &c) { swift(c, 800, 0.006, 0.15); });
  add("S690-like (swift 1010, 0.003, 0.06), nose 6.67 t",
      [&](Case &c)
      {
        fixture(c, 10, 6.667, 1.6);
        c.coupon.length = 200;
        swift(c, 1010, 0.003, 0.06);
      });
  add("304L-like (swift 1300, 0.01, 0.44)", [&](Case &c) { swift(c, 1300, 0.01, 0.44); });
  add("aluminium 6061-T6-like, 3 mm, nose 16.5 t",
      [&](Case &c)
      {
        fixture(c, 3, 16.5, 0.8);
        c.material.young   = 69000;
        c.material.poisson = 0.33;
        c.material.density = 2700;
        swift(c, 410, 0.0006, 0.05);
      });
  add("linear hardening, 345 + 1500 p MPa",
      [](Case &c) { c.material.flow = linear_hardening(345, 1500); });
  add("free rollers",
      [](Case &c)
      {
        c.fixture.shoulders.kind         = ShoulderKind::rollers;
        c.fixture.shoulders.rollers_turn = true;
      });

  // The 3/8 in jig of ASME IX QW-466.1 (read) with a coupon of 6-1/2 in, laid off centre:
  // the longer leg leaves last.
  for (const auto &[words, offset] :
       {std::pair{"0", 0.}, {"1/4", 6.35}, {"1/2", 12.7}, {"1", 25.4}, {"1-1/4", 31.75}})
    add("3/8 in jig, 6-1/2 in coupon, " + std::string(words) + " in off centre",
        [offset = offset](Case &c)
        {
          c.coupon                    = {165.1, 38.1, 9.525, offset};
          c.fixture.plunger.width     = 38.1;
          c.fixture.shoulders.radius  = 19.05;
          c.fixture.shoulders.opening = 60.325;
        });

  // Made after the bands had been set, and not used for it.
  add("later: 12.7 mm, nose 4 t, S355-like, friction 0.15",
      [&](Case &c)
      {
        fixture(c, 12.7, 4, 1.6);
        c.coupon.length = 200;
        c.friction      = {0.15, 0.15, 0.15};
        swift(c, 800, 0.006, 0.15);
      });
  add("later: 5 mm, nose 6 t, clearance 2 mm, friction 0.08",
      [&](Case &c)
      {
        fixture(c, 5, 6, 2);
        c.fixture.shoulders.radius = 12;
        c.coupon.length            = 120;
        c.friction                 = {0.08, 0.08, 0.08};
      });
  add("later: aluminium 5083-like, 9.5 mm, nose 6.67 t",
      [&](Case &c)
      {
        fixture(c, 9.5, 6.667, 1.6);
        c.coupon.length    = 200;
        c.material.young   = 70300;
        c.material.poisson = 0.33;
        c.material.density = 2660;
        swift(c, 480, 0.002, 0.2);
      });
  add("later: 304L-like, 3 mm, nose 4 t, shoulder radius 8 mm",
      [&](Case &c)
      {
        fixture(c, 3, 4, 0.5);
        c.fixture.shoulders.radius = 8;
        c.coupon.length            = 70;
        swift(c, 1300, 0.01, 0.44);
      });
  add("later: 8 mm, nose 5 t, 550 MPa, friction 0.25",
      [&](Case &c)
      {
        fixture(c, 8, 5, 1.2);
        c.friction = {0.25, 0.25, 0.25};
        swift(c, 900, 0.0026, 0.083);
      });
  add("later: greased nose, dry shoulders", [](Case &c) { c.friction = {0.05, 0.3, 0.3}; });
  return cases;
}
} // namespace throughbend
