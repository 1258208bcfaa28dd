#include "solver/app/interrupt.h"

#include <csignal>
#include <initializer_list>

namespace throughbend
{
namespace
{
volatile std::sig_atomic_t asked = 0;

extern "C" void remember(int signal)
{
  asked = 1;
  std::signal(signal, SIG_DFL);
}
} // namespace

void watch_for_interrupts()
{
  for (const int signal : {SIGINT, SIGTERM, SIGHUP})
    if (std::signal(signal, remember) == SIG_IGN)
      std::signal(signal, SIG_IGN); // nohup, or a job in the background: so it was wanted
}

bool interrupt_asked()
{
  return asked != 0;
}
} // namespace throughbend
