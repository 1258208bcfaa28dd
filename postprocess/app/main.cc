// Entry point: finds the verb and has it carried out. Loads neither deal.II nor MPI
// nor VTK, so that what needs none of them answers at once.

#include "inputs/text/input_error.h"
#include "inputs/text/plain_text.h"
#include "postprocess/app/help.h"
#include "postprocess/app/verbs.h"
#include "postprocess/verbs/guarded.h"

#include <signal.h> // SIGXFSZ: POSIX

#include <algorithm>

namespace throughbend
{
namespace
{
/// Throws InputError, with the verb that may have been meant.
const Verb &verb_named(const std::string &name)
{
  std::string              list;
  std::vector<std::string> names;
  for (const Verb &verb : verbs())
  {
    if (verb.name == name)
      return verb;
    names.push_back(verb.name);
    list += (list.empty() ? "" : ", ") + verb.name;
  }
  const auto nearest = nearest_name(name, names);
  throw InputError("there is no verb '" + name + "'" +
                   (nearest ? ", did you mean '" + *nearest + "'?" : ".") + " Verbs are " +
                   list + "; also help, --help and --version.");
}

ExitCode carry_out(const std::vector<std::string> &words)
{
  const std::string first = words.empty() ? "--help" : words.front();
  if (asks_for_version(first))
  {
    if (words.size() > 1)
      throw InputError(first + " takes no further words.");
    return show(version_line("throughbend"));
  }
  if (first != "help" && !asks_for_help(first))
    return verb_named(first).carry_out({words.begin() + 1, words.end()});
  if (words.size() > 2)
    throw InputError("help takes one verb: throughbend help VERB");
  return show(words.size() < 2 ? program_help() : verb_help(verb_named(words[1])));
}
} // namespace
} // namespace throughbend

int main(int argc, char **argv)
{
  using namespace throughbend;
  signal(SIGXFSZ, SIG_IGN); // a limit on files (ulimit -f) is told like a full disk
  return static_cast<int>(guarded(
      [&] {
        return carry_out({argv + std::min(argc, 1), argv + argc});
      }));
}
