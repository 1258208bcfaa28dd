// The rule that the catalogue's metals follow, worked out again for a certificate. Sources:
// inputs/metal/certificate_curve.h; Considere (1885); the catalogue's own rows.

#include "inputs/keys/material_catalogue.h"
#include "inputs/metal/certificate_curve.h"
#include "inputs/metal/considere.h"
#include "inputs/text/input_error.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;
using Catch::Matchers::Contains;

TEST_CASE("a certificate with a catalogue's figures gives the catalogue's curve",
          "[unit][certificate]")
{
  // Not a516-70: the rule's uniform strain lies beyond that standard's least elongation. A
  // certificate's elongation is the bar's own, and cuts it. Rows are rounded to a tenth of
  // a MPa and a thousandth; their curves agree to 0.3 %.
  for (const char *name :
       {"a36", "s235", "s275", "s355", "a572-50", "s690ql", "e7018", "s355-typical"})
  {
    const Material  &row = built_in_materials().row(name).material;
    const FlowCurve &own = row.flow;
    INFO(name);
    const CertificateCurve made =
        certificate_curve({own.initial_stress(), row.tensile_strength, row.elongation});
    CHECK(made.estimate.exponent == Approx(own.exponent).margin(0.0006));
    CHECK(made.estimate.strength == Approx(own.strength).epsilon(0.002));
    for (const double p : {0., 0.01, 0.05, 0.1, 0.2})
      CHECK(made.estimate.stress(p) == Approx(own.stress(p)).epsilon(0.003));
  }
}

TEST_CASE("all three curves have the certificate's yield and tensile strength",
          "[unit][certificate]")
{
  const CertificateCurve made = certificate_curve({355, 510, 0.22});
  // By hand: 0.6 (1 - 355 / 510) = 0.18235; 0.7 and 1.3 times that; 0.4 and 0.7 of 22 %.
  CHECK(made.uniform == Approx(0.18235).epsilon(1e-4));
  CHECK(made.uniform_early == Approx(0.088).epsilon(1e-6));
  CHECK(made.uniform_late == Approx(0.22).epsilon(1e-6)); // 0.237, cut to the elongation
  for (const FlowCurve &curve : {made.estimate, made.early, made.late})
  {
    CHECK(curve.initial_stress() == Approx(355).epsilon(1e-9));
    CHECK(considere(curve).stress == Approx(510).epsilon(1e-6));
    CHECK(considere(curve).strain == Approx(curve.exponent - curve.prestrain).margin(1e-4));
  }
  for (const double p : {0.001, 0.02, 0.1, 0.25, 0.5})
  {
    CHECK(made.least(p) <= made.estimate.stress(p));
    CHECK(made.largest(p) >= made.estimate.stress(p));
  }
  CHECK(made.late.stress(0.3) > made.early.stress(0.3));
  CHECK(made.late.stress(0.02) < made.early.stress(0.02));
}

TEST_CASE("contradictions in a certificate are named", "[unit][certificate]")
{
  CHECK_THROWS_WITH(certificate_curve({510, 355, 0.22}), Contains("exchanged"));
  CHECK_THROWS_WITH(certificate_curve({355, 355, 0.22}), Contains("is not above"));
  CHECK_THROWS_WITH(certificate_curve({0.355, 510, 0.22}), Contains("--yield"));
  CHECK_THROWS_WITH(certificate_curve({50, 510, 0.22}), Contains("5 times"));
  CHECK_THROWS_WITH(certificate_curve({355, 510, 22}), Contains("--elongation"));
  CHECK_THROWS_WITH(certificate_curve({355, 355.2, 0}), Contains("law = perfect"));
  CHECK_THAT(certificate_curve({200, 510, 0.22}).notes.front(), Contains("cut to that"));
  CHECK_THAT(certificate_curve({355, 510, 0}).notes.front(), Contains("no elongation"));
}
