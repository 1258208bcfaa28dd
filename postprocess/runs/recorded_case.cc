#include "postprocess/runs/recorded_case.h"

#include "inputs/keys/case_text.h"
#include "inputs/keys/option_table.h"
#include "inputs/keys/stored_case.h"

namespace throughbend
{
namespace
{
/// Its value in the run, if it had one there.
std::optional<std::string> recorded(const Option &option, const JsonMembers &summary)
{
  const std::string path = "case." + option.key();
  return summary.has(path) ? std::optional(summary.word(path)) : std::nullopt;
}

bool has_recorded_case(const JsonMembers &summary)
{
  for (const Option &option : option_table())
    if (recorded(option, summary))
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

std::vector<std::string> changes_since_run(const Case &now, const JsonMembers &summary)
{
  if (!has_recorded_case(summary))
  {
    const std::string hash = summary.word("made_with.case_hash");
    if (hash.empty() || hash == case_hash(now))
      return {};
    return {"its hash is " + case_hash(now) + ", and that in run.json " + hash};
  }
  std::vector<std::string> changes;
  for (const Option &option : option_table())
  {
    const std::optional<std::string> then = recorded(option, summary);
    if (!then || option.section == "case")
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

std::optional<Case> recorded_case(const JsonMembers &summary)
{
  if (!has_recorded_case(summary))
    return std::nullopt;
  std::string text, section;
  for (const Option &option : option_table())
    if (const std::optional<std::string> value = recorded(option, summary))
    {
      if (option.section != section)
        text += "[" + option.section + "]\n";
      section = option.section;
      text += option.name + " = " + *value + "\n";
    }
  return stored_case(text, "run.json").value;
}
} // namespace throughbend
