#include "inputs/recorded_case.h"

#include "inputs/case_reader.h"
#include "inputs/case_text.h"
#include "inputs/option_table.h"

namespace throughbend
{
namespace
{
/// Its value in the run; null where it had none there.
const std::string *recorded(const Option &option, const SummaryMembers &summary)
{
  const auto found = summary.find("case." + option.key());
  return found == summary.end() ? nullptr : &found->second;
}

bool has_recorded_case(const SummaryMembers &summary)
{
  for (const Option &option : option_table())
    if (recorded(option, summary) != nullptr)
      return true;
  return false;
}

/// As this version writes what another may have written otherwise: 9.525 mm for
/// 9.524999999999999 mm.
std::string rewritten(const Option &option, const std::string &text, Case scratch)
{
  const Setting setting = set_option(option, text, scratch);
  return setting.error.empty() ? value_text(option, scratch) : text;
}
} // namespace

std::vector<std::string> changes_since_run(const Case &now, const SummaryMembers &summary)
{
  if (!has_recorded_case(summary))
  {
    const auto hash = summary.find("made_with.case_hash");
    if (hash == summary.end() || hash->second == case_hash(now))
      return {};
    return {"its hash is " + case_hash(now) + ", and that in run.json " + hash->second};
  }
  std::vector<std::string> changes;
  for (const Option &option : option_table())
  {
    const std::string *then = recorded(option, summary);
    if (then == nullptr || option.section == "case")
      continue;
    const bool applies = !option.applies || option.applies(now);
    if (applies && rewritten(option, *then, now) == value_text(option, now))
      continue;
    changes.push_back(option.key() +
                      (applies ? " is " + value_text(option, now) : " has no effect") +
                      " and was " + *then + " in the run");
  }
  return changes;
}

std::optional<Case> recorded_case(const SummaryMembers &summary)
{
  if (!has_recorded_case(summary))
    return std::nullopt;
  std::string text, section;
  for (const Option &option : option_table())
    if (const std::string *value = recorded(option, summary))
    {
      if (option.section != section)
        text += "[" + option.section + "]\n";
      section = option.section;
      text += option.name + " = " + *value + "\n";
    }
  return read_case_text(text, "run.json", {}).value;
}
} // namespace throughbend
