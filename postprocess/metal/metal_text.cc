#include "postprocess/metal/metal_text.h"

#include "inputs/keys/material_keys.h"
#include "inputs/metal/considere.h"
#include "inputs/text/plain_text.h"
#include "inputs/text/text_columns.h"
#include "inputs/units/display_units.h"
#include "inputs/units/exact_units.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr std::size_t columns = 92;

// Of the stress: what a law may be off at a point before it is told.
constexpr double large_residual = 0.02;
// Of the strain of necking, by which a law may differ from the test.
constexpr double other_necking = 0.2;

std::string stress(const double value, const UnitSystem units)
{
  return units == UnitSystem::us ? fmt::format("{:.4g} ksi", value / mpa_per_ksi)
                                 : fmt::format("{:.4g} MPa", value);
}

std::string paragraph(const std::string &head, const std::vector<std::string> &sentences)
{
  std::string text = head + "\n";
  for (const std::string &sentence : sentences)
    text += wrapped(sentence, "  ", columns);
  return text + "\n";
}

std::vector<double> asked_strains(const FittedMetal &metal)
{
  if (metal.bend)
    return {metal.bend->nominal, metal.bend->largest};
  return {2 * metal.test.end.strain};
}

Material material_of(const FittedMetal &metal)
{
  Material made;
  made.young = metal.young;
  made.flow  = metal.laws.best().curve;
  if (metal.test.necks) // else it is more than what was recorded
    made.tensile_strength = std::round(10 * metal.test.tensile_strength) / 10;
  return made;
}

std::string law_table(const FittedMetal &metal, const UnitSystem units)
{
  const std::vector<double> asked = asked_strains(metal);
  std::vector<std::string>  heads = {"law",  "numbers", "scatter",  "largest",
                                     "AICc", "runs",    "necks at", "strength"};
  for (const double p : asked)
    heads.push_back(fmt::format("at p = {:.2g}", p));
  TextColumns table(heads);
  for (const LawFit &fit : metal.laws.fits)
  {
    const TensileStrength    neck  = considere(fit.curve);
    std::vector<std::string> cells = {
        (&fit == &metal.laws.best() ? "* " : "  ") + fit.name,
        std::to_string(fit.numbers),
        stress(fit.scatter, units),
        stress(fit.largest, units),
        fmt::format("+{:.1f}", fit.aicc - metal.laws.fits.front().aicc),
        fmt::format("{:.1f}", fit.runs),
        fmt::format("{:.3g}", neck.strain),
        stress(neck.stress, units)};
    for (const double p : asked)
      cells.push_back(stress(fit.curve.stress(p), units));
    table.add(cells);
  }
  return table.text();
}

/// Keys under a head of remarks.
std::string section(const std::vector<std::string> &remarks, const Material &material)
{
  std::string text = std::string(metal_mark) + ".\n";
  for (const std::string &remark : remarks)
    text += wrapped(remark, "# ", columns);
  return text + "[material]\n" + material_keys(material);
}

Material estimated(const Certificate &given, const FlowCurve &curve, const double young)
{
  Material made;
  made.young            = young;
  made.flow             = with_five_digits(curve);
  made.tensile_strength = given.ultimate;
  made.elongation       = given.elongation;
  return made;
}
} // namespace

std::vector<std::string> fit_cautions(const FittedMetal &metal)
{
  const LawFit            &best = metal.laws.best();
  std::vector<std::string> cautions;
  const TensileStrength    neck = considere(best.curve);
  if (best.patterned() && best.largest > 0.005 * metal.test.end.stress)
    cautions.push_back(fmt::format(
        "the residuals of {} have a pattern (their signs change {:.1f} standard "
        "deviations too seldom): no law fits this curve. Use the curve itself: "
        "material.curve = {}",
        best.name, -best.runs, metal.file));
  if (best.largest > large_residual * metal.test.end.stress)
    cautions.push_back(
        fmt::format("{} is off by up to {:.3g} MPa, {:.2g} % of the stress at "
                    "the force maximum",
                    best.name, best.largest, 100 * best.largest / metal.test.end.stress));
  if (!best.converged)
    cautions.push_back(best.name + " was still changing when the search ended; look at the "
                                   "drawing before it is used");
  if (metal.test.necks &&
      std::abs(neck.strain - metal.test.end.strain) > other_necking * metal.test.end.strain)
    cautions.push_back(fmt::format("by {} the bar would neck at p = {:.3g}, and it did "
                                   "at {:.3g}: beyond the test this law is not valid",
                                   best.name, neck.strain, metal.test.end.strain));
  if (elastic_fault(metal.test, metal.young) != ElasticFault::none)
    cautions.push_back(
        "the elastic part does not rise by Young's modulus: if that is because the section "
        "is wrong, every stress here is off by as much, and if the gauge length is, every "
        "strain. Measure both again");
  if (!metal.test.necks)
    cautions.push_back(
        "the test did not reach the force maximum: the tensile strength is at least the "
        "last stress, and how the curve continues is uncertain");
  if (!metal.bend)
    cautions.push_back(fmt::format("the test covers p up to {:.3g}; a bend over a "
                                   "plunger of four thicknesses needs {:.2g} to {:.2g}. "
                                   "--case CASE gives the strain of your bend",
                                   metal.test.end.strain, bend_strain(4, 1).nominal,
                                   bend_strain(4, 1).largest));
  else if (metal.bend->largest > metal.test.end.strain)
  {
    const double p     = metal.bend->largest;
    const double used  = best.curve.stress(p);
    const double swift = metal.test.beyond.swift.stress(p),
                 voce  = metal.test.beyond.voce.stress(p);
    cautions.push_back(fmt::format(
        "the bend strains its convex face to p = {:.2g} to {:.2g}, the test covers "
        "{:.3g}: beyond it the flow stress is extrapolated. At p = {:.2g} {} gives "
        "{:.4g} MPa; through the end of the test Swift's law gives {:.4g} MPa ({:+.1f} "
        "%) and Voce's {:.4g} MPa ({:+.1f} %). The true curve may lie above or below "
        "all of these",
        metal.bend->nominal, p, metal.test.end.strain, p, best.name, used, swift,
        100 * (swift / used - 1), voce, 100 * (voce / used - 1)));
  }
  return cautions;
}

std::string fitted_keys(const FittedMetal &metal)
{
  const LawFit &best = metal.laws.best();
  return section(
      {fmt::format("Fitted to {}: {} by the least corrected Akaike criterion; scatter "
                   "{:.3g} MPa, largest residual {:.3g} MPa, test covers p up to {:.4g}.",
                   metal.file, best.name, best.scatter, best.largest,
                   metal.test.end.strain),
       "Elongation at fracture and density are not in it; Young's modulus is that which it "
       "was "
       "read with."},
      material_of(metal));
}

std::string fitted_text(const FittedMetal &metal, const UnitSystem units)
{
  const LawFit &best = metal.laws.best();
  std::string   text =
      paragraph("Test " + metal.file, reading_notes(metal.test, metal.young));
  text += fmt::format("Laws, fitted to {} points from p = {:.4g} to {:.4g}\n",
                      best.residuals.size(),
                      metal.test.points[metal.test.points.size() - best.residuals.size()]
                          .plastic_strain,
                      metal.test.end.strain) +
          law_table(metal, units);
  text +=
      wrapped("scatter: root mean square of the residuals; AICc: above the least, within "
              "2 is as good; runs: below -1.96 the residuals have a pattern; necks at, "
              "strength: by Considere, " +
                  (metal.test.necks
                       ? fmt::format("the test {:.3g} and {}", metal.test.end.strain,
                                     stress(metal.test.tensile_strength, units))
                       : std::string("which the test did not reach")),
              "  ", columns) +
      "\n";
  text += paragraph(
      "Taken", {best.name + (metal.laws.taken == 0 ? ": the least criterion"
                                                   : ": as good as the least criterion (" +
                                                         metal.laws.fits.front().name +
                                                         ") with fewer numbers")});
  if (const auto cautions = fit_cautions(metal); !cautions.empty())
    text += paragraph("Caution", cautions);
  return text + fitted_keys(metal);
}

std::string estimated_keys(const Certificate &given, const CertificateCurve &curve,
                           const double young)
{
  const Material estimate = estimated(given, curve.estimate, young);
  const auto     other    = [&](const char *words, const FlowCurve &of)
  {
    const FlowCurve shown = with_five_digits(of);
    return fmt::format(
        "{}: strength = {} MPa, prestrain = {}, exponent = {}, last_strain = "
        "{}",
        words, shown.strength, shown.prestrain, shown.exponent, shown.last_strain);
  };
  return section(
      {"ESTIMATED from a certificate, not a measured curve. Uniform strain 0.6 (1 - "
       "yield / ultimate), Yun and Gardner 2017 and prEN 1993-1-14 (from memory), for "
       "structural steels; Swift's law by Considere.",
       "The band, run both: " + other("early necking", curve.early) + "; " +
           other("late necking", curve.late) + "."},
      estimate);
}

std::string estimated_text(const Certificate &given, const CertificateCurve &curve,
                           const std::optional<BendStrain> &bend, const double young,
                           const UnitSystem units)
{
  std::vector<std::string> notes = {
      fmt::format("estimated from yield {}, tensile strength {}{}: not a measured curve",
                  stress(given.yield, units), stress(given.ultimate, units),
                  given.elongation > 0
                      ? fmt::format(", elongation {:.3g} %", 100 * given.elongation)
                      : std::string()),
      fmt::format("the bar necks at a uniform strain of {:.3g} %, in the band at {:.3g} to "
                  "{:.3g} % (0.6 (1 - yield / ultimate), Yun and Gardner 2017 and prEN "
                  "1993-1-14, from memory, for structural steels; band assumed)",
                  100 * curve.uniform, 100 * curve.uniform_early,
                  100 * curve.uniform_late)};
  notes.insert(notes.end(), curve.notes.begin(), curve.notes.end());
  std::string text = paragraph("Certificate", notes);

  TextColumns         table({"p", "least", "estimate", "largest", "band"});
  std::vector<double> strains = {0, 0.01, 0.02, 0.05, 0.1, 0.15};
  if (bend)
  {
    strains.push_back(bend->nominal);
    strains.push_back(bend->largest);
  }
  else
    strains.insert(strains.end(), {0.2, 0.25, 0.3});
  std::sort(strains.begin(), strains.end());
  const FlowCurve shown = with_five_digits(curve.estimate);
  for (const double p : strains)
  {
    const double middle = shown.stress(p), least = std::min(curve.least(p), middle),
                 largest = std::max(curve.largest(p), middle);
    table.add({fmt::format("{:.3g}", p), stress(least, units), stress(middle, units),
               stress(largest, units),
               fmt::format("{:+.1f} to {:+.1f} %", 100 * (least / middle - 1),
                           100 * (largest / middle - 1))});
  }
  text += "Flow stress over plastic strain\n" + table.text() + "\n";
  std::vector<std::string> cautions = {
      "the band covers the uncertainty of the curve's shape. It does not cover "
      "differences within the plate or a certificate of another plate"};
  if (bend)
    cautions.push_back(
        fmt::format("the bend strains its convex face to p = {:.2g} to {:.2g}; a "
                    "certificate covers {:.3g} at most",
                    bend->nominal, bend->largest, shown.last_strain));
  else
    cautions.push_back("--case CASE gives the strain of the bend");
  return text + paragraph("Caution", cautions) + estimated_keys(given, curve, young);
}
} // namespace throughbend
