#include "postprocess/app/companion.h"

#include "inputs/text/input_error.h"
#include "postprocess/verbs/exit_code.h"
#include "postprocess/verbs/verb.h"

#include <signal.h> // sigprocmask, setenv: POSIX
#include <stdlib.h>
#include <sys/resource.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>

namespace throughbend
{
namespace
{
/// Address space that the libraries take before anything is computed: 490 MB with deal.II,
/// 65 MB with VTK. This leaves room to say so when more runs out [bytes].
constexpr rlim_t least_for_passes = 560u << 20, least_for_others = 96u << 20;

/// With less, the loader ends the program in words that nobody understands.
void check_space(const rlim_t least_space)
{
  rlimit limit{};
  if (getrlimit(RLIMIT_AS, &limit) != 0 || limit.rlim_cur == RLIM_INFINITY ||
      limit.rlim_cur >= least_space)
    return;
  if (!may_print())
    std::exit(static_cast<int>(ExitCode::failed)); // the first rank tells it for all
  throw std::runtime_error("the memory limit (ulimit -v) is " +
                           std::to_string(limit.rlim_cur >> 20) + " MB, and this needs " +
                           std::to_string(least_space >> 20) +
                           " MB or more (3D models far more). Raise the limit.");
}

/// A wish to stop that comes while the libraries are loaded waits until the program can
/// heed it (watch_for_interrupts).
void hold_signals()
{
  sigset_t polite;
  sigemptyset(&polite);
  for (const int signal : {SIGINT, SIGTERM, SIGHUP, SIGUSR1})
    sigaddset(&polite, signal);
  sigprocmask(SIG_BLOCK, &polite, nullptr);
}
} // namespace

void become(const std::string &name, const std::vector<std::string> &words,
            const CompanionKind kind)
{
  namespace fs             = std::filesystem;
  const fs::path  here     = fs::read_symlink("/proc/self/exe").parent_path();
  const fs::path  places[] = {here / name,
                              here.parent_path() / "libexec/throughbend" / name};
  std::error_code fault;
  for (const fs::path &place : places)
    if (fs::exists(place, fault))
    {
      const std::string   program   = place.string();
      std::vector<char *> arguments = {const_cast<char *>(program.c_str())};
      for (const std::string &word : words)
        arguments.push_back(const_cast<char *>(word.c_str()));
      arguments.push_back(nullptr);
      check_space(kind == CompanionKind::passes ? least_for_passes : least_for_others);
      if (kind == CompanionKind::passes)
      {
        // OpenBLAS starts its threads when it is loaded, with 128 MB for each, and tries
        // without end where it does not get them. One is all we use.
        setenv("OPENBLAS_NUM_THREADS", "1", 1);
        hold_signals();
      }
      ::execv(program.c_str(), arguments.data());
      throw std::runtime_error("cannot start " + program + ": " + std::strerror(errno));
    }
  throw InputError("the program " + name +
                   " is missing: it belongs beside throughbend or " + places[1].string() +
                   ". Build or install all of throughbend.");
}
} // namespace throughbend
