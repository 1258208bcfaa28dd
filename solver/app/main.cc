// The program's door: finds the verb and has it carried out. Loads neither deal.II nor MPI
// nor VTK, so that what needs none of them answers at once.

#include "inputs/guarded.h"
#include "inputs/input_error.h"
#include "solver/app/help.h"
#include "solver/app/verbs.h"
#include "solver/app/version.h"

#include <algorithm>

namespace throughbend
{
namespace
{
ExitCode carry_out(const std::vector<std::string> &words)
{
  const std::string first = words.empty() ? "--help" : words.front();
  if (first == "--help" || first == "--version")
  {
    if (words.size() > 1)
      throw InputError(first + " takes nothing more. Help on a verb: throughbend VERB "
                               "--help");
    return show(first == "--help"
                    ? program_help()
                    : "throughbend " + program_version() +
                          (git_revision().empty() ? "" : " (" + git_revision() + ")") +
                          "\n");
  }
  for (const Verb &verb : verbs())
    if (verb.name == first)
      return verb.carry_out({words.begin() + 1, words.end()});

  std::string              list;
  std::vector<std::string> names;
  for (const Verb &verb : verbs())
  {
    names.push_back(verb.name);
    list += (list.empty() ? "" : ", ") + verb.name;
  }
  throw InputError("there is no verb '" + first + "'. Verbs are " + list +
                   "; and there are --help and --version.");
}
} // namespace
} // namespace throughbend

int main(int argc, char **argv)
{
  using namespace throughbend;
  return static_cast<int>(guarded(
      [&] {
        return carry_out({argv + std::min(argc, 1), argv + argc});
      }));
}
