#pragma once
// The verbs that make many passes, in words: limit and map. Carried out by
// throughbend-study.

#include "postprocess/app/help.h"
#include "postprocess/verbs/verb.h"

#include <string>
#include <vector>

namespace throughbend
{
/// A verb's own options with those of every study behind them.
std::vector<VerbOption> with_study_options(std::vector<VerbOption> own);

/// Goes on as throughbend-study with the verb and its words.
[[noreturn]] void run_study_program(const Verb                     &verb,
                                    const std::vector<std::string> &words);

/// The same, once `order` has made sense of the words: their faults are told by the front.
template <class Order>
ExitCode go_on_as_study(const Verb &verb, const std::vector<std::string> &words,
                        const Order &order)
{
  const VerbArguments given = verb_arguments(verb, words);
  if (given.help)
    return show(verb_help(verb));
  order(given);
  run_study_program(verb, words);
}

Verb limit_verb();
Verb map_verb();
} // namespace throughbend
