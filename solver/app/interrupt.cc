#include "solver/app/interrupt.h"

#include <csignal>

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
  std::signal(SIGINT, remember);
  std::signal(SIGTERM, remember);
}

bool interrupt_asked()
{
  return asked != 0;
}
} // namespace throughbend
