#include "inputs/catalogue/rule_cells.h"

#include "inputs/text/plain_text.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
/// The pieces between separators, trimmed.
std::vector<std::string_view> pieces(std::string_view text, std::string_view separator)
{
  std::vector<std::string_view> found;
  for (std::size_t start = 0; start <= text.size();)
  {
    const std::size_t end = std::min(text.find(separator, start), text.size());
    found.push_back(trimmed(text.substr(start, end - start)));
    start = end + separator.size();
  }
  return found;
}

std::optional<Comparator> take_comparator(std::string_view &text)
{
  for (const Comparator comparator :
       {Comparator::up_to, Comparator::at_least, Comparator::below, Comparator::above})
    if (const std::string sign = to_text(comparator); text.substr(0, sign.size()) == sign)
    {
      text = trimmed(text.substr(sign.size()));
      return comparator;
    }
  return std::nullopt;
}

bool is_upper(Comparator comparator)
{
  return comparator == Comparator::below || comparator == Comparator::up_to;
}

Edge edge_of(Comparator comparator)
{
  return comparator == Comparator::below || comparator == Comparator::above ? Edge::open
                                                                            : Edge::closed;
}

/// The range without what a limit forbids.
void narrow(Range &range, Comparator comparator, double value)
{
  if (is_upper(comparator) && value < range.high)
  {
    range.high      = value;
    range.high_edge = edge_of(comparator);
  }
  if (!is_upper(comparator) && value > range.low)
  {
    range.low      = value;
    range.low_edge = edge_of(comparator);
  }
}

std::optional<How> how_of(std::string_view word)
{
  for (const How how : {How::read, How::computed, How::from_memory, How::invented})
    if (word == to_text(how))
      return how;
  return std::nullopt;
}
} // namespace

std::string to_text(How how)
{
  switch (how)
  {
  case How::read:
    return "read";
  case How::computed:
    return "computed";
  case How::from_memory:
    return "from memory";
  case How::invented:
    return "invented";
  }
  return "";
}

std::string to_text(Comparator comparator)
{
  switch (comparator)
  {
  case Comparator::below:
    return "<";
  case Comparator::up_to:
    return "<=";
  case Comparator::at_least:
    return ">=";
  case Comparator::above:
    return ">";
  }
  return "";
}

How HowNotes::of(const std::string &column) const
{
  const auto found = columns.find(column);
  return found == columns.end() ? row : found->second;
}

bool HowNotes::any(How how) const
{
  return row == how ||
         std::any_of(columns.begin(), columns.end(),
                     [&](const auto &column) { return column.second == how; });
}

HowNotes read_how(std::string_view cell)
{
  HowNotes notes;
  bool     first = true;
  for (const std::string_view piece : pieces(cell, ";"))
  {
    const std::size_t colon = piece.find(':');
    const auto        how =
        how_of(colon == std::string_view::npos ? piece : trimmed(piece.substr(colon + 1)));
    if (!how || first != (colon == std::string_view::npos))
    {
      notes.error = "'" + clipped(piece, 40) +
                    "' is not read, computed, from memory or invented; write 'read', or "
                    "'read; COLUMN: from memory'";
      return notes;
    }
    if (first)
      notes.row = *how;
    else
      notes.columns[std::string(trimmed(piece.substr(0, colon)))] = *how;
    first = false;
  }
  return notes;
}

bool DimensionRule::uses(const std::string &letter) const
{
  return (nominal && nominal->uses(letter)) ||
         std::any_of(limits.begin(), limits.end(),
                     [&](const Limit &limit) { return limit.formula.uses(letter); });
}

Range DimensionRule::range(const Lengths &known) const
{
  Range range;
  for (const Limit &limit : limits)
    if (const auto value = limit.formula.value(known))
      narrow(range, limit.comparator, *value);
  return range;
}

std::optional<double> DimensionRule::value(const Lengths &known) const
{
  const Range range = this->range(known);
  if (const auto value = nominal ? nominal->value(known) : std::nullopt)
    return std::min(std::max(*value, range.low), range.high);
  for (const Limit &limit : limits)
    if (limit.formula.value(known))
      return is_upper(limit.comparator) ? range.high : std::min(range.low, range.high);
  return std::nullopt;
}

DimensionRule read_dimension(std::string_view cell, const std::vector<std::string> &letters)
{
  DimensionRule rule;
  rule.text = std::string(trimmed(cell));
  if (rule.text.empty())
    return rule;
  for (std::string_view piece : pieces(rule.text, ";"))
  {
    const auto          comparator = take_comparator(piece);
    const LengthFormula formula    = LengthFormula::read(piece, letters);
    if (!formula.ok())
      rule.error = formula.error();
    else if (comparator)
      rule.limits.push_back({*comparator, formula});
    else if (rule.nominal)
      rule.error = "has two figures without < or >; write 'figure; >= least; <= most'";
    else
      rule.nominal = formula;
    if (!rule.error.empty())
      return rule;
  }
  return rule;
}

bool RangeCell::takes(const double value) const
{
  // Half of the last place in which limits are printed: whole MPa; tenths of a mm where
  // inches were converted.
  const double slack = (kind == UnitKind::stress                          ? 0.5
                        : kind == UnitKind::length && !other_text.empty() ? 0.05
                                                                          : 0.) +
                       1e-9;
  if (fixed())
    return std::abs(value - range.low) <= slack || std::abs(value - other.low) <= slack;
  const double least = std::min(range.low, other.low), most = upper();
  const bool   above = range.low_edge == Edge::closed
                           ? value >= least - slack
                           : value > std::max(range.low, other.low) + slack;
  const bool   below =
      range.high_edge == Edge::closed ? value <= most + slack : value < most - slack;
  return above && below;
}

double RangeCell::upper() const
{
  return range.high_edge == Edge::closed ? std::max(range.high, other.high)
                                         : std::min(range.high, other.high);
}

std::string RangeCell::both_texts() const
{
  return text + (other_text.empty() || other_text == text ? "" : " (" + other_text + ")");
}

void pair_with(RangeCell &cell, const Range &other, const std::string &other_text)
{
  const Range &own = cell.range;
  if (own.low_edge != other.low_edge || own.high_edge != other.high_edge ||
      std::isfinite(own.low) != std::isfinite(other.low) ||
      std::isfinite(own.high) != std::isfinite(other.high))
    return;
  cell.other      = other;
  cell.other_text = other_text;
}

void pair_by_custom(RangeCell &cell)
{
  if (cell.kind != UnitKind::stress)
    return;
  const double ksi     = read_quantity("1 ksi", UnitKind::stress).value;
  const auto   partner = [ksi](const double limit)
  {
    if (!std::isfinite(limit))
      return limit;
    const double in_ksi = limit / ksi, whole = std::round(in_ksi);
    if (std::abs(in_ksi - whole) < 1e-6)
      return 5 * std::round(limit / 5);
    return std::abs(in_ksi - whole) < 0.003 * in_ksi ? whole * ksi : limit;
  };
  cell.other.low  = partner(cell.range.low);
  cell.other.high = partner(cell.range.high);
}

RangeCell read_range(std::string_view cell, UnitKind kind)
{
  RangeCell result;
  result.kind = kind;
  result.text = std::string(trimmed(cell));
  if (result.text.empty())
    return result;
  for (std::string_view piece : pieces(result.text, " and "))
  {
    const auto comparator = take_comparator(piece);
    const bool equal      = !comparator && piece.substr(0, 1) == "=";
    if (!comparator && !equal)
    {
      result.error = "'" + clipped(piece, 30) +
                     "' lacks <, <=, >, >= or =; write a range as in '> 50 ksi and < 90 "
                     "ksi'";
      return result;
    }
    const Quantity value = read_quantity(equal ? piece.substr(1) : piece, kind);
    if (!value.ok())
    {
      result.error = "'" + clipped(piece, 30) + "': " + value.error;
      return result;
    }
    if (equal)
      result.range = {value.value, value.value, Edge::closed, Edge::closed};
    else
      narrow(result.range, *comparator, value.value);
  }
  result.other = result.range;
  if (result.range.low > result.range.high)
    result.error = "'" + result.text + "' leaves nothing between its limits";
  return result;
}
} // namespace throughbend
