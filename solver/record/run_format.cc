#include "solver/record/run_format.h"

#include "inputs/text/shown_text.h"

namespace throughbend
{
namespace
{
std::string major_of(const std::string &format)
{
  return format.substr(0, format.find('.'));
}
} // namespace

FormatStanding format_standing(const JsonMembers &summary)
{
  if (!summary.has("format"))
    return FormatStanding::not_numbered;
  return major_of(summary.word("format")) == major_of(run_format) ? FormatStanding::known
                                                                  : FormatStanding::another;
}

std::string format_fault(const JsonMembers &summary)
{
  switch (format_standing(summary))
  {
  case FormatStanding::known:
    return "";
  case FormatStanding::another:
  {
    const std::string version = summary.word("made_with.version");
    return "its run.json is of form " + quoted_text(summary.word("format"), 20) +
           ", and this program reads form " + major_of(run_format) +
           ". Read it with the throughbend that made it" +
           (version.empty() ? "" : ", version " + quoted_text(version)) +
           ", or push its case again.";
  }
  case FormatStanding::not_numbered:
    break;
  }
  return "its run.json has no number of its form: an older throughbend made it, and its "
         "figures may mean something else. Push its case again.";
}
} // namespace throughbend
