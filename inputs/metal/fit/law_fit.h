#pragma once
// The hardening laws of the program fitted to a measured flow curve by least squares
// (Ceres Solver: Levenberg-Marquardt with bounds, exact derivatives), and which of them to
// take. Linked only by the program that fits.
//
// Every point counts alike. The choice goes by Akaike's criterion, corrected for few
// points: n ln(S / n) + 2 k + 2 k (k + 1) / (n - k - 1), S = sum of squares, k = numbers of
// the law and one for the scatter; Hurvich & Tsai (1989) Biometrika 76, 297. Laws within 2
// of the least are as good (Burnham & Anderson (2002), from memory): of them the one with
// the fewest numbers is taken. Whether the residuals have a pattern is judged by the runs
// of their signs: Wald & Wolfowitz (1940) Ann. Math. Stat. 11, 147.

#include "inputs/metal/flow_curve.h"

#include <string>
#include <vector>

namespace throughbend
{
struct LawFit
{
  std::string         name;          ///< as `voce`; `voce, linear` with both of its terms
  FlowCurve           curve;         ///< of figures as they are printed, five digits
  int                 numbers = 0;   ///< of the law
  std::vector<double> residuals;     ///< point less curve [MPa]
  double              scatter   = 0; ///< root mean square of them [MPa]
  double              largest   = 0; ///< of their sizes [MPa]
  double              aicc      = 0;
  double              runs      = 0; ///< standard deviations from the runs of pure chance
  bool                converged = false;

  /// Fewer runs than chance gives in one of forty: the law does not follow the curve.
  bool patterned() const { return runs < -1.96; }
};

struct LawFits
{
  std::vector<LawFit> fits;      ///< best first, by the criterion
  std::size_t         taken = 0; ///< which of them

  const LawFit &best() const { return fits[taken]; }
};

/// Requires six points or more, strains that rise from 0 on and stresses above 0.
/// `last_strain` goes into every curve.
LawFits fit_laws(const std::vector<FlowPoint> &points, double last_strain);

/// Standard deviations by which the runs of signs differ from those of chance.
double runs_of(const std::vector<double> &residuals);
} // namespace throughbend
