#pragma once
// What one verb of the program is: its words, and what carries it out. Help, the manual
// page, shell completion and the reading of the command line all come from this. Knows no
// particular verb.

#include "inputs/units/units.h"
#include "postprocess/verbs/exit_code.h"

#include <map>
#include <string>
#include <vector>

namespace throughbend
{
/// How many times an option may stand in a line.
enum class Given
{
  once,
  again ///< each with a value of its own
};

struct VerbOption
{
  std::string              name;    ///< as in --name
  std::string              value;   ///< what stands for its value; empty: a switch
  std::string              help;    ///< one sentence
  std::vector<std::string> choices; ///< the words the value may be; empty: anything
  Given                    given = Given::once;
};

/// Whether the verb takes keys of a case: --section.name "value".
enum class CaseKeys
{
  taken,
  none
};

struct Verb
{
  std::string             name;
  std::string             operand; ///< what stands after the verb: CASE, RUN, or nothing
  std::string             summary; ///< one line, for the list of verbs
  std::string             about;   ///< a few sentences, for its own help
  std::vector<VerbOption> options;
  CaseKeys                keys          = CaseKeys::none;
  std::size_t             most_operands = 0;

  /// Does what the words behind the verb say. Throws InputError.
  ExitCode (*carry_out)(const std::vector<std::string> &words) = nullptr;
};

/// The words behind a verb, sorted and checked against what the verb knows.
struct VerbArguments
{
  std::vector<std::string> operands;
  /// Values by option, as many as it was given; a switch has an empty one.
  std::map<std::string, std::vector<std::string>> options;
  std::vector<std::string>                        overrides; ///< keys of the case
  bool                                            help = false;

  bool        has(const std::string &option) const { return options.count(option) > 0; }
  std::string value(const std::string &option, const std::string &otherwise = "") const;
  /// Of an option that may be given again: in the order of the line, perhaps none.
  std::vector<std::string> values(const std::string &option) const;
};

/// Throws InputError, with the cure, for a word the verb doesn't know, a value that is none
/// of the choices, and too many operands. The verb itself refuses too few.
VerbArguments verb_arguments(const Verb &verb, const std::vector<std::string> &words);

/// The option --units metric|us, which several verbs have, and what was said with it.
VerbOption units_option(const std::string &of_what);
UnitSystem units_of(const VerbArguments &given);

/// The one case file that was named. Throws InputError when there is none.
std::string the_case_file(const VerbArguments &given, const std::string &verb);

/// Prints on the first rank alone, and says that all went well.
ExitCode show(const std::string &text);

/// False for all but the first process where a launcher has started several: they must not
/// all say the same.
bool may_print();
} // namespace throughbend
