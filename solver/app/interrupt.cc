#include "solver/app/interrupt.h"

#include <csignal>

namespace throughbend
{
namespace
{
volatile std::sig_atomic_t asked = 0;

constexpr int polite[] = {SIGINT, SIGTERM, SIGHUP};

extern "C" void remember(int)
{
  asked = 1;
  for (const int signal : polite) // the second one ends the program, whichever it is
    if (std::signal(signal, SIG_DFL) == SIG_IGN)
      std::signal(signal, SIG_IGN);
}
} // namespace

void watch_for_interrupts()
{
  for (const int signal : polite)
    if (std::signal(signal, remember) == SIG_IGN)
      std::signal(signal, SIG_IGN); // nohup, or a job in the background: so it was wanted
}

bool interrupt_asked()
{
  return asked != 0;
}
} // namespace throughbend
