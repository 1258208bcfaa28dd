#pragma once
// The sections of a screening, one function each; for solver/screening/screening and for
// case_limits, which asks a few of them many times.

#include "solver/screening/screening.h"

namespace throughbend
{
ScreenSection screen_fit(const Case &c, const ForceBand &band);
/// As if springback were the usual one; and with that of the band, which is never better.
ScreenSection screen_length(const Case &c);
ScreenSection screen_length(const Case &c, const ForceBand &band);
ScreenSection screen_strain(const Case &c, const ForceBand &band);
/// Whether a weld's zones are so unlike that the stretch gathers in the softest of them.
bool zones_share_unevenly(const ForceBand &band);

ScreenSection screen_force(const Case &c, const ForceBand &band);
ScreenSection screen_jack(const Case &c, const ForceBand &band);
ScreenSection screen_tools(const Case &c, const ForceBand &band);
ScreenSection screen_release(const Case &c, const ForceBand &band);
} // namespace throughbend
