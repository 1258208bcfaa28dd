// What is remarkable about a case that can be used, declared in inputs/keys/validation.h.

#include "inputs/keys/material_catalogue.h"
#include "inputs/keys/measured_metal.h"
#include "inputs/keys/reach_checks.h"
#include "inputs/keys/validation.h"
#include "inputs/metal/bend_strain.h"
#include "inputs/metal/considere.h"
#include "inputs/units/display_units.h"
#include "inputs/units/units.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
std::string mm(double length)
{
  return to_text(length, UnitKind::length, UnitSystem::metric);
}

std::string mpa(double stress)
{
  return to_text(stress, UnitKind::stress, UnitSystem::metric);
}

/// Share of its plastic section modulus that a section loses to rounded edges, and so of
/// the bending force [-]: four spandrels of (1 - pi/4) r^2, whose centroids lie 0.2234 r
/// from either side (by hand), of a rectangle's w t^2 / 4.
double lost_to_edges(const Coupon &coupon)
{
  const double r = coupon.edge_radius, t = coupon.thickness;
  return 4 * 0.2146 * r * r * (t / 2 - 0.2234 * r) / (coupon.width * t * t / 4);
}

/// Of a tensile strength that is not the curve's own: `check` prints both forces.
std::string strength_words(const Material &material)
{
  constexpr double alike = 0.1; // a certificate's beside a typical curve
  const double     own   = considere(material.flow).stress;
  if (material.tensile_strength <= 0 ||
      std::abs(material.tensile_strength - own) <= alike * own)
    return "";
  return mpa(material.tensile_strength) + ", and the flow curve begins to neck at " +
         mpa(own) + "; check's handbook force goes by the first, all else by the second";
}

/// Of a curve of the user's own that ends before the bend does.
std::string extrapolation_words(const Case &c)
{
  const Material &material = c.material;
  if (is_measured(material) || !material.grade.empty())
    return "";
  const BendStrain bend =
      bend_strain(c.fixture.plunger.bend_diameter(), c.coupon.thickness);
  const double last = material.flow.last_strain;
  if (bend.largest <= last)
    return "";
  const auto p = [](const double strain) {
    return to_text(std::round(strain * 1000) / 1000, UnitKind::ratio, UnitSystem::metric);
  };
  return "the bend strains its convex face to p = " + p(bend.nominal) + " to " +
         p(bend.largest) + ", and the curve is backed up to " + p(last) +
         ": beyond it the flow stress is extrapolated as material.extrapolation says";
}
} // namespace

std::vector<std::string> find_remarks(const Case &c)
{
  std::vector<std::string> remarks;
  const double rest = c.fixture.shoulders.opening / 2 + c.fixture.shoulders.radius;
  if (shorter_reach(c.coupon) <= rest)
    remarks.push_back("coupon.length: the coupon reaches " + mm(shorter_reach(c.coupon)) +
                      " from the plunger's centre on its shorter side and rests on the "
                      "rounded part of the shoulder, whose top is at " +
                      mm(rest) + "; it may slip off early");
  if (c.fixture.frame.present() &&
      shorter_reach(c.coupon) + 2 * std::abs(c.coupon.offset) < c.fixture.frame.distance)
    remarks.push_back("frame.distance: the coupon does not reach the frame");
  if (c.coupon.edge_radius > 0 && c.mesh.dimension == 2)
    remarks.push_back(
        "coupon.edge_radius: this plane model assumes sharp edges; with rounded edges "
        "the force is about " +
        percent_text(lost_to_edges(c.coupon)) +
        " smaller. mesh.dimension = 3 includes the rounding");
  if (c.material.flow.law == HardeningLaw::formula && c.material.flow.formula.curve)
    for (const double kink : c.material.flow.formula.curve->kinks())
      if (kink < c.material.flow.last_strain)
        remarks.push_back("material.formula: the slope jumps at p = " +
                          to_text(kink, UnitKind::ratio, UnitSystem::metric) +
                          "; this is allowed, but check that it is intended");
  if (const std::string words = strength_words(c.material); !words.empty())
    remarks.push_back("material.tensile_strength: " + words);
  if (const std::string words = extrapolation_words(c); !words.empty())
    remarks.push_back("material.last_strain: " + words);
  for (const std::string &remark : curve_remarks(c))
    remarks.push_back("material.curve: " + remark);
  if (const std::string words = least_strength_words(c.material); !words.empty())
    remarks.push_back("material.grade: " + words);
  if (const std::string words = other_thickness_words(c.material, c.coupon.thickness);
      !words.empty())
    remarks.push_back("material.grade: " + words);
  return remarks;
}
} // namespace throughbend
