#include "postprocess/app/verbs.h"

#include "inputs/keys/starter_case.h"
#include "postprocess/app/card_verb.h"
#include "postprocess/app/catalogue_verbs.h"
#include "postprocess/app/check_verb.h"
#include "postprocess/app/choose_verb.h"
#include "postprocess/app/companion.h"
#include "postprocess/app/completion.h"
#include "postprocess/app/fit_pass_verb.h"
#include "postprocess/app/gather_verb.h"
#include "postprocess/app/help.h"
#include "postprocess/app/manual_page.h"
#include "postprocess/app/metal_order.h"
#include "postprocess/app/push_verb.h"
#include "postprocess/app/spread_verb.h"
#include "postprocess/app/study_verbs.h"
#include "postprocess/verbs/lesson_words.h"
#include "postprocess/verbs/report_words.h"

#include <algorithm>

namespace throughbend
{
namespace
{
const Verb &verb_named(const std::string &name)
{
  return *std::find_if(verbs().begin(), verbs().end(),
                       [&](const Verb &verb) { return verb.name == name; });
}

Verb starter_verb()
{
  return {"starter",
          "",
          "a commented case to begin from",
          "Prints a case that can be pushed as it is, with an explanation of every key: "
          "throughbend starter > my-case.ini",
          {{"short", "", "only the keys that a shop fills in, in about twenty lines", {}}},
          CaseKeys::none,
          0,
          [](const std::vector<std::string> &words)
          {
            const Verb         &verb  = verb_named("starter");
            const VerbArguments given = verb_arguments(verb, words);
            return show(given.help           ? verb_help(verb)
                        : given.has("short") ? short_starter_text()
                                             : starter_text());
          }};
}

Verb reporting_verb()
{
  Verb verb      = report_verb();
  verb.carry_out = [](const std::vector<std::string> &words) -> ExitCode
  {
    const VerbArguments given = verb_arguments(report_verb(), words);
    if (given.help)
      return show(verb_help(report_verb()));
    report_order(given);
    become("throughbend-report", words);
  };
  return verb;
}

Verb teaching_verb()
{
  Verb verb      = lesson_verb();
  verb.carry_out = [](const std::vector<std::string> &words) -> ExitCode
  {
    const VerbArguments given = verb_arguments(lesson_verb(), words);
    if (given.help)
      return show(verb_help(lesson_verb()));
    lesson_order(given);
    std::vector<std::string> passed_on = {lesson_order_word};
    passed_on.insert(passed_on.end(), words.begin(), words.end());
    become("throughbend-report", passed_on);
  };
  return verb;
}

Verb manual_verb()
{
  return {
      "manual",
      "",
      "the manual page, for man",
      "Prints the manual page in the form that man reads: throughbend manual | man -l -",
      {},
      CaseKeys::none,
      0,
      [](const std::vector<std::string> &words)
      {
        const Verb &verb = verb_named("manual");
        return show(verb_arguments(verb, words).help ? verb_help(verb)
                                                     : manual_page(verbs()));
      }};
}

Verb completion_verb()
{
  return {"completion",
          "bash|zsh",
          "completion of words for a shell",
          "Prints a completion script for the shell: verbs, options and keys of a case. "
          "source <(throughbend completion bash)",
          {},
          CaseKeys::none,
          1,
          [](const std::vector<std::string> &words)
          {
            const Verb         &verb  = verb_named("completion");
            const VerbArguments given = verb_arguments(verb, words);
            if (given.help)
              return show(verb_help(verb));
            const std::string shell = given.operands.empty() ? "" : given.operands.front();
            return show(shell_completion(shell, verbs()));
          }};
}
} // namespace

const std::vector<Verb> &verbs()
{
  static const std::vector<Verb> all = {
      starter_verb(),   check_verb(),      push_verb(),   limit_verb(),
      map_verb(),       spread_verb(),     choose_verb(), fit_pass_verb(),
      reporting_verb(), teaching_verb(),   gather_verb(), compare_verb(),
      card_verb(),      fixture_verb(),    rules_verb(),  materials_verb(),
      fit_metal_verb(), lubricants_verb(), manual_verb(), completion_verb()};
  return all;
}
} // namespace throughbend
