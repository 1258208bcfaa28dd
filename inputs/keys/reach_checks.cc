#include "inputs/keys/reach_checks.h"

#include "inputs/units/units.h"

#include <cmath>
#include <string>

namespace throughbend
{
namespace
{
using Objections = std::vector<Objection>;

std::string mm(double length)
{
  return to_text(length, UnitKind::length, UnitSystem::metric);
}

// Of its length: how far what reaches over a shoulder may sag. A pass knows no weight.
constexpr double largest_sag = 0.2;

/// Longest end that reaches over a shoulder and sags by no more than that under its own
/// weight: a cantilever of constant section, sag = w s^4 / (8 E I) = 3 rho g s^4 / (2 E
/// t^2) (any handbook of strength of materials) [mm].
double longest_overhang(const Case &c)
{
  // kg/m^3 m/s^2 = 1e-9 N/mm^3.
  const double weight = 9.81e-9 * c.material.density, t = c.coupon.thickness;
  return std::cbrt(largest_sag * 2 * c.material.young * t * t / (3 * weight));
}

void check_weight(const Case &c, Objections &found)
{
  const double rest    = c.fixture.shoulders.opening / 2 + c.fixture.shoulders.radius;
  const double off     = std::abs(c.coupon.offset);
  const double reaches = c.coupon.length / 2 + off - rest;
  const double longest = longest_overhang(c);
  // Without a metal nothing is known.
  if (!(longest > 0) || reaches <= longest)
    return;
  const double sag = largest_sag * reaches * std::pow(reaches / longest, 3);
  // Rounded down, so that the value told is one that will do.
  const double length = std::floor(2 * (longest + rest - off));
  found.push_back(
      {{"coupon.length", "coupon.thickness", "coupon.offset", "shoulders.opening",
        "shoulders.radius", "material.young", "material.density"},
       "an end reaches " + mm(reaches) + " over its shoulder and, only " +
           mm(c.coupon.thickness) + " thick, would sag under its own weight by " +
           (sag > reaches ? "more than its length" : mm(sag)) +
           ": the model has no gravity and assumes that the coupon lies flat",
       length > c.fixture.shoulders.opening + 2 * off
           ? "coupon.length up to " + mm(length)
           : "a thicker coupon, or a smaller coupon.offset"});
}

// A leg too thick for the room beside the plunger is drawn down as far as it is pushed, and
// cells and steps follow the shoulder's bite, which is some sqrt(radius thickness) long.
// Beyond so many of them a pass takes days; a coupon of the trade has some three: 40 mm of
// leg and bites of 14 mm.
constexpr double most_bites = 100;

void check_ironing(const Case &c, Objections &found)
{
  const Fixture &f     = c.fixture;
  const double   thick = c.coupon.thickness + std::abs(c.coupon.taper) / 2;
  const double   room  = (f.shoulders.opening - f.plunger.width) / 2;
  if (c.mesh.dimension != 2 || thick <= room || room <= 0)
    return;
  const double pi = std::acos(-1.);
  // What lies round the nose is not drawn.
  const double round  = (f.plunger.width + c.coupon.thickness) / 2 * pi / 2;
  const double off    = std::abs(c.coupon.offset);
  const double drawn  = c.coupon.length / 2 + off - round;
  const double most   = most_bites * std::sqrt(f.shoulders.radius * c.coupon.thickness);
  const double length = std::floor(2 * (most + round - off));
  if (drawn <= most)
    return;
  const double opening = std::ceil(10 * (f.plunger.width + 2 * thick)) / 10;
  found.push_back(
      {{"shoulders.opening", "coupon.length", "coupon.thickness", "coupon.offset",
        "shoulders.radius", "plunger.width"},
       "a leg up to " + mm(thick) + " thick would be drawn through a gap of " + mm(room) +
           " over " + mm(drawn) + ", more than this method can follow past a shoulder of " +
           mm(f.shoulders.radius),
       "shoulders.opening from " + mm(opening) + ", so that the leg is not ironed" +
           (length > f.shoulders.opening + 2 * off
                ? "; or coupon.length up to " + mm(length)
                : "")});
}
} // namespace

double shorter_reach(const Coupon &coupon)
{
  return coupon.length / 2 - std::abs(coupon.offset);
}

std::vector<Objection> find_reach_objections(const Case &c)
{
  Objections found;
  check_weight(c, found);
  check_ironing(c, found);
  return found;
}
} // namespace throughbend
