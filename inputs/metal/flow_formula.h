#pragma once
// A flow curve that the user writes as a formula of p, the equivalent plastic strain, with
// constants of his own: `s0 + q*(1-exp(-b*p))` with `s0:355 MPa, q:200 MPa, b:12`. Reads,
// judges and tabulates it; the flow curve uses it.

#include "inputs/metal/tabulated_flow.h"
#include "inputs/units/units.h"

#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
/// A named number: a stress [MPa] or a plain number.
struct FormulaConstant
{
  std::string name;
  double      value = 0;
  UnitKind    kind  = UnitKind::ratio; ///< stress or ratio
};

struct FlowFormula
{
  std::string                  expression;
  std::vector<FormulaConstant> constants;
  /// The curve; null until expression and constants are there and go together. Shared by
  /// all copies: it never changes.
  std::shared_ptr<const TabulatedFlow> curve;

  FlowFormula scaled(double factor) const; ///< every stress times factor [-] > 0
};

/// The operators and functions that a formula may have, for messages and help.
extern const char *const formula_words;

/// What is wrong with an expression by itself, with the cure; empty: nothing.
std::string expression_fault(const std::string &expression);

/// Constants that were read, or the reason why they could not be.
struct ConstantsReading
{
  std::vector<FormulaConstant> constants;
  std::string                  error; ///< empty if they are good
};
ConstantsReading read_formula_constants(std::string_view text);

/// With as many digits as it takes to read back the very same constants.
std::string exact_text(const std::vector<FormulaConstant> &constants);

/// Makes the curve. Returns what keeps expression and constants from going together, with
/// the cure (a name without a constant, a constant without use, a stress written as a plain
/// number); then there is no curve. Whether the curve rises is for fault() of it to say.
std::string tabulate(FlowFormula &formula);
} // namespace throughbend
