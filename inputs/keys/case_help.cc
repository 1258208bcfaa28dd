#include "inputs/keys/case_help.h"

#include "inputs/keys/option_table.h"
#include "inputs/keys/spread.h"
#include "inputs/text/plain_text.h"

namespace throughbend
{
namespace
{
constexpr std::size_t columns = 92;

/// `LENGTH`, `CHOICE`, ...: what stands for the value behind a key.
std::string value_word(const Option &option)
{
  if (const auto *number = std::get_if<NumberSlot>(&option.slot))
    return to_text(number->kind);
  if (std::holds_alternative<CountSlot>(option.slot))
    return "count";
  if (std::holds_alternative<ChoiceSlot>(option.slot))
    return "choice";
  if (const auto *formula = std::get_if<FormulaSlot>(&option.slot))
    return formula->part == FormulaPart::expression ? "formula" : "constants";
  return std::holds_alternative<TableSlot>(option.slot) ? "points" : "text";
}

std::string units_list()
{
  std::string text = "Units\n";
  for (const UnitKind kind :
       {UnitKind::length, UnitKind::force, UnitKind::stress, UnitKind::angle,
        UnitKind::density, UnitKind::ratio, UnitKind::count})
    text += "  " + to_text(kind) + ": " + allowed_units(kind) + "\n";
  return text + "  Fractions are welcome: 3/8 in, 1-1/2in, 1 1/2\"\n";
}
} // namespace

std::string help_text()
{
  std::string text = wrapped("Keys of a case. In the file: the section in square brackets, "
                             "then name = value. On the command line: --section.name "
                             "\"value\", which overrides the file.",
                             "", columns) +
                     "\n" + units_list();
  std::string section;
  for (const Option &option : option_table())
  {
    if (option.section != section)
    {
      section = option.section;
      text += "\n[" + section + "]\n";
    }
    text += "  --" + option.key() + " <" + value_word(option) + ">\n";
    std::string limits =
        allowed_text(option, UnitSystem::metric) + "; " + default_in_words(option);
    if (!option.applies_text.empty())
      limits += "; only: " + option.applies_text;
    text += wrapped(limits, "      ", columns) + wrapped(option.help, "      ", columns);
  }
  text += "\n[" + std::string(spread_section) + "]\n  --" + spread_section +
          ".OTHER.KEY <law>\n" + wrapped(spread_help(), "      ", columns);
  return text;
}
} // namespace throughbend
