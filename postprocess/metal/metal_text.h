#pragma once
// What fit-metal says: how the test was read, every law with what tells whether it may be
// used, the keys of the one to take, and cautions for whoever acts on them.

#include "inputs/metal/bend_strain.h"
#include "inputs/metal/certificate_curve.h"
#include "inputs/metal/fit/law_fit.h"
#include "inputs/units/units.h"

#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// A test with its laws, and the bend that they are to serve.
struct FittedMetal
{
  std::string               file;
  TensionTest               test;
  LawFits                   laws;
  double                    young = 0; ///< [MPa]
  std::optional<BendStrain> bend;      ///< nothing: no case was named
};

std::string fitted_text(const FittedMetal &metal, UnitSystem units);
/// What keeps the keys from being used without a thought, a sentence each.
std::vector<std::string> fit_cautions(const FittedMetal &metal);
std::string              fitted_keys(const FittedMetal &metal); ///< a section of a case

std::string estimated_text(const Certificate &given, const CertificateCurve &curve,
                           const std::optional<BendStrain> &bend, double young,
                           UnitSystem units);
/// Young's modulus [MPa].
std::string estimated_keys(const Certificate &given, const CertificateCurve &curve,
                           double young);
} // namespace throughbend
