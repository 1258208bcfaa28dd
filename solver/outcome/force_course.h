#pragma once
// The smooth course of the ram force, and how far the computed force departs from it. A
// face of the mesh that passes a tool's round lets the force ripple by a few per cent: it
// goes up and down once in a face's length of travel, which no real coupon does. What
// decides (peak, capacity, the force it would take) rests on the smooth course. Real events
// stay as they are: a bending peak, a kink where a tool is touched, a drop where an end
// slips off. Knows no mesh: everything is read off samples.

#include "solver/outcome/pass_sample.h"
#include "solver/setup/pass_setup.h"

#include <vector>

namespace throughbend
{
/// The course at one sample.
struct CoursePoint
{
  double force = 0; ///< smooth, or where it does not ripple the sample's own [N]
  double band = 0; ///< largest departure of the samples around from their smooth course [N]
  double ripple = 0; ///< band over the local mean [-]; 0 where the force does not ripple
};

/// Below it the sample's own force stands [-]: no more than what default mesh and step do
/// to a bending peak anyway (settings_study).
constexpr double ripple_to_speak_of = 0.01;

/// Per sample. The course is a parabola, fitted to the samples within a face's length on
/// either side, but to three at least (Savitzky & Golay 1964, Anal. Chem. 36, 1627; from
/// memory; here for steps of any length). Where samples on one side alone follow a parabola
/// twice as closely, that side is taken (as in ENO schemes: Harten et al. 1987, J. Comput.
/// Phys. 71, 231; from memory): no fit reaches across a kink or a drop, nor across a jump
/// (StepKind::relax).
///
/// Ripple is only what turns: the force must change its direction at least three times
/// among the samples of the fit and half a face beyond, by as much as the largest departure
/// each time. A peak turns once, a drop with the rise after it twice. Where the fit sees no
/// ripple, one to a side that is closer may; where none does, or ripple is below
/// ripple_to_speak_of, the sample's own force stands. Not judged are the first two faces'
/// lengths of travel, in which none has passed a tool; forces below a tenth of the largest
/// (the coupon is about to leave); and the step at which the ram's force ran out. The local
/// mean is the course, but at least a fifth of the largest force. Steps longer than a third
/// of a face hide ripple: none seen is not none.
std::vector<CoursePoint> force_course(const PassSetup               &setup,
                                      const std::vector<PassSample> &samples);

/// Largest force of the smooth course.
struct CoursePeak
{
  double force  = 0; ///< [N]
  double travel = 0; ///< [mm]
  double band = 0; ///< the force may be off by so much [N]; 0: no ripple to speak of there
};
CoursePeak course_peak(const std::vector<PassSample>  &samples,
                       const std::vector<CoursePoint> &course);
CoursePeak course_peak(const PassSetup &setup, const std::vector<PassSample> &samples);

/// Puts course and ripple into the samples, as travel.csv shows them.
void mark_course(const PassSetup &setup, std::vector<PassSample> &samples);
} // namespace throughbend
