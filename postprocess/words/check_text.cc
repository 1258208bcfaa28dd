#include "postprocess/words/check_text.h"

#include "inputs/text/plain_text.h"
#include "inputs/units/display_units.h"
#include "inputs/units/exact_units.h"
#include "inputs/units/shop_fraction.h"
#include "postprocess/words/caution.h"
#include "postprocess/words/rule_text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace throughbend
{
namespace
{
constexpr std::size_t columns = 92, widest_row = 100;

/// Hands push with less than a kN or a kip.
std::string light_force_text(const double newtons, const UnitSystem units)
{
  return units == UnitSystem::us ? decimal_text(newtons / n_per_pound, 0) + " lbf"
                                 : decimal_text(newtons, 0) + " N";
}

using Row = std::array<std::string, 4>;

/// Cells of all rows as wide as the widest; the last one goes on below itself.
std::string aligned(const std::vector<Row> &rows, const std::vector<std::size_t> &widths)
{
  std::string text;
  for (const Row &row : rows)
  {
    std::string head = " ";
    for (std::size_t i = 0; i + 1 < row.size(); ++i)
    {
      head += ' ' + row[i];
      if (row[i].size() < widths[i])
        head += std::string(widths[i] - row[i].size(), ' ');
    }
    head += ' ';
    if (row.back().empty())
    {
      text += head.substr(0, head.find_last_not_of(' ') + 1) + '\n';
      continue;
    }
    std::string lines = wrapped(row.back(), std::string(head.size(), ' '), widest_row);
    text += lines.replace(0, head.size(), head);
  }
  return text;
}

/// The formulas met so far; a line refers to one by its number.
class Formulas
{
public:
  std::string reference(const Formula &formula)
  {
    auto at = std::find_if(all_.begin(), all_.end(),
                           [&](const Formula &f) { return f.name == formula.name; });
    if (at == all_.end())
      at = all_.insert(all_.end(), formula);
    else if (at->limits.find(formula.limits) == at->limits.npos)
      at->limits += "; " + formula.limits;
    return "[" + std::to_string(at - all_.begin() + 1) + "]";
  }

  std::string text(const FormulaTokens words) const
  {
    std::string text;
    for (std::size_t i = 0; i < all_.size(); ++i)
    {
      const std::string number = "[" + std::to_string(i + 1) + "]";
      const std::string said   = words == FormulaTokens::names
                                     ? all_[i].name
                                     : all_[i].name + ". Source: " + all_[i].source +
                                         ". Limits: " + all_[i].limits + ".";
      std::string       lines  = wrapped(said, "       ", columns);
      lines.replace(2, number.size(), number);
      text += lines;
    }
    return text;
  }

private:
  std::vector<Formula> all_;
};

std::string value_text(const ScreenLine &line, const UnitSystem units)
{
  if (!line.shown.empty())
    return line.shown;
  if (!line.low || !line.high)
    return figure_text(line.value, line.measure, units);
  // No shop fractions for what is only roughly known, and no zeros for what is thin.
  const auto shown = [&](const double value)
  {
    return line.measure == Measure::length && std::abs(value) >= 1
               ? length_text(value, units)
               : figure_text(value, line.measure, units);
  };
  const std::string high = std::isfinite(*line.high) ? shown(*line.high) : "no bound";
  std::string       low  = shown(*line.low);
  if (low == high)
    return shown(line.value);
  // One unit is enough for both ends.
  const std::size_t blank = low.find(' ');
  if (blank != low.npos && high.find(' ') != high.npos &&
      (!std::isfinite(*line.high) || low.substr(blank) == high.substr(high.find(' '))))
    low = low.substr(0, blank);
  return shown(line.value) + " (" + low + " to " + high + ")";
}

Row row_of(const ScreenLine &line, Formulas &formulas, const UnitSystem units)
{
  std::string against;
  for (const auto &weighed : {line.against, line.also})
    if (weighed)
      against += (against.empty() ? "" : "; ") + weighed->words + " " +
                 figure_text(weighed->value, weighed->measure, units) + weighed->tail;
  if (!line.note.empty())
    against += (against.empty() ? "" : "; ") + line.note;
  return {to_text(line.verdict), line.quantity + " " + formulas.reference(line.formula),
          value_text(line, units), against};
}

std::string force_table(const std::vector<ForcePoint> &points, const UnitSystem units)
{
  if (points.empty())
    return "";
  const auto padded = [](const std::string &text, std::size_t width)
  { return std::string(text.size() < width ? width - text.size() : 0, ' ') + text; };
  std::string text = "\nRam force along the travel\n    travel    legs at         low    "
                     "estimate        high\n";
  for (const ForcePoint &p : points)
    text += padded(length_text(p.travel, units), 10) +
            padded(angle_text(p.leg_angle * 180 / 3.14159265358979323846), 11) +
            padded(force_text(p.force.low, units), 12) +
            padded(force_text(p.force.value, units), 12) +
            padded(force_text(p.force.high, units), 12) + '\n';
  return text;
}

std::string list_text(const std::string &head, const std::vector<std::string> &items)
{
  if (items.empty())
    return "";
  std::string text = '\n' + head + '\n';
  for (const std::string &item : items)
  {
    std::string lines = wrapped(item, "    ", columns);
    lines.replace(2, 1, "-");
    text += lines;
  }
  return text;
}

std::string verdict_text(const Screening &screening)
{
  switch (screening.worst())
  {
  case Verdict::no:
    return "NO: at least one line below says no.\n";
  case Verdict::close:
    return "CLOSE: nothing below says no, but a margin is small.\n";
  case Verdict::ok:
  case Verdict::figure:
    break;
  }
  return screening.not_cleared.empty() ? "OK: no line below says no or close.\n"
                                       : "OK as far as known: no line below says no or "
                                         "close, but see what is not cleared.\n";
}
} // namespace

std::string figure_text(const double value, const Measure measure, const UnitSystem units)
{
  switch (measure)
  {
  case Measure::length:
    if (units == UnitSystem::us)
      return value < 0 ? length_text(value, units) : inch_text(value);
    if (std::abs(value) < 0.1 && value != 0)
      return decimal_text(value, 3) + " mm";
    return std::abs(value) < 30 ? fine_length_text(value, units)
                                : length_text(value, units);
  case Measure::force:
    return std::abs(value) < 1000 ? light_force_text(value, units)
                                  : force_text(value, units);
  case Measure::line_load:
    return units == UnitSystem::us ? force_text(value * mm_per_inch, units) + "/in"
                                   : decimal_text(value, 0) + " N/mm";
  case Measure::stress:
    return stress_text(value, units);
  case Measure::energy:
    return energy_text(value, units);
  case Measure::speed:
    return speed_text(value, units);
  case Measure::angle:
    return value == std::round(value) ? decimal_text(value, 0) + " deg" : angle_text(value);
  case Measure::share:
    return percent_text(value);
  case Measure::count:
    return decimal_text(value, 0);
  }
  return "";
}

std::string check_text(const Screening &screening, const UnitSystem units,
                       const FormulaTokens words)
{
  Formulas                      formulas;
  std::vector<std::vector<Row>> sections;
  std::vector<std::size_t>      widths(4);
  for (const ScreenSection &section : screening.sections)
  {
    sections.emplace_back();
    for (const ScreenLine &line : section.lines)
    {
      sections.back().push_back(row_of(line, formulas, units));
      for (std::size_t i = 0; i < widths.size(); ++i)
        widths[i] = std::max(widths[i], sections.back().back()[i].size());
    }
  }
  std::string text = screening.title.empty() ? "" : screening.title + '\n';
  text += verdict_text(screening);
  for (std::size_t i = 0; i < sections.size(); ++i)
    text += '\n' + screening.sections[i].title + '\n' + aligned(sections[i], widths);
  text += force_table(screening.force, units);
  if (screening.rule)
    text += "\nPublished rule\n" + comparison_text(*screening.rule, units);
  text += list_text("Not cleared", screening.not_cleared);
  text += list_text("Left out", screening.cautions);
  text += words == FormulaTokens::names
              ? "\nFormulas (--sources: their sources and limits)\n"
              : "\nFormulas\n";
  text += formulas.text(words);
  text += list_text("Only push can say", screening.only_push);
  return text + '\n' + caution_text();
}
} // namespace throughbend
