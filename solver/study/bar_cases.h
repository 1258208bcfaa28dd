#pragma once
// The further passes that give a pass its error bars: what is changed in each.

#include "solver/outcome/error_bars.h"
#include "solver/study/file/study_record.h"
#include "solver/study/pass_crew.h"

#include <vector>

namespace throughbend
{
struct BarCase
{
  BarPass pass;
  Case    changed;
};

/// Finer mesh, half the step, a third of the penetration; friction of all tools 0.03 more
/// and less, not below 0; flow stress of all zones 10 % more and less. The finest level is
/// compared with the next coarser one, whose error is the larger.
std::vector<BarCase> bar_cases(const Case &c);

/// The force that it takes and the strain, beyond the ram's capacity too, where the pass
/// was followed so far.
BarFigures bar_figures(const StudyPass &pass);

/// Makes the passes on the crew. Those that are stopped stay without figures.
ErrorBars error_bars(const BarFigures &own, const std::vector<BarCase> &cases,
                     PassCrew &crew, const std::function<bool()> &asked_to_stop);
} // namespace throughbend
