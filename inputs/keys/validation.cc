#include "inputs/keys/validation.h"

#include "inputs/keys/flaw_checks.h"
#include "inputs/keys/material_catalogue.h"
#include "inputs/keys/measured_metal.h"
#include "inputs/keys/reach_checks.h"
#include "inputs/keys/weld_checks.h"
#include "inputs/units/display_units.h"
#include "inputs/units/units.h"

#include <cmath>

namespace throughbend
{
namespace
{
// A yield strain beyond this is a slip in a unit, not a metal.
constexpr double largest_yield_strain = 0.05;

// Of the first yield stress: what a backstress must leave of the yield surface.
constexpr double smallest_surface = 0.1;

// Of Young's modulus. With G near 0.4 E and welds up to some times as strong, the return to
// the yield surface has one solution only (mixed_update).
constexpr double steepest_backstress = 0.25;

// Of a length: what adding up, or another unit, may change in its last digit.
constexpr double rounding = 1e-9;

std::string mm(double length)
{
  return to_text(length, UnitKind::length, UnitSystem::metric);
}

std::string mpa(double stress)
{
  return to_text(stress, UnitKind::stress, UnitSystem::metric);
}

using Objections = std::vector<Objection>;

/// Rounded edges leave some of each face and side straight; and the cells on them are not
/// so small beside the others that contact hops on them (with 1/1000 of the thickness a
/// pass did not end in the time of ten).
void check_edges(const Case &c, Objections &found)
{
  const double r = c.coupon.edge_radius;
  if (r == 0)
    return;
  constexpr double  most = 0.45; // of thickness and width, for each of the two edges
  const double      thin = c.coupon.thickness - std::abs(c.coupon.taper) / 2;
  const std::string cure =
      "coupon.edge_radius up to " + mm(most * std::min(thin, c.coupon.width));
  if (r > most * thin)
    found.push_back({{"coupon.edge_radius", "coupon.thickness"},
                     "two edges of " + mm(r) +
                         " leave no straight side between them on a "
                         "coupon " +
                         mm(thin) + " thick",
                     cure});
  else if (r > most * c.coupon.width)
    found.push_back({{"coupon.edge_radius", "coupon.width"},
                     "two edges of " + mm(r) +
                         " leave no flat face between them on a "
                         "coupon " +
                         mm(c.coupon.width) + " wide",
                     cure});
  constexpr double least = 0.01; // of the thickness
  if (c.mesh.dimension == 3 && r < least * thin)
    found.push_back(
        {{"coupon.edge_radius", "coupon.thickness"},
         "edges of " + mm(r) + " are too small for the cells of a 3D model",
         "coupon.edge_radius = 0 mm (sharp edges), or at least " + mm(least * thin)});
}

void check_coupon(const Case &c, Objections &found)
{
  const Coupon    &coupon    = c.coupon;
  const Shoulders &shoulders = c.fixture.shoulders;
  if (coupon.thickness >= coupon.length)
    found.push_back({{"coupon.thickness", "coupon.length"},
                     "the coupon is thicker (" + mm(coupon.thickness) + ") than long (" +
                         mm(coupon.length) + ")",
                     "coupon.thickness below coupon.length"});
  if (std::abs(coupon.taper) > coupon.thickness)
    found.push_back({{"coupon.taper", "coupon.thickness"},
                     "a taper of " + mm(coupon.taper) +
                         " leaves the thin end of a coupon " + mm(coupon.thickness) +
                         " thick less than half of that",
                     "coupon.taper up to coupon.thickness"});
  check_edges(c, found);
  if (shorter_reach(coupon) <= shoulders.opening / 2)
    found.push_back(
        {{"coupon.length", "coupon.offset", "shoulders.opening"},
         "the coupon would fall through unbent: it reaches " + mm(shorter_reach(coupon)) +
             " from the plunger's centre on its shorter side, but the shoulders begin at " +
             mm(shoulders.opening / 2),
         "coupon.length / 2 - |coupon.offset| above shoulders.opening / 2"});
}

void check_plunger(const Case &c, Objections &found)
{
  const Plunger   &plunger   = c.fixture.plunger;
  const Shoulders &shoulders = c.fixture.shoulders;
  if (plunger.width >= shoulders.opening)
    found.push_back({{"plunger.width", "shoulders.opening"},
                     "the plunger (" + mm(plunger.width) +
                         ") does not fit between the shoulders (" + mm(shoulders.opening) +
                         ")",
                     "plunger.width below shoulders.opening"});
  if (plunger.nose_radius > plunger.width / 2 && !plunger.half_round())
    found.push_back(
        {{"plunger.nose_radius", "plunger.width"},
         "a nose radius of " + mm(plunger.nose_radius) + " does not fit on a plunger " +
             mm(plunger.width) + " wide",
         "plunger.nose_radius up to plunger.width / 2 = " + mm(plunger.width / 2)});
}

void check_shoulders(const Case &c, Objections &found)
{
  const Shoulders &s = c.fixture.shoulders;
  if (s.kind == ShoulderKind::solid &&
      s.depth < (s.radius + s.bottom_radius) * (1 - rounding))
    found.push_back({{"shoulders.depth", "shoulders.radius", "shoulders.bottom_radius"},
                     "a wall " + mm(s.depth) +
                         " deep has no room for its edges of radius " + mm(s.radius) +
                         " above and " + mm(s.bottom_radius) + " below",
                     "shoulders.depth from shoulders.radius + shoulders.bottom_radius = " +
                         mm(s.radius + s.bottom_radius)});
}

void check_frame(const Case &c, Objections &found)
{
  const Frame &frame = c.fixture.frame;
  if (!frame.present())
    return;
  const double rest = c.fixture.shoulders.opening / 2 + c.fixture.shoulders.radius;
  if (frame.distance <= rest)
    found.push_back({{"frame.distance", "shoulders.opening", "shoulders.radius"},
                     "the frame plate at " + mm(frame.distance) +
                         " stands where the shoulder carries the coupon, " + mm(rest) +
                         " from the centre",
                     "frame.distance above shoulders.opening / 2 + shoulders.radius"});
  if (std::abs(c.coupon.taper) / 2 >= frame.clearance_above && c.coupon.taper != 0)
    found.push_back(
        {{"frame.clearance_above", "coupon.taper"},
         "the thick end of the coupon stands " + mm(std::abs(c.coupon.taper) / 2) +
             " above its nominal thickness, but the frame's opening clears only " +
             mm(frame.clearance_above),
         "frame.clearance_above over half of coupon.taper"});
  if (frame.edge_radius > frame.plate_thickness / 2 * (1 + rounding))
    found.push_back({{"frame.edge_radius", "frame.plate_thickness"},
                     "an edge radius of " + mm(frame.edge_radius) +
                         " does not fit on a plate " + mm(frame.plate_thickness) + " thick",
                     "frame.edge_radius up to frame.plate_thickness / 2 = " +
                         mm(frame.plate_thickness / 2)});
}

void check_table(const FlowCurve &flow, Objections &found)
{
  const auto object = [&](const std::string &problem, const std::string &cure) {
    found.push_back({{"material.table", "material.law"}, problem, cure});
  };
  const std::vector<FlowPoint> &points = flow.points;
  if (points.size() < 2)
    return object("a flow curve needs at least two points",
                  "two or more strain:stress pairs");
  if (points.front().plastic_strain != 0)
    object("the first point is at strain " +
               exact_text(points.front().plastic_strain, UnitKind::ratio),
           "strains that begin at 0");
  for (std::size_t i = 0; i < points.size(); ++i)
  {
    const std::string point = "point " + std::to_string(i + 1) + ": ";
    if (points[i].stress <= 0)
      object(point + "the stress is " + mpa(points[i].stress), "stresses above 0 MPa");
    if (i == 0)
      continue;
    if (points[i].plastic_strain <= points[i - 1].plastic_strain)
      object(point + "strain " + exact_text(points[i].plastic_strain, UnitKind::ratio) +
                 " does not rise above " +
                 exact_text(points[i - 1].plastic_strain, UnitKind::ratio),
             "strains that rise from point to point");
    if (points[i].stress < points[i - 1].stress)
      object(point + "stress falls from " + mpa(points[i - 1].stress) + " to " +
                 mpa(points[i].stress),
             "stresses that never fall: softening is not part of this model");
  }
}

/// A formula must be a flow curve as far as it is used.
void check_formula(const FlowCurve &flow, const std::vector<std::string> &keys,
                   Objections &found)
{
  if (!flow.formula.curve)
  {
    found.push_back({keys, "the formula gives no curve", "formula and constants together"});
    return;
  }
  const TabulatedFlow &curve   = *flow.formula.curve;
  const bool           goes_on = flow.extrapolation == Extrapolation::formula;
  const double         to      = goes_on ? TabulatedFlow::last_strain : flow.last_strain;
  if (curve.fault().empty() || curve.fault_strain() >= to)
    return;
  std::string cure = "a formula that is above 0 MPa and never falls from p = 0 to " +
                     exact_text(to, UnitKind::ratio);
  if (const double sound = std::floor(1000 * curve.fault_strain()) / 1000;
      goes_on && sound > 0)
    cure += "; or extrapolation = hold_slope or flat with a last_strain up to " +
            exact_text(sound, UnitKind::ratio);
  found.push_back({keys, "the formula " + curve.fault(), cure});
}

/// A measured curve is the law; another beside it would silently take its place.
void check_curve(const Material &material, Objections &found)
{
  if (material.curve.empty() || is_measured(material))
    return;
  found.push_back({{"material.law", "material.table", "material.curve"},
                   "the flow curve is not that of the file " + material.curve,
                   "material.law and material.table left out beside material.curve, or "
                   "material.curve left out"});
}

void check_backstress(const Material &material, Objections &found)
{
  const KinematicHardening &kinematic = material.kinematic;
  if (!kinematic.present())
    return;
  const std::vector<std::string> keys  = {"material.kinematic_saturation",
                                          "material.kinematic_rate"};
  const double                   yield = material.flow.initial_stress();
  const double                   least = kinematic.least_isotropic_part(material.flow);
  if (least < smallest_surface * yield)
  {
    std::vector<std::string> all = keys;
    all.push_back("material.law");
    found.push_back(
        {all,
         "the backstress rises so far above the flow curve's own rise that " + mpa(least) +
             " of the yield stress " + mpa(yield) + " are left",
         "a smaller kinematic_saturation or kinematic_rate, so that 10 % of the "
         "yield stress are left at every strain"});
  }
  const double limit = steepest_backstress * material.young;
  if (kinematic.modulus() > limit)
    found.push_back(
        {keys,
         "the backstress would rise with saturation times rate = " +
             mpa(kinematic.modulus()) + " per unit of plastic strain",
         "kinematic_saturation times kinematic_rate up to young / 4 = " + mpa(limit)});
}

void check_material(const Material &material, Objections &found)
{
  const FlowCurve  &flow   = material.flow;
  const std::size_t before = found.size();
  check_curve(material, found);
  std::vector<std::string> flow_keys = {"material.yield", "material.law"};
  if (flow.law == HardeningLaw::table)
  {
    flow_keys = {"material.table", "material.law"};
    check_table(flow, found);
  }
  if (flow.law == HardeningLaw::formula)
  {
    flow_keys = {"material.formula", "material.constants", "material.last_strain",
                 "material.extrapolation", "material.law"};
    check_formula(flow, flow_keys, found);
  }
  if (flow.law == HardeningLaw::swift)
    flow_keys = {"material.prestrain", "material.strength", "material.exponent",
                 "material.law"};
  if (found.size() > before)
    return;

  const double yield = flow.initial_stress();
  if (flow.law == HardeningLaw::swift && yield < 1)
    found.push_back({flow_keys,
                     "the curve begins at strength prestrain^exponent = " + mpa(yield) +
                         ", which is not a yield stress",
                     "a yield stress from 1 MPa"});
  if (flow.law == HardeningLaw::formula && yield < 1)
    found.push_back({flow_keys,
                     "the formula is " + mpa(yield) +
                         " at p = 0, which is not a yield "
                         "stress",
                     "a yield stress from 1 MPa"});
  std::vector<std::string> keys = {"material.young"};
  keys.insert(keys.end(), flow_keys.begin(), flow_keys.end());
  if (yield > largest_yield_strain * material.young)
    found.push_back(
        {keys,
         "a yield stress of " + mpa(yield) + " with Young's modulus " +
             mpa(material.young) + " is a yield strain of " +
             to_text(100 * yield / material.young, UnitKind::ratio, UnitSystem::metric) +
             " %",
         "a yield strain up to 5 %; look at the units"});
  check_backstress(material, found);
}

void check_mesh(const Case &c, Objections &found)
{
  if (c.mesh.cell_size > c.coupon.thickness)
    found.push_back(
        {{"mesh.cell_size", "coupon.thickness"},
         "cells " + mm(c.mesh.cell_size) + " long, in a coupon " + mm(c.coupon.thickness) +
             " thick, cannot resolve its bending",
         "mesh.cell_size up to coupon.thickness, or 0 mm for the level's size"});
}

/// A pump wider than the ram would turn the jack's leverage round.
void check_jack(const Jack &jack, Objections &found)
{
  if (jack.present() && jack.pump_bore >= jack.bore)
    found.push_back({{"jack.pump_bore", "jack.bore"},
                     "the pump's piston of " + mm(jack.pump_bore) +
                         " is no smaller than the ram's of " + mm(jack.bore),
                     "jack.pump_bore below " + mm(jack.bore)});
}
} // namespace

std::vector<Objection> find_objections(const Case &c)
{
  Objections found = find_weld_objections(c);
  for (const Objection &objection : find_flaw_objections(c))
    found.push_back(objection);
  check_coupon(c, found);
  for (const Objection &objection : find_reach_objections(c))
    found.push_back(objection);
  check_plunger(c, found);
  check_shoulders(c, found);
  check_frame(c, found);
  check_material(c.material, found);
  check_jack(c.ram.jack, found);
  check_mesh(c, found);
  return found;
}

std::vector<Objection> find_formula_objections(const FlowCurve                &flow,
                                               const std::vector<std::string> &keys)
{
  Objections found;
  check_formula(flow, keys, found);
  return found;
}

std::vector<Objection> find_material_objections(const Material &material)
{
  Objections found;
  check_material(material, found);
  return found;
}
} // namespace throughbend
