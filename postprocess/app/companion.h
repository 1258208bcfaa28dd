#pragma once
// The programs beside this one that do the heavy work: they load deal.II or VTK, which
// takes longer than all that the front program does itself.

#include <string>
#include <vector>

namespace throughbend
{
enum class CompanionKind
{
  passes, ///< makes passes: deal.II, and signals that are heeded (watch_for_interrupts)
  other
};

/// Goes on as the program `name` (throughbend-push, ...) with these words; this process
/// becomes that one, so signals, launchers of several ranks and exit codes are as if it had
/// been called directly. It is looked for beside the running program, then in
/// ../libexec/throughbend. Throws InputError when it is in neither place,
/// std::runtime_error when the system does not let it start.
[[noreturn]] void become(const std::string &name, const std::vector<std::string> &words,
                         CompanionKind kind = CompanionKind::other);
} // namespace throughbend
