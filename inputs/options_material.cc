// Keys of the section material.

#include "inputs/option_sections.h"
#include "inputs/option_words.h"

namespace throughbend
{
using namespace option_words;

void add_material_options(Options &o)
{
  using Law       = HardeningLaw;
  const auto flow = [](auto member)
  { return at(&Case::material, &Material::flow, member); };

  add(o, stress("material.young", between(1000, 1e6), at(&Case::material, &Material::young),
                "Young's modulus.")
             .otherwise("210 GPa"));
  add(o, ratio("material.poisson", between(0, 0.49),
               at(&Case::material, &Material::poisson), "Poisson's ratio.")
             .otherwise("0.3"));
  add(o, number("material.density", UnitKind::density, between(500, 25000),
                at(&Case::material, &Material::density),
                "Density; only the ejection speed needs it.")
             .otherwise("7850 kg/m^3"));
  add(o, choice("material.law", {"perfect", "linear", "voce", "swift", "ludwik", "table"},
                flow(&FlowCurve::law),
                "Flow stress s over plastic strain p. perfect: yield; linear: yield + "
                "hardening p; voce: yield + saturation (1 - exp(-rate p)) + hardening p; "
                "swift: strength (prestrain + p)^exponent; ludwik: yield + strength "
                "p^exponent; table: straight lines between points."));
  add(o, stress("material.yield", between(1, 5000), flow(&FlowCurve::yield),
                "Flow stress at first yield.")
             .only_for_laws({Law::perfect, Law::linear, Law::voce, Law::ludwik}));
  add(o, stress("material.hardening", between(0, 1e5), flow(&FlowCurve::hardening),
                "Linear hardening modulus against plastic strain.")
             .only_for_laws({Law::linear, Law::voce})
             .otherwise_by("0 MPa for voce, required for linear", {"material.law"},
                           [](const Case &c) -> std::optional<double>
                           {
                             if (c.material.flow.law == Law::voce)
                               return 0.;
                             return std::nullopt;
                           }));
  add(o, stress("material.saturation", between(0, 5000), flow(&FlowCurve::saturation),
                "Rise of the flow stress until it saturates.")
             .only_for_laws({Law::voce}));
  add(o, ratio("material.rate", above(0, 10000), flow(&FlowCurve::rate),
               "How fast the flow stress saturates with plastic strain.")
             .only_for_laws({Law::voce}));
  add(o, stress("material.strength", above(0, 20000), flow(&FlowCurve::strength),
                "Strength coefficient of the power law.")
             .only_for_laws({Law::swift, Law::ludwik}));
  add(o, ratio("material.prestrain", above(0, 1), flow(&FlowCurve::prestrain),
               "Strain by which the swift curve is shifted; it sets the yield stress.")
             .only_for_laws({Law::swift}));
  add(o, ratio("material.exponent", above(0, 1), flow(&FlowCurve::exponent),
               "Hardening exponent of the power law.")
             .only_for_laws({Law::swift, Law::ludwik}));
  add(o, entry("material.table", TableSlot{flow(&FlowCurve::points)},
               "Points plastic strain:true stress, strains rising from 0, as in "
               "0:250 MPa, 0.02:300 MPa, 0.2:420 MPa.")
             .only_for_laws({Law::table}));
  add(o, ratio("material.last_strain", above(0, 10), flow(&FlowCurve::last_strain),
               "Last plastic strain that a test backs; beyond it the extrapolation rules.")
             .otherwise_by("1, for a table its last strain",
                           {"material.law", "material.table"},
                           [](const Case &c) -> std::optional<double>
                           {
                             const FlowCurve &curve = c.material.flow;
                             return curve.law == Law::table && !curve.points.empty()
                                        ? curve.points.back().plastic_strain
                                        : 1.;
                           }));
  add(o,
      choice("material.extrapolation", {"formula", "hold_slope", "flat"},
             flow(&FlowCurve::extrapolation),
             "Beyond last_strain: the law goes on (formula; a table goes on with its last "
             "slope), a straight line with the last slope, or a constant stress.")
          .otherwise("formula"));
}
} // namespace throughbend
