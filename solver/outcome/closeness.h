#pragma once
// Whether the ripple of the computed force, or the numerical error of force or travel, is
// large enough to turn a finding. Changes no outcome; marks it and says by what.

#include "solver/outcome/finding.h"
#include "solver/outcome/force_course.h"
#include "solver/outcome/pass_sample.h"
#include "solver/setup/pass_setup.h"

namespace throughbend
{
/// By how much the force that irons a leg still rises as cells and steps get finer, over
/// itself [-]: the largest of tests/verify/ironing_series.md, rounded up. In 3D nobody
/// knows, and the largest of the plane ones stands for it.
double lack_of_ironing_force(const PassSetup &setup);

/// `peak`: the largest force of all that was computed; `now`: the pass's last sample.
void weigh_closeness(const PassSetup &setup, const CoursePeak &peak, const PassSample &now,
                     Finding &finding);
} // namespace throughbend
