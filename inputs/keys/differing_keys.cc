#include "inputs/keys/differing_keys.h"

#include "inputs/keys/option_table.h"

#include <algorithm>

namespace throughbend
{
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
