#pragma once
// The kinds of cells that catalogues of rules are made of: a dimension with its limits
// (`A + 3t; > A + 2t; <= A + 3t`), a range (`> 50 ksi and < 90 ksi`), and how figures were
// obtained (`read; D: from memory`). Reads and evaluates them; what they rule is not asked.

#include "inputs/length_formula.h"
#include "inputs/option.h"

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

/// A range of values, or why it could not be read. An empty cell has no limits.
struct RangeCell
{
  Range       range;
  std::string text; ///< as it is written
  std::string error;

  bool given() const { return !text.empty(); }
  bool fixed() const { return range.low == range.high; } ///< written with `=`
};
RangeCell read_range(std::string_view cell, UnitKind kind);
} // namespace throughbend
