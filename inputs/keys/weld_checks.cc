#include "inputs/keys/weld_checks.h"

#include "inputs/units/units.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
// A weld narrower than this share of the plate cannot be cut into sound cells.
constexpr double least_width = 0.05;

using Objections = std::vector<Objection>;

std::string mm(double length)
{
  return to_text(length, UnitKind::length, UnitSystem::metric);
}

double plate(const Case &c)
{
  return c.weld.bend == BendKind::side ? c.coupon.width : c.coupon.thickness;
}

/// Of weld and heat-affected band from the weld's centre, at the widest [mm].
double half_reach(const Case &c)
{
  const Weld  &w       = c.weld;
  const double outside = w.penetration + w.haz_width;
  double       angle = 0, depth = 0;
  switch (w.preparation)
  {
  case Preparation::square:
    break;
  case Preparation::single_v:
    angle = w.included_angle / 2;
    depth = plate(c) - w.root_face;
    break;
  case Preparation::double_v:
    angle = w.included_angle / 2;
    depth = (plate(c) - w.root_face) / 2;
    break;
  case Preparation::single_bevel:
    angle = w.included_angle;
    depth = plate(c) - w.root_face;
    break;
  }
  return w.gap() / 2 + std::max(outside, std::tan(angle) * std::max(depth, 0.) +
                                             outside / std::cos(angle));
}

void check_fit(const Case &c, Objections &found)
{
  const Weld  &w     = c.weld;
  const bool   along = w.run == WeldRun::longitudinal;
  const double half  = (along ? c.coupon.width : c.coupon.length) / 2;
  const double reach = half_reach(c) + std::abs(w.offset);
  if (reach > half)
    found.push_back(
        {{"weld.width", "weld.root_opening", "weld.included_angle", "weld.haz_width",
          "weld.offset", along ? "coupon.width" : "coupon.length"},
         "weld and heat-affected bands reach " + mm(reach) +
             " from the coupon's centre, but the coupon ends at " + mm(half),
         std::string("half of weld and bands at their widest, and |weld.offset|,"
                     " together up to half of coupon.") +
             (along ? "width" : "length")});
  else if (along && c.coupon.edge_radius > 0 && reach > half - c.coupon.edge_radius)
    found.push_back(
        {{"coupon.edge_radius", "weld.haz_width", "coupon.width"},
         "weld and heat-affected bands reach " + mm(reach) +
             " from the coupon's centre, into the rounding of the edges, which begins at " +
             mm(half - c.coupon.edge_radius),
         "coupon.edge_radius up to " + mm(half - reach)});
  if (w.preparation != Preparation::square && w.root_face >= plate(c))
    found.push_back({{"weld.root_face", "coupon.thickness"},
                     "a root face of " + mm(w.root_face) + " leaves no bevel on a plate " +
                         mm(plate(c)) + " thick",
                     "weld.root_face below the plate's thickness"});
  if (w.preparation != Preparation::square &&
      w.gap() + 2 * w.penetration < least_width * plate(c))
    found.push_back({{"weld.root_opening", "weld.penetration"},
                     "the weld metal is only " + mm(w.gap() + 2 * w.penetration) +
                         " wide at its root, too narrow for cells",
                     "weld.root_opening + 2 weld.penetration from " +
                         mm(least_width * plate(c)) +
                         "; a closed gap needs weld.penetration"});
}

void check_bend(const Case &c, Objections &found)
{
  const Weld &w      = c.weld;
  const bool  solid  = c.mesh.dimension == 3;
  const bool  side   = w.bend == BendKind::side;
  const bool  square = w.preparation == Preparation::square;
  const auto  refuse = [&](const std::vector<std::string> &keys, const std::string &problem,
                          const std::string &cure) {
    found.push_back({keys, problem, cure});
  };

  if (w.run == WeldRun::longitudinal)
  {
    if (!solid)
      refuse({"weld.direction", "mesh.dimension"},
             "the zones of a longitudinal weld lie across the width, which plane strain "
             "does not have",
             "weld.direction = transverse, or mesh.dimension = 3");
    if (w.offset != 0 || !w.symmetric())
      refuse({"weld.direction", "weld.offset", "weld.preparation"},
             "half of the width is modelled, so a longitudinal weld must be the same on "
             "both sides of the middle",
             "weld.offset = 0 mm and another preparation than single_bevel");
    if (side)
      refuse({"weld.bend", "weld.direction"},
             "a side bend is made from a section across the weld, so the weld must be "
             "transverse",
             "weld.bend = face or root, or weld.direction = transverse");
  }
  else if (side && !square)
  {
    if (!solid)
      refuse({"weld.bend", "mesh.dimension"},
             "in a side bend of a bevelled weld the zones change across the width, which "
             "plane strain does not have",
             "weld.bend = face or root, weld.preparation = square, or mesh.dimension = 3");
    else if (w.preparation != Preparation::double_v)
      refuse(
          {"weld.bend", "weld.preparation"},
          "half of the width is modelled, so the section of a side bend must be the same "
          "on both sides of the middle",
          "weld.preparation = square or double_v");
  }

  const bool left_on = w.cap.height > 0 || w.root_bead.height > 0;
  if (left_on && (w.run == WeldRun::longitudinal || side))
    refuse({"weld.cap_height", "weld.root_bead_height", "weld.direction", "weld.bend"},
           "cap and root bead can be left on a transverse face or root bend only",
           "0 mm for both");
}

void check_reinforcement(const Case &c, Objections &found)
{
  struct Surface
  {
    std::string          name;
    const Reinforcement &left_on;
  };
  for (const Surface &s :
       {Surface{"weld.cap", c.weld.cap}, Surface{"weld.root_bead", c.weld.root_bead}})
  {
    if (s.left_on.height <= 0)
      continue;
    if (s.left_on.height > s.left_on.width / 4)
      found.push_back({{s.name + "_height", s.name + "_width"},
                       "a bead " + mm(s.left_on.height) + " high on a width of " +
                           mm(s.left_on.width) + " is too steep for the mesh",
                       s.name + "_height up to a quarter of " + s.name + "_width"});
    if (s.left_on.height > c.coupon.thickness / 2)
      found.push_back({{s.name + "_height", "coupon.thickness"},
                       "a bead " + mm(s.left_on.height) +
                           " high is more than half of the coupon's thickness",
                       s.name + "_height up to coupon.thickness / 2"});
    const double reach =
        s.left_on.width / 2 + 2 * c.weld.toe_radius + std::abs(c.weld.offset);
    if (reach > c.coupon.length / 2)
      found.push_back({{s.name + "_width", "weld.toe_radius", "coupon.length"},
                       "with its toes it reaches " + mm(reach) +
                           " from the coupon's centre, but the coupon ends at " +
                           mm(c.coupon.length / 2),
                       "a narrower bead, or a smaller weld.toe_radius"});
  }
}

/// A backstress is a share of the base plate's rise. What share of its own curve's rise a
/// zone has is not known.
void check_backstress(const Case &c, Objections &found)
{
  if (!c.material.kinematic.present())
    return;
  const auto check = [&](const bool own, const std::string &zone, const std::string &ratio)
  {
    if (own)
      found.push_back(
          {{zone + "_law", "material.kinematic_saturation"},
           "a zone with its own flow curve has no backstress; that of the base plate "
           "does not apply to it",
           ratio + " in place of the zone's own curve, or no backstress"});
  };
  check(c.weld.metal_flow.own, "weld.metal", "weld.strength_ratio");
  check(c.weld.haz_flow.own, "weld.haz", "weld.haz_ratio");
}

void check_gauge(const Case &c, Objections &found)
{
  const double reach = c.inspection.gauge_length / 2 + std::abs(c.weld.offset);
  if (c.weld.run == WeldRun::transverse && reach > c.coupon.length / 2)
    found.push_back({{"inspection.gauge_length", "weld.offset", "coupon.length"},
                     "the gauge length about the weld reaches " + mm(reach) +
                         " from the coupon's centre, but the coupon ends at " +
                         mm(c.coupon.length / 2),
                     "half of the gauge length and |weld.offset|, together up to half of "
                     "coupon.length"});
}

/// A zone's own curve must be one.
void check_curve(const std::string &section, const std::string &law, const ZoneFlow &flow,
                 const Case &c, Objections &found)
{
  if (!flow.own)
    return;
  const std::vector<FlowPoint> &points = flow.curve.points;
  if (flow.curve.law == HardeningLaw::table)
  {
    bool sound = points.size() >= 2 && points.front().plastic_strain == 0;
    for (std::size_t i = 0; i < points.size(); ++i)
      sound = sound && points[i].stress > 0 &&
              (i == 0 || (points[i].plastic_strain > points[i - 1].plastic_strain &&
                          points[i].stress >= points[i - 1].stress));
    if (!sound)
    {
      found.push_back({{section + ".table", law},
                       "the points are not a flow curve",
                       "two or more strain:stress pairs, strains rising from 0, stresses "
                       "above 0 MPa that never fall"});
      return;
    }
  }
  if (flow.curve.law == HardeningLaw::formula)
  {
    const std::vector<Objection> faults = find_formula_objections(
        flow.curve, {section + ".formula", section + ".constants", section + ".last_strain",
                     section + ".extrapolation", law});
    if (!faults.empty())
    {
      found.insert(found.end(), faults.begin(), faults.end());
      return;
    }
  }
  const double yield = flow.curve.initial_stress();
  if (yield < 1 || yield > 0.05 * c.material.young)
    found.push_back({{section + ".yield", section + ".strength", section + ".table",
                      section + ".formula", law},
                     "the curve begins at " +
                         to_text(yield, UnitKind::stress, UnitSystem::metric) +
                         ", which is not a yield stress",
                     "a yield stress from 1 MPa, with a yield strain up to 5 %"});
}
} // namespace

std::vector<Objection> find_weld_objections(const Case &c)
{
  Objections found;
  if (!c.weld.present())
    return found;
  check_fit(c, found);
  check_bend(c, found);
  check_reinforcement(c, found);
  check_backstress(c, found);
  check_gauge(c, found);
  check_curve("weld_metal", "weld.metal_law", c.weld.metal_flow, c, found);
  check_curve("haz", "weld.haz_law", c.weld.haz_flow, c, found);
  return found;
}
} // namespace throughbend
