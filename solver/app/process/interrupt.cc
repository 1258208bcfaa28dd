#include "solver/app/process/interrupt.h"

#include <signal.h> // sigaction: POSIX
#include <time.h>

namespace throughbend
{
namespace
{
/// A terminal that is closed and a launcher of ranks tell the same wish twice in a moment;
/// who loses patience takes longer [s].
constexpr double one_wish = 0.25;

volatile sig_atomic_t asked = 0;
timespec              first_asked{}; ///< only the handler's, which is not interrupted

// SIGUSR1 is what a launcher or a batch system passes on while there still is time.
constexpr int polite[] = {SIGINT, SIGTERM, SIGHUP, SIGUSR1};

extern "C" void remember(int signal)
{
  timespec now{};
  clock_gettime(CLOCK_MONOTONIC, &now);
  if (asked == 0)
  {
    first_asked = now;
    asked       = 1;
    return;
  }
  const double since = static_cast<double>(now.tv_sec - first_asked.tv_sec) +
                       1e-9 * static_cast<double>(now.tv_nsec - first_asked.tv_nsec);
  if (since < one_wish)
    return;
  struct sigaction usual
  {
  };
  usual.sa_handler = SIG_DFL;
  sigaction(signal, &usual, nullptr);
  raise(signal); // ends the program as soon as this returns
}
} // namespace

void watch_for_interrupts()
{
  struct sigaction ours
  {
  };
  ours.sa_handler = remember;
  ours.sa_flags   = SA_RESTART;
  for (const int signal : polite)
    sigaddset(&ours.sa_mask, signal);
  for (const int signal : polite)
  {
    struct sigaction before
    {
    };
    sigaction(signal, nullptr, &before);
    if (before.sa_handler != SIG_IGN) // nohup, or a job in the background: so it was wanted
      sigaction(signal, &ours, nullptr);
  }
  sigprocmask(SIG_UNBLOCK, &ours.sa_mask, nullptr); // held while the program was loaded
}

bool interrupt_asked()
{
  return asked != 0;
}
} // namespace throughbend
