#include "postprocess/verbs/verb_help.h"

#include "inputs/keys/case_help.h"
#include "inputs/text/plain_text.h"
#include "postprocess/words/caution.h"

namespace throughbend
{
namespace
{
constexpr std::size_t columns = 92;
}

std::string usage(const Verb &verb)
{
  return "throughbend " + verb.name + (verb.operand.empty() ? "" : " " + verb.operand) +
         (verb.options.empty() ? "" : " [options]") +
         (verb.keys == CaseKeys::taken ? " [--section.name \"value\" ...]" : "");
}

std::string exit_codes_text()
{
  return "  0  a finding was made (any finding), or what was asked for was shown\n"
         "  1  not the finding that --expect names\n"
         "  2  bad input; nothing was written\n"
         "  3  undecided: no finding, or a part of the answer is unknown\n"
         "  4  interrupted; the record is kept\n"
         "  5  an error of the machine or the program\n";
}

std::string verb_help(const Verb &verb)
{
  std::string text = usage(verb) + "\n\n" + wrapped(verb.about, "", columns);
  if (!verb.options.empty())
    text += "\nOptions\n";
  for (const VerbOption &option : verb.options)
  {
    text += "  --" + option.name + (option.value.empty() ? "" : " " + option.value) + "\n";
    std::string help = option.help;
    if (!option.choices.empty() && option.value.find('|') == std::string::npos)
    {
      help += ":";
      for (const std::string &choice : option.choices)
        help += " " + choice;
    }
    text += wrapped(help, "      ", columns);
  }
  if (verb.keys == CaseKeys::taken)
    text +=
        "\nExit codes\n" + exit_codes_text() + "\n" + caution_text() + "\n" + help_text();
  return text;
}

bool asks_for_help(const std::string &word)
{
  return word == "-h" || word == "--help";
}

bool asks_for_version(const std::string &word)
{
  return word == "-V" || word == "--version";
}

std::string companion_text(const std::string &program, const std::string &version,
                           const Verb &verb, const std::vector<std::string> &words)
{
  const std::string first = words.empty() ? "" : words.front();
  if (asks_for_version(first))
    return version;
  if (asks_for_help(first))
    return program + " is what throughbend " + verb.name + " runs as.\n\n" +
           verb_help(verb);
  return "";
}
} // namespace throughbend
