// Keys of the section material.

#include "inputs/keys/material_catalogue.h"
#include "inputs/keys/measured_metal.h"
#include "inputs/keys/option_sections.h"
#include "inputs/keys/option_words.h"
#include "inputs/metal/considere.h"
#include "inputs/text/input_error.h"

#include <algorithm>

namespace throughbend
{
using namespace option_words;

namespace
{
/// The grade that a case names, as a case of its own.
ModelCase graded(const Case &c)
{
  ModelCase model;
  if (c.material.grade.empty())
    return model;
  try
  {
    Case filled;
    filled.material = grade(c.material.grade, c.material.catalogue);
    model.value     = filled;
  }
  catch (const InputError &fault)
  {
    model.fault = fault.what();
  }
  return model;
}

/// For what belongs to a flow curve: nothing of the grade's if the case has another curve.
ModelCase of_same_law(const Case &c)
{
  ModelCase model = graded(c);
  if (model.value && model.value->material.flow.law != c.material.flow.law)
    model.value.reset();
  return model;
}

/// A yield stress has the same meaning in every law.
ModelCase of_any_law(const Case &c)
{
  ModelCase model = graded(c);
  if (model.value)
    model.value->material.flow.yield = model.value->material.flow.initial_stress();
  return model;
}

/// Of the same law, and for a table of the same points.
ModelCase of_same_curve(const Case &c)
{
  ModelCase   model  = of_same_law(c);
  const auto &points = c.material.flow.points;
  if (model.value && c.material.flow.law == HardeningLaw::table)
  {
    const auto &own = model.value->material.flow.points;
    if (!std::equal(points.begin(), points.end(), own.begin(), own.end(),
                    [](const FlowPoint &a, const FlowPoint &b) {
                      return a.plastic_strain == b.plastic_strain && a.stress == b.stress;
                    }))
      model.value.reset();
  }
  if (model.value && c.material.flow.law == HardeningLaw::formula)
  {
    const FlowFormula &its = model.value->material.flow.formula;
    const FlowFormula &own = c.material.flow.formula;
    if (its.expression != own.expression ||
        exact_text(its.constants) != exact_text(own.constants))
      model.value.reset();
  }
  return model;
}

/// Of the grade if the curve still is the grade's, else nothing.
ModelCase of_same_strength(const Case &c)
{
  ModelCase        model = of_same_curve(c);
  const FlowCurve &flow  = c.material.flow;
  if (!model.value)
    return model;
  const FlowCurve &own = model.value->material.flow;
  if (flow.yield != own.yield && flow.law != HardeningLaw::swift &&
      flow.law != HardeningLaw::table && flow.law != HardeningLaw::formula)
    model.value.reset();
  else if (flow.hardening != own.hardening || flow.saturation != own.saturation ||
           flow.rate != own.rate || flow.strength != own.strength ||
           flow.prestrain != own.prestrain || flow.exponent != own.exponent)
    model.value.reset();
  return model;
}

/// The metal of a case with a tension test, as a case of its own.
ModelCase measured(const Case &c)
{
  ModelCase model;
  if (const auto metal = measured_metal(c.material))
  {
    Case filled;
    filled.material = *metal;
    model.value     = filled;
  }
  return model; // what is wrong with the file is told at the key that names it
}

/// Nothing to take: a grade on the command line only takes the file's test away.
ModelCase nothing(const Case &)
{
  return {};
}

const std::vector<std::string> by_name = {"material.catalogue", "material.grade"};
const std::vector<std::string> by_law  = {"material.catalogue", "material.grade",
                                          "material.law"};

const std::vector<std::string> by_curve = {"material.curve", "material.beyond_necking"};

Entry as_measured(Entry made)
{
  return std::move(made).or_as_in("material.curve", by_curve, measured);
}

Entry as_graded(Entry made)
{
  return std::move(made).or_as_in("material.grade", by_name, graded);
}

Entry as_law_of_grade(Entry made)
{
  return std::move(made).or_as_in("material.grade", by_law, of_same_law);
}
} // namespace

void add_material_options(Options &o)
{
  using Law       = HardeningLaw;
  const auto flow = [](auto member)
  { return at(&Case::material, &Material::flow, member); };

  add(o, entry("material.catalogue", TextSlot{at(&Case::material, &Material::catalogue)},
               "Your own file of grades, with the columns of the built-in one. Rows are "
               "added to the built-in ones; a row of the same name replaces one.")
             .file(
                 [](const Case &c)
                 {
                   std::vector<FileFault> faults;
                   for (const CatalogueFault &fault :
                        faults_of_materials(c.material.catalogue))
                     faults.push_back({fault.place, fault.text()});
                   return faults;
                 }));
  add(o, entry("material.grade", TextSlot{at(&Case::material, &Material::grade)},
               "Name of a metal, for example s355-typical. It sets every key of this "
               "section you leave out. throughbend materials lists the names."));
  add(o, as_graded(stress("material.young", between(1000, 1e6),
                          at(&Case::material, &Material::young), "Young's modulus.")
                       .otherwise("210 GPa")));
  add(o, as_graded(ratio("material.poisson", between(0, 0.49),
                         at(&Case::material, &Material::poisson), "Poisson's ratio.")
                       .otherwise("0.3")));
  add(o, as_graded(number("material.density", UnitKind::density, between(500, 25000),
                          at(&Case::material, &Material::density),
                          "Density, used only for the ejection speed.")
                       .otherwise("7850 kg/m^3")));
  add(o, entry("material.curve", TextSlot{at(&Case::material, &Material::curve)},
               "File of a tension test that gives the flow curve: two columns, "
               "engineering or true stress and strain, or force and extension, with "
               "their units. Points beyond the force maximum are not used.")
             .file(
                 [](const Case &c)
                 {
                   std::vector<FileFault> faults;
                   for (const std::string &fault :
                        faults_of_curve(c.material.curve, c.material.young))
                     faults.push_back({c.material.curve, fault});
                   return faults;
                 })
             .or_as_in("material.grade", {"material.young"}, nothing));
  add(o, choice("material.beyond_necking", {"mean", "swift", "voce"},
                at(&Case::material, &Material::beyond_necking),
                "Extrapolation of that curve beyond the force maximum, where the bar "
                "necks: by Swift's law, by Voce's law, or the mean of both.")
             .otherwise("mean")
             .only("with a curve", {"material.curve"},
                   [](const Case &c) { return !c.material.curve.empty(); })
             .only_an_origin());
  add(o, as_graded(as_measured(choice(
             "material.law",
             {"perfect", "linear", "voce", "swift", "ludwik", "table", "formula"},
             flow(&FlowCurve::law),
             "Hardening law: flow stress as a function of plastic strain p. perfect: "
             "yield; linear: yield + hardening p; voce: yield + saturation (1 - "
             "exp(-rate p)) + hardening p; swift: strength (prestrain + p)^exponent; "
             "ludwik: yield + strength p^exponent; table: straight lines between "
             "points; formula: your own expression."))));
  add(o, stress("material.yield", between(1, 5000), flow(&FlowCurve::yield),
                "Flow stress at first yield.")
             .only_for_laws({Law::perfect, Law::linear, Law::voce, Law::ludwik})
             .or_as_in("material.grade", by_law, of_any_law));
  add(o, as_law_of_grade(
             stress("material.hardening", between(0, 1e5), flow(&FlowCurve::hardening),
                    "Linear hardening modulus against plastic strain.")
                 .only_for_laws({Law::linear, Law::voce})
                 .otherwise_by("0 MPa for voce, required for linear", {"material.law"},
                               [](const Case &c) -> std::optional<double>
                               {
                                 if (c.material.flow.law == Law::voce)
                                   return 0.;
                                 return std::nullopt;
                               })));
  add(o, as_law_of_grade(stress("material.saturation", between(0, 5000),
                                flow(&FlowCurve::saturation),
                                "Total rise of the flow stress until saturation.")
                             .only_for_laws({Law::voce})));
  add(o, as_law_of_grade(ratio("material.rate", above(0, 10000), flow(&FlowCurve::rate),
                               "Rate at which the flow stress saturates with plastic "
                               "strain.")
                             .only_for_laws({Law::voce})));
  add(o, as_law_of_grade(stress("material.strength", above(0, 20000),
                                flow(&FlowCurve::strength),
                                "Strength coefficient of the power law.")
                             .only_for_laws({Law::swift, Law::ludwik})));
  add(o,
      as_law_of_grade(ratio("material.prestrain", above(0, 1), flow(&FlowCurve::prestrain),
                            "Strain offset of the Swift curve; it sets the yield stress.")
                          .only_for_laws({Law::swift})));
  add(o, as_law_of_grade(ratio("material.exponent", above(0, 1), flow(&FlowCurve::exponent),
                               "Hardening exponent of the power law.")
                             .only_for_laws({Law::swift, Law::ludwik})));
  add(o, as_law_of_grade(
             as_measured(entry("material.table", TableSlot{flow(&FlowCurve::points)},
                               "Points plastic strain:true stress, with strains rising "
                               "from 0. Example: 0:250 MPa, 0.02:300 MPa, 0.2:420 MPa.")
                             .only_for_laws({Law::table}))));
  const auto formula =
      [&](const std::string &name, FormulaPart part, const std::string &help)
  {
    return as_law_of_grade(
        entry("material." + name, FormulaSlot{flow(&FlowCurve::formula), part}, help)
            .only_for_laws({Law::formula}));
  };
  add(o, formula("formula", FormulaPart::expression,
                 "Flow stress as an expression in the plastic strain p (0.1 = 10 %). "
                 "Example: s0 + q*(1-exp(-b*p)). It must not fall."));
  add(o, formula("constants", FormulaPart::constants,
                 "Values of the names in the formula, stresses with their unit. "
                 "Example: s0:355 MPa, q:200 MPa, b:12."));
  add(o,
      as_measured(ratio("material.last_strain", above(0, 10), flow(&FlowCurve::last_strain),
                        "Last plastic strain covered by a test. Beyond it, "
                        "extrapolation applies."))
          .otherwise_by("1, for a table its last strain",
                        {"material.law", "material.table"},
                        [](const Case &c) -> std::optional<double>
                        {
                          const FlowCurve &curve = c.material.flow;
                          return curve.law == Law::table && !curve.points.empty()
                                     ? curve.points.back().plastic_strain
                                     : 1.;
                        })
          .or_as_in("material.grade", by_law, of_same_curve));
  add(o,
      as_law_of_grade(as_measured(
          choice("material.extrapolation", {"formula", "hold_slope", "flat"},
                 flow(&FlowCurve::extrapolation),
                 "Flow stress beyond last_strain: formula continues the law (a table with "
                 "its last slope), hold_slope is a straight line with the last slope, flat "
                 "is a constant stress.")
              .otherwise("formula"))));
  add(o, stress("material.kinematic_saturation", between(0, 3000),
                at(&Case::material, &Material::kinematic, &KinematicHardening::saturation),
                "Saturation value of the backstress (kinematic hardening): the part of "
                "the hardening that is lost when the load reverses, so that the metal "
                "yields earlier. From a tension-compression test: half the sum of the "
                "stress before reversal and the yield stress after it, compression "
                "negative. The first loading still follows the flow curve. 0 MPa = "
                "isotropic hardening only.")
             .otherwise("0 MPa"));
  add(o, ratio("material.kinematic_rate", above(0, 10000),
               at(&Case::material, &Material::kinematic, &KinematicHardening::rate),
               "Rate at which the backstress saturates with plastic strain; 95 % are "
               "reached at a strain of 3 / rate.")
             .only("kinematic_saturation above 0 MPa", {"material.kinematic_saturation"},
                   [](const Case &c) { return c.material.kinematic.present(); }));
  add(o, as_graded(ratio("material.elongation", between(0, 1),
                         at(&Case::material, &Material::elongation),
                         "Elongation at fracture in a tension test, for check and for "
                         "rules that depend on it; 0 = not known.")
                       .otherwise("0")));
  add(o, as_graded(ratio("material.limit_strain", between(0, 5),
                         at(&Case::material, &Material::limit_strain),
                         "Largest local log strain that the metal bears in a bend, from "
                         "your own test. For the ductility used it takes precedence "
                         "over elongation; 0 = not known.")
                       .otherwise("0")));
  const std::vector<std::string> curve = {
      "material.law",          "material.yield",     "material.hardening",
      "material.saturation",   "material.rate",      "material.strength",
      "material.prestrain",    "material.exponent",  "material.table",
      "material.formula",      "material.constants", "material.last_strain",
      "material.extrapolation"};
  add(o,
      as_measured(stress("material.tensile_strength", between(0, 1e5),
                         at(&Case::material, &Material::tensile_strength),
                         "Tensile strength (engineering), for check; 0 MPa = not known."))
          .otherwise_by("that of the flow curve, where it begins to neck", curve,
                        [](const Case &c) -> std::optional<double>
                        { return considere(c.material.flow).stress; })
          .or_as_in("material.grade", by_name, of_same_strength));
}
} // namespace throughbend
