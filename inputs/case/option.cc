#include "inputs/case/option.h"

#include "inputs/metal/flow_formula.h"
#include "inputs/metal/flow_points.h"
#include "inputs/text/plain_text.h"
#include "inputs/units/length_formula.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr std::size_t longest_title = 200;

/// Calls the visitor that fits the slot's type.
template <class... Visitors>
struct Overloaded : Visitors...
{
  using Visitors::operator()...;
};
template <class... Visitors>
Overloaded(Visitors...) -> Overloaded<Visitors...>;

std::string joined(const std::vector<std::string> &words, const std::string &between)
{
  std::string list;
  for (const std::string &word : words)
    list += (list.empty() ? "" : between) + word;
  return list;
}

std::string range_complaint(double value, const Range &range)
{
  const bool too_low =
      value < range.low || (value == range.low && range.low_edge == Edge::open);
  if (!too_low)
    return "is too large";
  return value < 0 && range.low >= 0 ? "must not be negative" : "is too small";
}

/// A length in multiples of the thickness; nothing if the text is none.
std::optional<Setting> set_multiple(const NumberSlot &slot, std::string_view text,
                                    Case &into)
{
  if (!slot.thickness || read_quantity(text, slot.kind).ok())
    return std::nullopt;
  const LengthFormula formula = LengthFormula::read(text, {"t"});
  if (!formula.ok() || !formula.uses("t"))
    return std::nullopt;
  Setting      setting;
  const double thickness = slot.thickness(into);
  const double value     = *formula.value({{"t", thickness}});
  if (!(thickness > 0))
    setting.open = true;
  else if (!slot.range.contains(value))
    setting.error = range_complaint(value, slot.range) + " (" +
                    to_text(value, slot.kind, UnitSystem::metric) + ")";
  else
    slot.at(into) = value;
  return setting;
}

Setting set_number(const NumberSlot &slot, std::string_view text, Case &into)
{
  if (const auto multiple = set_multiple(slot, text, into))
    return *multiple;
  const Quantity quantity = read_quantity(text, slot.kind);
  Setting        setting{quantity.error, quantity.note, quantity.system};
  if (setting.error.empty() && !slot.range.contains(quantity.value))
    setting.error = range_complaint(quantity.value, slot.range);
  if (setting.error.empty())
    slot.at(into) = quantity.value;
  return setting;
}

Setting set_count(const CountSlot &slot, std::string_view text, Case &into)
{
  const Quantity quantity = read_quantity(text, UnitKind::count);
  Setting        setting{quantity.error, quantity.note, quantity.system};
  if (setting.error.empty() && !slot.range.contains(quantity.value))
    setting.error = range_complaint(quantity.value, slot.range);
  if (setting.error.empty())
    slot.at(into) = static_cast<int>(quantity.value);
  return setting;
}

Setting set_choice(const ChoiceSlot &slot, std::string_view text, Case &into)
{
  const std::string word  = std::string(trimmed(text));
  const auto        found = std::find(slot.names.begin(), slot.names.end(), word);
  if (found != slot.names.end())
  {
    slot.set(into, static_cast<std::size_t>(found - slot.names.begin()));
    return {};
  }
  Setting setting;
  setting.error = word.empty() ? "has no value" : "is not one of the choices";
  if (const auto nearest = nearest_name(word, slot.names); nearest && !word.empty())
    setting.error += ", did you mean '" + *nearest + "'?";
  return setting;
}

Setting set_text(const TextSlot &slot, std::string_view text, Case &into)
{
  const std::string line(trimmed(text));
  Setting           setting;
  // '#' begins a comment in a case file, so a text with one could not be written down
  // again.
  if (find_binary_byte(line) || line.find_first_of("#\n\r") != std::string::npos)
    setting.error = "must be one line of plain UTF-8 text without '#'";
  else if (line.size() > longest_title)
    setting.error = "is longer than " + std::to_string(longest_title) + " bytes";
  else
    slot.at(into) = line;
  return setting;
}

Setting set_table(const TableSlot &slot, std::string_view text, Case &into)
{
  const FlowTable table = read_flow_points(text);
  if (table.error.empty())
    slot.at(into) = table.points;
  Setting setting;
  setting.error = table.error;
  return setting;
}

/// The curve is made as soon as both parts are there.
Setting set_formula(const FormulaSlot &slot, std::string_view text, Case &into)
{
  Setting     setting;
  FlowFormula formula = slot.at(into);
  if (slot.part == FormulaPart::expression)
  {
    formula.expression = trimmed(text);
    setting.error      = expression_fault(formula.expression);
  }
  else
  {
    const ConstantsReading reading = read_formula_constants(text);
    formula.constants              = reading.constants;
    setting.error                  = reading.error;
  }
  if (setting.error.empty() && !formula.expression.empty() && !formula.constants.empty())
    setting.error = tabulate(formula);
  if (setting.error.empty())
    slot.at(into) = formula;
  return setting;
}
} // namespace

bool Range::contains(double value) const
{
  const bool above = low_edge == Edge::closed ? value >= low : value > low;
  const bool below = high_edge == Edge::closed ? value <= high : value < high;
  return above && below;
}

std::string Range::text(UnitKind kind, UnitSystem system) const
{
  if (low_edge == Edge::closed && high_edge == Edge::closed && std::isfinite(low) &&
      std::isfinite(high))
    return to_text(low, kind, system) + " to " + to_text(high, kind, system);
  std::string words;
  if (std::isfinite(low))
    words = (low_edge == Edge::open ? "above " : "from ") + to_text(low, kind, system);
  if (std::isfinite(high))
    words += (words.empty() ? "" : ", ") +
             std::string(high_edge == Edge::open ? "below " : "up to ") +
             to_text(high, kind, system);
  return words;
}

Setting set_option(const Option &option, std::string_view text, Case &into)
{
  return std::visit(
      Overloaded{[&](const NumberSlot &slot) { return set_number(slot, text, into); },
                 [&](const CountSlot &slot) { return set_count(slot, text, into); },
                 [&](const ChoiceSlot &slot) { return set_choice(slot, text, into); },
                 [&](const TextSlot &slot) { return set_text(slot, text, into); },
                 [&](const TableSlot &slot) { return set_table(slot, text, into); },
                 [&](const FormulaSlot &slot) { return set_formula(slot, text, into); }},
      option.slot);
}

Setting set_default(const Option &option, Case &into)
{
  for (const OptionModel &source : option.models)
    if (const ModelCase model = source.of(into); model.value)
      return set_option(option, value_text(option, *model.value), into);
  if (!option.default_text.empty())
    return set_option(option, option.default_text, into);
  if (const auto *text = std::get_if<TextSlot>(&option.slot))
  {
    text->at(into).clear();
    return {};
  }
  Setting                     setting;
  const std::optional<double> value = option.rule ? option.rule(into) : std::nullopt;
  const auto                 *slot  = std::get_if<NumberSlot>(&option.slot);
  if (!value || !slot)
    setting.error = "is required but missing";
  else if (!slot->range.contains(*value))
    setting.error = "is " + to_text(*value, slot->kind, UnitSystem::metric) +
                    " if left out (" + option.rule_text + "), which " +
                    range_complaint(*value, slot->range);
  else
    slot->at(into) = *value;
  return setting;
}

std::string value_text(const Option &option, Case from)
{
  return std::visit(
      Overloaded{[&](const NumberSlot &slot)
                 { return exact_text(slot.at(from), slot.kind); },
                 [&](const CountSlot &slot) { return std::to_string(slot.at(from)); },
                 [&](const ChoiceSlot &slot) { return slot.names.at(slot.get(from)); },
                 [&](const TextSlot &slot) { return slot.at(from); },
                 [&](const TableSlot &slot) { return exact_text(slot.at(from)); },
                 [&](const FormulaSlot &slot)
                 {
                   const FlowFormula &formula = slot.at(from);
                   return slot.part == FormulaPart::expression
                              ? formula.expression
                              : exact_text(formula.constants);
                 }},
      option.slot);
}

std::string allowed_text(const Option &option, UnitSystem system)
{
  return std::visit(
      Overloaded{[&](const NumberSlot &slot)
                 {
                   return slot.range.text(slot.kind, system) +
                          (slot.thickness ? ", also in thicknesses as 4t" : "");
                 },
                 [&](const CountSlot &slot)
                 { return slot.range.text(UnitKind::count, system); },
                 [&](const ChoiceSlot &slot) { return joined(slot.names, " | "); },
                 [&](const TextSlot &) { return std::string("one line of text"); },
                 [&](const TableSlot &)
                 { return std::string("strain:stress, strain:stress, ..."); },
                 [&](const FormulaSlot &slot)
                 {
                   return slot.part == FormulaPart::expression
                              ? std::string("an expression in p with ") + formula_words
                              : std::string("name:stress or name:number, ...");
                 }},
      option.slot);
}

std::string default_in_words(const Option &option)
{
  std::string words =
      std::holds_alternative<TextSlot>(option.slot) ? "default empty" : "required";
  if (!option.default_text.empty())
    words = "default " + option.default_text;
  else if (!option.rule_text.empty())
    words = "default " + option.rule_text;
  std::string keys;
  for (const OptionModel &model : option.models)
    keys += (keys.empty() ? "" : " or ") + model.key;
  return words + (keys.empty() ? "" : ", or as " + keys + " says");
}
} // namespace throughbend
