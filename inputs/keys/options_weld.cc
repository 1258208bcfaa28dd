// Keys of the section weld, and of the zones' own flow curves.

#include "inputs/keys/material_catalogue.h"
#include "inputs/keys/option_sections.h"
#include "inputs/keys/option_words.h"
#include "inputs/text/input_error.h"

#include <cmath>

namespace throughbend
{
using namespace option_words;

namespace
{
auto weld(double Weld::*member)
{
  return at(&Case::weld, member);
}

Entry only_welded(Entry entry)
{
  return std::move(entry).only("with a weld",
                               {"weld.preparation", "weld.width", "weld.haz_width"},
                               [](const Case &c) { return c.weld.present(); });
}

Entry only_bevelled(Entry entry)
{
  return std::move(entry).only(
      "preparation single_v, double_v, single_bevel", {"weld.preparation"},
      [](const Case &c) { return c.weld.preparation != Preparation::square; });
}

void add_geometry(Options &o)
{
  const auto square = [](const Case &c)
  { return c.weld.preparation == Preparation::square; };
  add(o, choice("weld.preparation", {"square", "single_v", "double_v", "single_bevel"},
                at(&Case::weld, &Weld::preparation),
                "Edge preparation of the plates; single_bevel: the right edge is "
                "bevelled.")
             .otherwise("square"));
  add(o, length("weld.width", between(0, 1000), weld(&Weld::width),
                "Width of the weld metal along the coupon; 0 mm = no weld metal.")
             .otherwise("0 mm")
             .only("preparation square", {"weld.preparation"}, square));
  add(o,
      only_bevelled(length("weld.root_opening", between(0, 100), weld(&Weld::root_opening),
                           "Smallest gap between the prepared plates.")
                        .otherwise("2 mm")));
  add(o,
      only_bevelled(number("weld.included_angle", UnitKind::angle, between(0.0174, 2.618),
                           weld(&Weld::included_angle),
                           "Angle between the bevelled faces; single_bevel: from the "
                           "straight face.")
                        .otherwise_by("60 deg, single_bevel 45 deg", {"weld.preparation"},
                                      [](const Case &c)
                                      {
                                        const double pi = std::acos(-1.);
                                        return c.weld.symmetric() ? pi / 3 : pi / 4;
                                      })));
  add(o,
      only_bevelled(length("weld.root_face", between(0, 100), weld(&Weld::root_face),
                           "Straight part of a bevelled edge; double_v: in the middle of "
                           "the plate.")
                        .otherwise("1.5 mm")));
  add(o, only_bevelled(length("weld.penetration", between(0, 50), weld(&Weld::penetration),
                              "Depth to which the prepared faces melt: the fusion line "
                              "lies this far behind them.")
                           .otherwise("0 mm")));
  add(o, length("weld.haz_width", between(0, 500), weld(&Weld::haz_width),
                "Width of the heat-affected zone (HAZ) along each fusion line, "
                "perpendicular to it.")
             .otherwise("0 mm"));
  add(o, only_welded(length("weld.offset", between(-1000, 1000), weld(&Weld::offset),
                            "Distance of the weld's centre (the middle of its gap) from "
                            "the coupon's centre.")
                         .otherwise("0 mm")));
  add(o,
      only_welded(choice("weld.direction", {"transverse", "longitudinal"},
                         at(&Case::weld, &Weld::run),
                         "transverse: the weld crosses the coupon; longitudinal: it runs "
                         "along it (3D only).")
                      .otherwise("transverse")));
  add(o, only_welded(choice("weld.bend", {"face", "root", "side"},
                            at(&Case::weld, &Weld::bend),
                            "Which side is stretched: the weld's face (the wide side), "
                            "its root, or its section (side bend; bevelled welds in 3D "
                            "only).")
                         .otherwise("face")));
}

/// The grade that a zone is said to be of, as its own flow curve.
ModelCase graded_zone(const Case &c, ZoneFlow Weld::*place)
{
  ModelCase          model;
  const std::string &name = (c.weld.*place).grade;
  if (name.empty())
    return model;
  try
  {
    Case filled;
    (filled.weld.*place).own          = true;
    const Material metal              = grade(name, c.material.catalogue);
    (filled.weld.*place).curve        = metal.flow;
    (filled.weld.*place).elongation   = metal.elongation;
    (filled.weld.*place).limit_strain = metal.limit_strain;
    model.value                       = filled;
  }
  catch (const InputError &fault)
  {
    model.fault = fault.what();
  }
  return model;
}

/// The law of a zone: the base plate's scaled, or one of its own.
Entry zone_law(const std::string &key, const std::string &zone, const std::string &section,
               ZoneFlow Weld::*place)
{
  ChoiceSlot slot;
  slot.names = {"scaled", "perfect", "linear", "voce",
                "swift",  "ludwik",  "table",  "formula"};
  slot.get   = [place](const Case &c) -> std::size_t
  {
    const ZoneFlow &flow = c.weld.*place;
    return flow.own ? 1 + static_cast<std::size_t>(flow.curve.law) : 0;
  };
  slot.set = [place](Case &c, std::size_t i)
  {
    ZoneFlow &flow = c.weld.*place;
    flow.own       = i > 0;
    flow.curve.law = static_cast<HardeningLaw>(i > 0 ? i - 1 : 0);
  };
  return entry(key, slot,
               "Flow curve of the " + zone +
                   ": the base plate's scaled by a ratio, or a law of its own with the "
                   "numbers in [" +
                   section + "].")
      .otherwise("scaled");
}

void add_strength(Options &o)
{
  const auto metal = [](const Case &c)
  { return c.weld.has_metal() && !c.weld.metal_flow.own; };
  const auto haz = [](const Case &c)
  { return c.weld.haz_width > 0 && !c.weld.haz_flow.own; };
  const std::vector<std::string> metal_keys = {"weld.preparation", "weld.width",
                                               "weld.metal_law"},
                                 haz_keys   = {"weld.haz_width", "weld.haz_law"};
  const auto taken = [](Entry law, const std::string &key, ZoneFlow Weld::*place)
  {
    return std::move(law).or_as_in(key, {"material.catalogue", key},
                                   [place](const Case &c)
                                   { return graded_zone(c, place); });
  };
  const auto with_metal = [](const Case &c) { return c.weld.has_metal(); };
  const auto with_haz   = [](const Case &c) { return c.weld.haz_width > 0; };
  add(o,
      entry("weld.metal_grade",
            TextSlot{at(&Case::weld, &Weld::metal_flow, &ZoneFlow::grade)},
            "Name of a metal that gives the weld metal's flow curve; throughbend materials "
            "lists them.")
          .only("with weld metal", {"weld.preparation", "weld.width"}, with_metal));
  add(o,
      entry("weld.haz_grade", TextSlot{at(&Case::weld, &Weld::haz_flow, &ZoneFlow::grade)},
            "Name of a metal that gives the flow curve of the HAZ.")
          .only("weld.haz_width above 0", {"weld.haz_width"}, with_haz));
  add(o, taken(zone_law("weld.metal_law", "weld metal", "weld_metal", &Weld::metal_flow),
               "weld.metal_grade", &Weld::metal_flow)
             .only("with weld metal", {"weld.preparation", "weld.width"}, with_metal));
  add(o, taken(zone_law("weld.haz_law", "heat-affected bands", "haz", &Weld::haz_flow),
               "weld.haz_grade", &Weld::haz_flow)
             .only("weld.haz_width above 0", {"weld.haz_width"}, with_haz));
  add(o, ratio("weld.strength_ratio", between(0.1, 5), weld(&Weld::strength_ratio),
               "Flow stress of the weld metal divided by that of the base plate.")
             .otherwise("1")
             .only("with weld metal of law scaled", metal_keys, metal));
  add(o, ratio("weld.haz_ratio", between(0.1, 5), weld(&Weld::haz_ratio),
               "Flow stress of the HAZ divided by that of the base plate, at the fusion "
               "line.")
             .otherwise("1")
             .only("with a HAZ of law scaled", haz_keys, haz));
  add(o, ratio("weld.haz_base_ratio", between(0.1, 5), weld(&Weld::haz_base_ratio),
               "The same ratio where the HAZ meets the base plate; linear in between.")
             .only("with a HAZ of law scaled", haz_keys, haz)
             .otherwise_by("weld.haz_ratio", {"weld.haz_ratio"},
                           [](const Case &c) { return c.weld.haz_ratio; }));
  // Hardness traverses across arc welds pass from one zone to the next within some half to
  // one millimetre (common practice, no source). A sharp jump has no converged peak strain.
  add(o, only_welded(length("weld.transition", between(0, 20), weld(&Weld::transition),
                            "Width over which the strength changes from one zone to the "
                            "next; 0 mm = a jump: the peak strain then keeps growing as "
                            "the mesh is refined, and clears no metal.")
                         .otherwise("1 mm")));
}

/// Width of the weld metal at its face or root, flush with the plate [mm].
double surface_width(const Case &c, BendKind surface)
{
  const Weld  &w     = c.weld;
  const double plate = c.coupon.thickness;
  const bool   face  = surface == BendKind::face;
  const auto   flank = [&](double angle, double depth)
  {
    return w.gap() / 2 + std::max(w.penetration, std::tan(angle) * std::max(depth, 0.) +
                                                     w.penetration / std::cos(angle));
  };
  switch (w.preparation)
  {
  case Preparation::single_v:
    return 2 * flank(w.included_angle / 2, face ? plate - w.root_face : 0);
  case Preparation::double_v:
    return 2 * flank(w.included_angle / 2, (plate - w.root_face) / 2);
  case Preparation::single_bevel:
    return flank(0, 0) + flank(w.included_angle, face ? plate - w.root_face : 0);
  case Preparation::square:
    break;
  }
  return w.width + 2 * w.penetration;
}

void add_reinforcement(Options &o)
{
  struct Surface
  {
    std::string   name, words;
    BendKind      surface;
    Reinforcement Weld::*place;
  };
  for (const Surface &s :
       {Surface{"cap", "The cap left on the weld's face", BendKind::face, &Weld::cap},
        Surface{"root_bead", "The bead left on the weld's root", BendKind::root,
                &Weld::root_bead}})
  {
    const auto        place   = s.place;
    const auto        surface = s.surface;
    const std::string height  = "weld." + s.name + "_height";
    add(o, only_welded(length(height, between(0, 50),
                              at(&Case::weld, place, &Reinforcement::height),
                              s.words + ": height above the plate; 0 mm = ground flush.")
                           .otherwise("0 mm")));
    add(o, length("weld." + s.name + "_width", above(0, 1000),
                  at(&Case::weld, place, &Reinforcement::width),
                  s.words + ": width from toe to toe.")
               .only(height + " above 0", {height},
                     [place](const Case &c) { return (c.weld.*place).height > 0; })
               .otherwise_by("weld metal at that surface and 3 mm",
                             {"weld.width", "weld.root_opening", "weld.included_angle",
                              "weld.root_face", "weld.penetration", "coupon.thickness"},
                             [surface](const Case &c)
                             { return surface_width(c, surface) + 3; }));
  }
  add(o, length("weld.toe_radius", between(0.05, 50), weld(&Weld::toe_radius),
                "Radius of the toes of cap and root bead.")
             .only("with a cap or root bead", {"weld.cap_height", "weld.root_bead_height"},
                   [](const Case &c)
                   { return c.weld.cap.height > 0 || c.weld.root_bead.height > 0; })
             .otherwise("1 mm"));
}

/// What a zone bears, whatever its flow curve.
void add_ductility(Options &o, const std::string &section, const std::string &grade_key,
                   ZoneFlow Weld::*place)
{
  const bool metal = section == "weld_metal";
  const auto only  = [&](Entry entry)
  {
    return std::move(entry)
        .or_as_in(grade_key, {"material.catalogue", grade_key},
                  [place](const Case &c) { return graded_zone(c, place); })
        .only(metal ? "with weld metal" : "weld.haz_width above 0",
              metal ? std::vector<std::string>{"weld.preparation", "weld.width"}
                    : std::vector<std::string>{"weld.haz_width"},
              [metal](const Case &c)
              { return metal ? c.weld.has_metal() : c.weld.haz_width > 0; })
        .otherwise("0");
  };
  add(o, only(ratio(section + ".elongation", between(0, 1),
                    at(&Case::weld, place, &ZoneFlow::elongation),
                    "Elongation at fracture in a tension test, for the ductility used; 0 = "
                    "not known.")));
  add(o, only(ratio(section + ".limit_strain", between(0, 5),
                    at(&Case::weld, place, &ZoneFlow::limit_strain),
                    "Largest local log strain that this zone bears in a bend, from your "
                    "own test. It takes precedence over elongation; 0 = not known.")));
}

/// The numbers of a zone that has a flow curve of its own.
void add_zone(Options &o, const std::string &section, const std::string &law,
              const std::string &grade_key, ZoneFlow Weld::*place)
{
  using Law        = HardeningLaw;
  const auto curve = [place](auto member)
  { return at(&Case::weld, place, &ZoneFlow::curve, member); };
  const auto only = [&](Entry entry, const std::vector<Law> &laws)
  {
    std::string words = law;
    for (const Law each : laws)
      words += (each == laws.front() ? " " : ", ") + to_text(each);
    return std::move(entry)
        .or_as_in(grade_key, {"material.catalogue", grade_key, law},
                  [place](const Case &c)
                  {
                    ModelCase model = graded_zone(c, place);
                    if (model.value &&
                        (model.value->weld.*place).curve.law != (c.weld.*place).curve.law)
                      model.value.reset();
                    return model;
                  })
        .only(words, {law},
              [place, laws](const Case &c)
              {
                const ZoneFlow &flow = c.weld.*place;
                return flow.own &&
                       std::find(laws.begin(), laws.end(), flow.curve.law) != laws.end();
              });
  };
  add(o, only(stress(section + ".yield", between(1, 5000), curve(&FlowCurve::yield),
                     "Flow stress at first yield."),
              {Law::perfect, Law::linear, Law::voce, Law::ludwik}));
  add(o, only(stress(section + ".hardening", between(0, 1e5), curve(&FlowCurve::hardening),
                     "Linear hardening modulus against plastic strain.")
                  .otherwise("0 MPa"),
              {Law::linear, Law::voce}));
  add(o,
      only(stress(section + ".saturation", between(0, 5000), curve(&FlowCurve::saturation),
                  "Total rise of the flow stress until saturation."),
           {Law::voce}));
  add(o, only(ratio(section + ".rate", above(0, 10000), curve(&FlowCurve::rate),
                    "Rate at which the flow stress saturates with plastic strain."),
              {Law::voce}));
  add(o, only(stress(section + ".strength", above(0, 20000), curve(&FlowCurve::strength),
                     "Strength coefficient of the power law."),
              {Law::swift, Law::ludwik}));
  add(o, only(ratio(section + ".prestrain", above(0, 1), curve(&FlowCurve::prestrain),
                    "Strain offset of the Swift curve."),
              {Law::swift}));
  add(o, only(ratio(section + ".exponent", above(0, 1), curve(&FlowCurve::exponent),
                    "Hardening exponent of the power law."),
              {Law::swift, Law::ludwik}));
  add(o, only(entry(section + ".table", TableSlot{curve(&FlowCurve::points)},
                    "Points plastic strain:true stress, strains rising from 0."),
              {Law::table}));
  const auto formula =
      [&](const std::string &name, FormulaPart part, const std::string &help)
  {
    return only(
        entry(section + "." + name, FormulaSlot{curve(&FlowCurve::formula), part}, help),
        {Law::formula});
  };
  add(o, formula("formula", FormulaPart::expression,
                 "Flow stress as an expression in p, as in [material]."));
  add(o, formula("constants", FormulaPart::constants,
                 "Values of the names in the formula, as in [material]."));
  const std::vector<Law> any = {Law::perfect, Law::linear, Law::voce,   Law::swift,
                                Law::ludwik,  Law::table,  Law::formula};
  add(o, only(ratio(section + ".last_strain", above(0, 10), curve(&FlowCurve::last_strain),
                    "Last plastic strain covered by a test.")
                  .otherwise("1"),
              any));
  add(o,
      only(choice(section + ".extrapolation", {"formula", "hold_slope", "flat"},
                  curve(&FlowCurve::extrapolation), "Beyond last_strain, as in [material].")
               .otherwise("formula"),
           any));
  add_ductility(o, section, grade_key, place);
}
} // namespace

void add_weld_options(Options &o)
{
  add_geometry(o);
  add_reinforcement(o);
  add_strength(o);
  add_zone(o, "weld_metal", "weld.metal_law", "weld.metal_grade", &Weld::metal_flow);
  add_zone(o, "haz", "weld.haz_law", "weld.haz_grade", &Weld::haz_flow);
}
} // namespace throughbend
