#pragma once
// Legs that are no thicker than the room between plunger and shoulder and are pressed there
// all the same: the bend's curl, or a cap left on the weld, fills what the thickness
// leaves. Read off the record of a pass; no mesh, no words.

#include "solver/outcome/pass_sample.h"
#include "solver/setup/pass_setup.h"

#include <vector>

namespace throughbend
{
struct Nip
{
  bool left = false, right = false; ///< whether that leg is pressed between the tools
};

/// One a sample. A leg that stands bears on its shoulder with less and less, the more of it
/// has passed. One that bears with more again, where the room leaves next to nothing, is
/// pressed from both sides.
std::vector<Nip> nipped_legs(const PassSetup               &setup,
                             const std::vector<PassSample> &samples);
} // namespace throughbend
