#pragma once
// A flow curve from what a certificate says: yield, tensile strength, elongation. It is an
// estimate, by the rule that the catalogue's metals are made by, so that a certificate with
// a catalogue's figures gives the catalogue's curve.
//
// Swift's law with the yield stress at p = 0, the tensile strength by Considere, and
//   exponent = ln(1 + uniform strain), uniform strain = 0.6 (1 - yield / ultimate),
// Yun & Gardner (2017) J. Constr. Steel Res. 133, 36, and prEN 1993-1-14, from memory; for
// structural steels. A uniform strain beyond the certificate's elongation is cut to that.
//
// Band: yield and tensile strength as given, the bar necking early and late: uniform strain
// 0.7 and 1.3 times as large (assumed, no source), and with an elongation at least from 0.4
// to 0.7 of it (common practice, no source), never beyond it.

#include "inputs/metal/flow_curve.h"

#include <string>
#include <vector>

namespace throughbend
{
struct Certificate
{
  double yield      = 0; ///< R_eH or R_p0.2 [MPa]
  double ultimate   = 0; ///< R_m [MPa]
  double elongation = 0; ///< A, at fracture [-]; 0 = not given
};

struct CertificateCurve
{
  FlowCurve                estimate, early, late; ///< swift; by where the bar necks
  double                   uniform       = 0;     ///< engineering, of the estimate [-]
  double                   uniform_early = 0, uniform_late = 0;
  std::vector<std::string> notes; ///< what was cut or is doubtful, a sentence each

  double least(double p) const;   ///< of the three [MPa]
  double largest(double p) const; ///< of the three [MPa]
};

/// Throws InputError, with the cure, for figures that contradict each other.
CertificateCurve certificate_curve(const Certificate &);

/// Swift's law of this yield stress and tensile strength [MPa] for an exponent; its last
/// strain is the exponent. Requires 0 < yield < ultimate.
FlowCurve swift_for(double yield, double ultimate, double exponent);
} // namespace throughbend
