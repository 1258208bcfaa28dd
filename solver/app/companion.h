#pragma once
// The programs beside this one that do the heavy work: they load deal.II or VTK, which
// takes longer than all that the front program does itself.

#include <string>
#include <vector>

namespace throughbend
{
/// Goes on as the program `name` (throughbend-push, ...) with these words; this process
/// becomes that one, so signals, launchers of several ranks and exit codes are as if it had
/// been called directly. It is looked for beside the running program, then in
/// ../libexec/throughbend. Throws InputError when it is in neither place.
[[noreturn]] void become(const std::string &name, const std::vector<std::string> &words);
} // namespace throughbend
