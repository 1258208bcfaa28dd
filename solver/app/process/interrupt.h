#pragma once
// Ctrl-C, a polite kill, a closed terminal and SIGUSR1, remembered until the pass asks. A
// further one, a quarter second or more after the first, ends the program at once, as it
// would without us.

namespace throughbend
{
void watch_for_interrupts(); ///< from now on
bool interrupt_asked();      ///< of this process since then
} // namespace throughbend
