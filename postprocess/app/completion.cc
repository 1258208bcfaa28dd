#include "postprocess/app/completion.h"

#include "inputs/keys/option_table.h"
#include "inputs/text/input_error.h"

namespace throughbend
{
namespace
{
std::string joined(const std::vector<std::string> &words)
{
  std::string text;
  for (const std::string &word : words)
    text += (text.empty() ? "" : " ") + word;
  return text;
}

/// `    --name) words="a b" ;;` for every option and key whose value is one of a few words.
std::string value_arms(const std::vector<Verb> &verbs)
{
  std::string arms;
  for (const Verb &verb : verbs)
    for (const VerbOption &option : verb.options)
      if (!option.choices.empty())
        arms += "    " + verb.name + ":--" + option.name + ") words=\"" +
                joined(option.choices) + "\" ;;\n";
  for (const Option &option : option_table())
    if (const auto *choice = std::get_if<ChoiceSlot>(&option.slot))
      arms += "    *:--" + option.key() + ") words=\"" + joined(choice->names) + "\" ;;\n";
  return arms;
}

std::string option_arms(const std::vector<Verb> &verbs)
{
  std::string arms;
  for (const Verb &verb : verbs)
  {
    std::vector<std::string> words;
    for (const VerbOption &option : verb.options)
      words.push_back("--" + option.name);
    words.push_back("--help");
    arms += "    " + verb.name + ") words=\"" + joined(words) +
            (verb.keys == CaseKeys::taken ? " $keys" : "") + "\" ;;\n";
  }
  return arms;
}

/// Words that may stand alone, for verbs with a few to choose from: `bash|zsh`.
std::string operand_arms(const std::vector<Verb> &verbs)
{
  std::string arms;
  for (const Verb &verb : verbs)
    if (verb.operand.find('|') != std::string::npos)
    {
      std::string words = verb.operand;
      for (char &c : words)
        c = c == '|' ? ' ' : c;
      arms += "    " + verb.name + ") words=\"" + words + "\" ;;\n";
    }
  return arms;
}

// Both shells share the tables: zsh reads the same `case` arms.
std::string tables(const std::vector<Verb> &verbs)
{
  std::vector<std::string> names, keys;
  for (const Verb &verb : verbs)
    names.push_back(verb.name);
  for (const Option &option : option_table())
    keys.push_back("--" + option.key());
  return "# Prints the words that may come next, for: verb, word before, word begun.\n"
         "_throughbend_words() {\n"
         "  local words=\"\" keys=\"" +
         joined(keys) +
         "\"\n"
         "  if [ -z \"$1\" ]; then\n"
         "    echo \"" +
         joined(names) +
         " --help --version\"\n"
         "    return\n"
         "  fi\n"
         "  case \"$1:$2\" in\n" +
         value_arms(verbs) +
         "  esac\n"
         "  if [ -z \"$words\" ]; then case \"$3\" in\n"
         "  -*) case \"$1\" in\n" +
         option_arms(verbs) +
         "    esac ;;\n"
         "  *) case \"$1\" in\n" +
         operand_arms(verbs) +
         "    esac ;;\n"
         "  esac; fi\n"
         "  echo \"$words\"\n"
         "}\n";
}

constexpr const char *bash_part =
    R"(_throughbend() {
  local begun=${COMP_WORDS[COMP_CWORD]} before="" verb="" words
  if ((COMP_CWORD > 1)); then verb=${COMP_WORDS[1]} before=${COMP_WORDS[COMP_CWORD-1]}; fi
  words=$(_throughbend_words "$verb" "$before" "$begun")
  if [[ -n $words ]]; then
    mapfile -t COMPREPLY < <(compgen -W "$words" -- "$begun")
  else
    mapfile -t COMPREPLY < <(compgen -f -- "$begun")
  fi
}
complete -o filenames -F _throughbend throughbend
)";

constexpr const char *zsh_part =
    R"(_throughbend() {
  local begun=${words[CURRENT]} before="" verb="" offered
  if (( CURRENT > 2 )); then verb=${words[2]} before=${words[CURRENT-1]}; fi
  offered=$(_throughbend_words "$verb" "$before" "$begun")
  if [[ -n $offered ]]; then
    compadd -- ${(z)offered}
  else
    _files
  fi
}
if [[ ${funcstack[1]} == _throughbend ]]; then
  _throughbend "$@"
else
  compdef _throughbend throughbend
fi
)";
} // namespace

std::string shell_completion(const std::string &shell, const std::vector<Verb> &verbs)
{
  if (shell == "bash")
    return "# Completion of throughbend for bash.\n" + tables(verbs) + bash_part;
  if (shell == "zsh")
    return "#compdef throughbend\n" + tables(verbs) + zsh_part;
  throw InputError("completion: for which shell? Say bash or zsh.");
}
} // namespace throughbend
