#include "inputs/keys/fixture_difference.h"

#include "inputs/keys/option_table.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
bool of_the_tools(const Option &option)
{
  // A yield is only told to check; a tool keeps its shape without it.
  return option.name != "yield" &&
         (option.section == "plunger" || option.section == "shoulders" ||
          option.section == "frame");
}

bool means_something(const Option &option, const Case &c)
{
  return !option.applies || option.applies(c);
}

bool same(const Option &option, Case there, Case here)
{
  const auto *number = std::get_if<NumberSlot>(&option.slot);
  if (number == nullptr)
    return value_text(option, there) == value_text(option, here);
  constexpr double slack = 1e-6; // of a number that went through a file
  const double     a = number->at(there), b = number->at(here);
  return std::abs(a - b) <= slack * std::max({1., std::abs(a), std::abs(b)});
}

std::string shown(const Option &option, Case c)
{
  if (!means_something(option, c))
    return "none";
  if (const auto *number = std::get_if<NumberSlot>(&option.slot))
    return to_text(number->at(c), number->kind, UnitSystem::metric);
  return value_text(option, c);
}
} // namespace

std::vector<std::string> fixture_difference(const Case &there, const Case &here)
{
  std::vector<std::string> lines;
  for (const Option &option : option_table())
  {
    const bool in_one   = means_something(option, there),
               in_other = means_something(option, here);
    if (!of_the_tools(option) || (!in_one && !in_other) ||
        (in_one == in_other && same(option, there, here)))
      continue;
    lines.push_back(option.key() + " " + shown(option, there) + " there, " +
                    shown(option, here) + " here");
  }
  return lines;
}
} // namespace throughbend
