#pragma once
// Ctrl-C, a polite kill and a closed terminal, remembered until the pass asks. The second
// one ends the program at once, as it would without us.

namespace throughbend
{
void watch_for_interrupts(); ///< from now on
bool interrupt_asked();      ///< of this process since then
} // namespace throughbend
