#pragma once
// The force along the travel as a function of friction and flow-stress factor, between
// passes that were made: each force, and each figure of the bent coupon, is a low
// polynomial in both that goes through the passes or, where there are more of them than it
// needs, nearest to them. Only good near the passes; knows nothing of readings.

#include "inputs/case/shop_readings.h"

#include <map>
#include <vector>

namespace throughbend
{
/// What the passes of a fit differ in.
struct FitPoint
{
  double friction = 0; ///< of the shoulders [-]
  double factor   = 1; ///< on every flow stress of the case [-]
};

/// One pass, as far as a fit asks for it.
struct FitPass
{
  FitPoint                  point;
  std::vector<double>       travel, force;   ///< [mm], [N], ascending
  bool                      lets_go = false; ///< through or dropped: no force afterwards
  std::map<EndKind, double> ends;            ///< those that are known [deg], [mm], [-]
  std::string               outcome, verdict;
};

/// [N] straight between the steps, 0 before the first touch and after the coupon has left;
/// NaN beyond the end of a pass that was cut short.
double force_at(const FitPass &pass, double travel);

class PassSurface
{
public:
  /// Of the powers 1, f, s, f s, f^2, s^2, f^2 s as many as the passes tell: f = friction,
  /// s = factor. Throws std::logic_error without a pass.
  explicit PassSurface(std::vector<FitPass> passes);

  double force(double travel, const FitPoint &point) const; ///< [N], NaN: not covered
  double end(EndKind kind, const FitPoint &point) const;    ///< NaN: not known

  /// Adds to the force at every travel, and to the figures, what another pass at a point
  /// has more there: one on a finer mesh.
  void correct_by(const FitPass &finer);

  const std::vector<FitPass> &passes() const { return passes_; }
  double                      covered() const; ///< travel to which all passes reach [mm]

private:
  std::vector<double> weights(const FitPoint &point) const;
  std::vector<double> powers(const FitPoint &point) const;

  std::vector<FitPass>             passes_;
  std::vector<int>                 powers_;  ///< which are used
  std::vector<std::vector<double>> inverse_; ///< pseudo-inverse, a row a power
  FitPoint                         middle_;
  std::vector<FitPass>             finer_; ///< none or one
  FitPass                          below_; ///< the surface itself at the finer pass's point
};
} // namespace throughbend
