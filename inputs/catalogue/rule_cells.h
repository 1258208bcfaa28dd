#pragma once
// The kinds of cells that catalogues of rules are made of: a dimension with its limits
// (`A + 3t; > A + 2t; <= A + 3t`), a range (`> 50 ksi and < 90 ksi`), and how figures were
// obtained (`read; D: from memory`). Reads and evaluates them; what they rule is not asked.

#include "inputs/case/option.h"
#include "inputs/units/length_formula.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
/// How a figure came into a catalogue.
enum class How
{
  read,        ///< in a copy of the source that is named
  computed,    ///< from other figures of the row
  from_memory, ///< to be confirmed in the source
  invented     ///< of the example cases
};
std::string to_text(How how);

/// How the figures of a row were obtained: the row as a whole, and columns that differ.
struct HowNotes
{
  How                        row = How::from_memory;
  std::map<std::string, How> columns;
  std::string                error; ///< empty if it could be read

  How  of(const std::string &column) const;
  bool any(How how) const; ///< whether the row or one of its columns is so
};
HowNotes read_how(std::string_view cell);

enum class Comparator
{
  below,    ///< <
  up_to,    ///< <=
  at_least, ///< >=
  above     ///< >
};
std::string to_text(Comparator comparator);

/// A dimension of a rule: what it is, and what it may be.
struct DimensionRule
{
  struct Limit
  {
    Comparator    comparator;
    LengthFormula formula;
  };
  std::string                  text;    ///< as it is written; empty: the rule says nothing
  std::optional<LengthFormula> nominal; ///< none: only limits
  std::vector<Limit>           limits;
  std::string                  error; ///< empty if it could be read

  bool present() const { return nominal || !limits.empty(); }
  bool uses(const std::string &letter) const;

  /// The limits in numbers [mm]; those that use unknown letters are left out.
  Range range(const Lengths &known) const;
  /// The nominal figure kept within the limits; without one, the first limit that is known,
  /// kept below the upper ones [mm]. Nothing without the letters it takes.
  std::optional<double> value(const Lengths &known) const;
};
DimensionRule read_dimension(std::string_view                cell,
                             const std::vector<std::string> &letters);

/// A range of values, or why it could not be read. An empty cell has no limits. A standard
/// prints a limit in two families of units, rounded: 50 ksi (345 MPa), 3/8 in (10 mm). Both
/// are the same limit, and a value is weighed with the rounding of the printed figures.
struct RangeCell
{
  Range       range;
  Range       other; ///< as printed in the other family; the same as `range` if it is not
  UnitKind    kind = UnitKind::length;
  std::string text;       ///< as it is written
  std::string other_text; ///< in the other family; may be empty
  std::string error;

  bool given() const { return !text.empty(); }
  bool fixed() const { return range.low == range.high; } ///< written with `=`

  /// Whether the rule takes the value. Both printed figures of a limit, and what lies
  /// between them, count as the limit itself. No limits take everything.
  bool takes(double value) const;
  /// The largest value it takes, or (an open limit) the least it does not.
  double upper() const;
  /// `<= 50 ksi (<= 345 MPa)`.
  std::string both_texts() const;
};
RangeCell read_range(std::string_view cell, UnitKind kind);

/// Tells a range how the same limits are printed in the other family. Ignored where the two
/// are not limits of one kind.
void pair_with(RangeCell &cell, const Range &other, const std::string &other_text);

/// For a strength without a partner in the other family: ksi go with the next 5 MPa, MPa
/// with the next whole ksi if that is within 0.3 %. ASTM's custom (36 ksi is 250 MPa, 50 is
/// 345, 65 is 450; from memory).
void pair_by_custom(RangeCell &cell);
} // namespace throughbend
