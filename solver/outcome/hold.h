#pragma once
// What keeps a coupon from going on, read off the record of a pass: a leg squeezed between
// plunger and shoulder, or an end hooked on the frame. That something holds is no jam yet:
// a stronger ram may push through (solver/outcome/findings).

#include "solver/outcome/finding.h"
#include "solver/outcome/pass_sample.h"
#include "solver/setup/pass_setup.h"

#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
struct Hold
{
  JamKind     kind = JamKind::other;
  std::string where; ///< "right leg", "both frame plates"
  Evidence    account;
};

/// At the last sample; nothing when only the bending itself resists.
std::optional<Hold> what_holds(const PassSetup               &setup,
                               const std::vector<PassSample> &samples);
} // namespace throughbend
