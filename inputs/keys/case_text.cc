#include "inputs/keys/case_text.h"

#include "inputs/keys/option_table.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <map>

namespace throughbend
{
namespace
{
/// It changes nothing in a pass.
const std::string idle_key = "solver.checkpoint_every";

/// Whether the value was left out, and is what others of the case make it.
bool follows(const Option &option, const Case &c)
{
  const auto *const number = std::get_if<NumberSlot>(&option.slot);
  if (number == nullptr || !option.rule ||
      std::find(c.stated.begin(), c.stated.end(), option.key()) != c.stated.end())
    return false;
  for (const OptionModel &source : option.models) // a grade would go before the rule
    if (const ModelCase model = source.of(c); model.value || !model.fault.empty())
      return false;
  const std::optional<double> by_rule = option.rule(c);
  if (!by_rule)
    return false;
  Case other        = c;
  number->at(other) = *by_rule;
  return value_text(option, other) == value_text(option, c);
}
} // namespace

std::string effective_text(const Case &c)
{
  std::string text = "# Every key of this pass with the value used. What was left out and "
                     "follows from other\n# keys stands as a comment, and goes on "
                     "following them; sizes are written in mm.\n";
  std::string section;
  for (const Option &option : option_table())
  {
    if (option.section != section)
    {
      section = option.section;
      text += "\n[" + section + "]\n";
    }
    if (option.only_origin)
      text += "# " + option.name +
              ": no effect here, because its values are written "
              "out\n";
    else if (option.applies && !option.applies(c))
      text += "# " + option.name + ": no effect here (only: " + option.applies_text + ")\n";
    else if (follows(option, c))
      text += "# " + option.name + " = " + value_text(option, c) + " (" + option.rule_text +
              ")\n";
    else
      text += option.name + " = " + value_text(option, c) + "\n";
  }
  return text;
}

std::vector<std::pair<std::string, std::string>> case_values(const Case &c)
{
  std::vector<std::pair<std::string, std::string>> values;
  for (const Option &option : option_table())
    if (!option.only_origin && (!option.applies || option.applies(c)))
      values.emplace_back(option.key(), value_text(option, c));
  return values;
}

std::vector<std::string>
case_difference(const std::vector<std::pair<std::string, std::string>> &there,
                const std::vector<std::pair<std::string, std::string>> &here)
{
  std::map<std::string, std::pair<std::string, std::string>> both;
  for (const auto &[key, value] : there)
    both[key] = {value, "nothing"};
  for (const auto &[key, value] : here)
    both.emplace(key, std::pair("nothing", value)).first->second.second = value;
  both.erase(idle_key);
  std::vector<std::string> lines;
  for (const auto &[key, values] : both)
    if (values.first != values.second)
      lines.push_back(key + " " + values.first + " there, " + values.second + " here");
  return lines;
}

std::string case_hash(const Case &c)
{
  std::string lines;
  for (const auto &[key, value] : case_values(c))
    if (key != idle_key)
      lines += key + "=" + value + "\n";
  return fnv1a_hex(lines);
}

std::string fnv1a_hex(const std::string &text)
{
  std::uint64_t hash = 0xcbf29ce484222325u; // offset basis of the 64-bit variant
  for (const char c : text)
  {
    hash ^= static_cast<unsigned char>(c);
    hash *= 0x100000001b3u; // its prime
  }
  return fmt::format("{:016x}", hash);
}
} // namespace throughbend
