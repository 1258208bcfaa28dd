#include "inputs/keys/differing_keys.h"

#include "inputs/keys/option_table.h"

#include <algorithm>
#include <cmath>
#include <variant>

namespace throughbend
{
namespace
{
/// Numbers that were written in other units differ in their last digits.
bool is_same(const Option &option, const Case *const a, const Case *const b)
{
  constexpr double  rounding = 1e-9; // of the value
  const auto *const number   = std::get_if<NumberSlot>(&option.slot);
  if (number == nullptr || a == nullptr || b == nullptr)
    return false;
  Case         first = *a, second = *b;
  const double x = number->at(first), y = number->at(second);
  return std::abs(x - y) <= rounding * std::max(std::abs(x), std::abs(y));
}
} // namespace

std::vector<DifferingKey> differing_keys(const std::vector<const Case *> &cases)
{
  std::vector<DifferingKey> keys;
  for (const Option &option : option_table())
  {
    if (option.key() == "case.lesson" || option.key() == "case.chapter")
      continue;
    std::vector<std::string> values;
    for (const Case *const given : cases)
      values.push_back(given == nullptr ? "not known"
                       : option.applies && !option.applies(*given)
                           ? "-"
                           : value_text(option, *given));
    for (std::size_t i = 0; i < values.size(); ++i)
      if (values[i] != values.front() && values[i] != "-" && values.front() != "-" &&
          is_same(option, cases.front(), cases[i]))
        values[i] = values.front();
    if (std::any_of(values.begin(), values.end(),
                    [&](const std::string &value) { return value != values.front(); }))
      keys.push_back({&option, values});
  }
  return keys;
}

bool is_numerical(const Option &option)
{
  return option.section == "mesh" || option.section == "solver" ||
         option.section == "output";
}
} // namespace throughbend
