#include "inputs/keys/starter_case.h"

#include "inputs/keys/case_reader.h"
#include "inputs/keys/option_table.h"
#include "inputs/keys/spread.h"
#include "inputs/text/plain_text.h"

#include <fmt/core.h>

#include <algorithm>
#include <map>

namespace throughbend
{
namespace
{
constexpr std::size_t columns = 92;

/// Invented: the training yard at Kestrel Haven.
const std::map<std::string, std::string> &yard_values()
{
  static const std::map<std::string, std::string> values = {
      {"case.title", "Kestrel Haven training yard: sound pass, 10 mm coupon"},
      {"coupon.length", "160 mm"},
      {"coupon.width", "38 mm"},
      {"coupon.thickness", "10 mm"},
      {"material.law", "voce"},
      {"material.yield", "250 MPa"},
      {"material.saturation", "200 MPa"},
      {"material.rate", "12"},
      {"material.hardening", "150 MPa"},
      {"plunger.width", "40 mm"},
      {"shoulders.radius", "20 mm"},
      {"shoulders.opening", "63.2 mm"},
      {"friction.plunger", "0.12"},
      {"friction.shoulders", "0.12"},
      {"ram.capacity", "80 kN"},
      {"ram.stroke", "120 mm"},
  };
  return values;
}

/// The yard's case with all defaults in force.
Case yard_case()
{
  std::string lines;
  for (const auto &[key, value] : yard_values())
    lines += key + " = " + value + "\n";
  return read_case_text(lines, "starter", {}).value.value();
}

std::string comment_for(const Option &option)
{
  std::string words = option.help + " (" + allowed_text(option, UnitSystem::metric) + "; " +
                      default_in_words(option);
  if (!option.applies_text.empty())
    words += "; only: " + option.applies_text;
  return words + ")";
}

/// The beginning of an option's help, up to the first full stop, semicolon or list.
std::string few_words(const std::string &help)
{
  std::size_t end = help.size();
  for (const char *stop : {". ", "; ", ", at most"})
    end = std::min(end, help.find(stop));
  const std::string words = help.substr(0, end);
  return words.back() == '.' ? words.substr(0, words.size() - 1) : words;
}
} // namespace

std::string starter_text()
{
  std::string text =
      wrapped(
          "A case to start from: one coupon, pushed once through a fixture. Change what "
          "differs in your shop, then run: throughbend push CASE. Lengths, forces and "
          "stresses carry a unit: 9.5 mm, 3/8 in, 1-1/2 in, 80 kN, 18 kip, 250 MPa, 50 "
          "ksi. A line with '#' in front is a comment; keys that stand as comments show "
          "their default.",
          "# ", columns) +
      "#\n" +
      wrapped("The result is an estimate, never an acceptance of a weld.", "# ", columns);
  const Case  yard = yard_case();
  std::string section;
  for (const Option &option : option_table())
  {
    if (option.section != section)
    {
      section = option.section;
      text += "\n[" + section + "]\n";
    }
    text += wrapped(comment_for(option), "# ", columns);
    const auto typed = yard_values().find(option.key());
    if (typed != yard_values().end())
      text += option.name + " = " + typed->second + "\n";
    else if (!option.applies || option.applies(yard))
      text += "# " + option.name + " = " + value_text(option, yard) + "\n";
    else
      text += "# " + option.name + " =" +
              (option.default_text.empty() ? "" : " " + option.default_text) + "\n";
  }
  text += "\n[" + std::string(spread_section) + "]\n" +
          wrapped(spread_help(), "# ", columns) +
          "# coupon.thickness = +- 0.2 mm\n# material.yield = catalogue\n"
          "# friction.shoulders = catalogue\n# friction.plunger = as friction.shoulders\n";
  return text;
}

std::string short_starter_text()
{
  std::string text = "# Every key, with its range and default: throughbend starter\n"
                     "# The result is an estimate, never an acceptance of a weld.\n";
  std::string section;
  for (const Option &option : option_table())
  {
    const auto typed = yard_values().find(option.key());
    if (typed == yard_values().end() || option.key() == "case.title")
      continue;
    if (option.section != section)
    {
      section = option.section;
      text += "[" + section + "]\n";
    }
    text += fmt::format("{:<24}# {}\n", option.name + " = " + typed->second,
                        few_words(option.help));
  }
  return text;
}
} // namespace throughbend
