#include "postprocess/app/metal_order.h"

#include "inputs/keys/material_keys.h"
#include "inputs/text/input_error.h"
#include "postprocess/app/companion.h"
#include "postprocess/app/help.h"

namespace throughbend
{
namespace
{
/// The value of an option, in inside units.
double stated(const VerbArguments &given, const std::string &option, const UnitKind kind)
{
  const Quantity value = read_quantity(given.value(option), kind);
  if (!value.ok())
    throw InputError("--" + option + " " + given.value(option) + ": " + value.error + ".");
  return value.value;
}

ExitCode carry_out(const std::vector<std::string> &words)
{
  const VerbArguments given = verb_arguments(fit_metal_verb(), words);
  if (given.help)
    return show(verb_help(fit_metal_verb()));
  metal_order(given);
  become("throughbend-metal", words);
}
} // namespace

MetalOrder metal_order(const VerbArguments &given)
{
  MetalOrder order;
  order.curve    = given.operands.empty() ? "" : given.operands.front();
  const bool any = given.has("yield") || given.has("ultimate") || given.has("elongation");
  if (order.curve.empty() && !any)
    throw InputError(
        "fit-metal needs the file of a tension test, as in fit-metal plate.csv, "
        "or a certificate: fit-metal --yield \"355 MPa\" --ultimate \"510 MPa\" "
        "--elongation 22%");
  if (!order.curve.empty() && any)
    throw InputError("give either a tension test or a certificate: leave out --yield, "
                     "--ultimate and --elongation, or the file.");
  if (any && (!given.has("yield") || !given.has("ultimate")))
    throw InputError(
        "a certificate needs both --yield and --ultimate, and --elongation if it is "
        "known.");
  if (any)
  {
    Certificate certificate{stated(given, "yield", UnitKind::stress),
                            stated(given, "ultimate", UnitKind::stress), 0};
    if (given.has("elongation"))
    {
      certificate.elongation = stated(given, "elongation", UnitKind::ratio);
      if (!(certificate.elongation > 0))
        throw InputError("--elongation must be above 0 %; leave it out where it is not "
                         "known.");
    }
    certificate_curve(certificate); // throws where they contradict each other
    order.certificate = certificate;
  }
  order.case_file = given.value("case");
  if (given.has("case") && order.case_file.empty())
    throw InputError("--case names no file.");
  if (given.has("young"))
  {
    order.young = stated(given, "young", UnitKind::stress);
    if (!(*order.young >= 1000 && *order.young <= 1e6))
      throw InputError("--young must lie between 1 GPa and 1000 GPa.");
  }
  order.foreign = given.has("overwrite") ? ForeignFile::replace : ForeignFile::keep;
  order.units   = units_of(given);
  order.drawing = given.value("drawing");
  order.into    = given.value("into");
  if (given.has("drawing"))
    check_place("drawing", order.drawing, drawing_mark, order.foreign);
  if (given.has("into"))
    check_place("into", order.into, metal_mark, order.foreign);
  if (given.has("into") && order.into == order.drawing)
    throw InputError("--drawing and --into name the same file. Choose two names.");
  return order;
}

Verb fit_metal_verb()
{
  return {
      "fit-metal",
      "CURVE",
      "the keys of a metal, from a tension test or a certificate",
      "Fits every hardening law to a tension test and prints the keys of the best one, "
      "ready to paste into a case: throughbend fit-metal plate.csv. The file has two "
      "columns with their units in the heads: engineering strain and engineering "
      "stress, true strain and true stress, plastic strain and true stress, or "
      "extension and force below lines such as 'gauge length = 50 mm' and 'section = "
      "125 mm^2'. Points beyond the force maximum are not used. For each law it prints "
      "the scatter, whether the residuals have a pattern, and where the bar would neck. "
      "With --case it says whether the bend strains the metal more than the test "
      "covers. A case can also name the file itself: material.curve. Without a file, "
      "yield, ultimate and elongation of a certificate give an estimate with a band: "
      "throughbend fit-metal --yield \"355 MPa\" --ultimate \"510 MPa\" --elongation 22%",
      {{"yield", "STRESS", "of a certificate: R_eH or R_p0.2", {}},
       {"ultimate", "STRESS", "of a certificate: tensile strength R_m", {}},
       {"elongation", "RATIO", "of a certificate: A at fracture, as 22%", {}},
       {"case",
        "FILE",
        "a case: its thickness and plunger give the strain of the bend, and its Young's "
        "modulus is used",
        {}},
       {"young", "STRESS", "Young's modulus; default that of --case, else 210 GPa", {}},
       {"drawing", "FILE", "an SVG drawing of data, laws and residuals", {}},
       {"into",
        "FILE",
        "the keys as a file, a section [material] to paste into a case",
        {}},
       {"overwrite",
        "",
        "replace a file of that name that was not made by fit-metal. Its own files are "
        "always replaced",
        {}},
       units_option("of the printed output")},
      CaseKeys::none,
      1,
      carry_out};
}
} // namespace throughbend
