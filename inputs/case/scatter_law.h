#pragma once
// How one quantity differs from coupon to coupon, as a law with a few numbers, and how a
// shop writes it: `9.53 mm +- 0.10 mm`, `normal 350 MPa 15 MPa`. Text and numbers only;
// quantiles and moments are in solver/study/statistics.

#include "inputs/units/units.h"

#include <limits>
#include <string>
#include <string_view>

namespace throughbend
{
enum class ScatterKind
{
  uniform,    ///< anything between two limits, all alike
  normal,     ///< mean and standard deviation
  triangular, ///< least, likeliest, largest
  lognormal   ///< median, and the factor of one standard deviation of the logarithm
};
std::string to_text(ScatterKind kind);

/// The numbers are in the inside unit of the quantity; a factor has none.
struct ScatterLaw
{
  ScatterKind kind   = ScatterKind::uniform;
  double      first  = 0; ///< uniform, triangular: least; normal: mean; lognormal: median
  double      second = 0; ///< uniform: largest; normal: standard deviation; triangular:
                          ///< likeliest; lognormal: factor, above 1
  double third = 0;       ///< triangular: largest
  /// Nothing comes from outside; what the law has there is left out, the rest scaled up.
  double low  = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();

  double least() const;   ///< that can come; may be -inf
  double largest() const; ///< that can come; may be inf
  double middle() const;  ///< of a law without limits: its median
  /// Where all but 1 in 10 000 lie (4 standard deviations of a normal law), within limits.
  double practical_least() const;
  double practical_largest() const;
};

struct ScatterReading
{
  ScatterLaw  law;
  std::string error;             ///< what is wrong, with the cure; empty if the law is good
  bool        tolerance = false; ///< written with +-
};

/// Reads the notation for a quantity of a kind; `own` is the case's own value, for a
/// tolerance without a value in front: `+- 0.10 mm`.
ScatterReading read_scatter(std::string_view text, UnitKind kind, double own);

/// Reads back as the very same law: `uniform 9.43 mm, 9.63 mm`.
std::string exact_text(const ScatterLaw &law, UnitKind kind);

/// What the notation is, a line each, for help and the starter.
std::string scatter_notation();
} // namespace throughbend
