#pragma once
// What a pass says of the stretch of travel over which a leg is ironed: mean force, ripple,
// and whether the ram's work went where the record says. No reference values here.

#include "solver/outcome/force_course.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"
#include "tests/verify/pass_figures.h"

namespace throughbend
{
struct IronedStretch
{
  double force   = 0; ///< mean of the smooth course over the travel [N]
  double largest = 0; ///< of the smooth course [N]
  double ripple  = 0; ///< worst [-]
  double balance = 0; ///< |ram work - energies| over the stretch / its ram work [-]
};

/// Between two travels [mm].
inline IronedStretch ironed_stretch(const PassRecord &run, double from, double to)
{
  const std::vector<CoursePoint> course = force_course(set_up(run.c), run.samples);
  IronedStretch                  found;
  std::size_t                    first = 0, last = 0;
  double                         travel = 0;
  for (std::size_t i = 1; i < run.samples.size(); ++i)
  {
    const PassSample &a = run.samples[i - 1], &b = run.samples[i];
    if (a.travel < from || b.travel > to)
      continue;
    first = first == 0 ? i - 1 : first;
    last  = i;
    found.force += (course[i - 1].force + course[i].force) / 2 * (b.travel - a.travel);
    travel += b.travel - a.travel;
    found.largest = std::max(found.largest, course[i].force);
    found.ripple  = std::max(found.ripple, course[i].ripple);
  }
  found.force /= travel;
  const auto held = [](const EnergyBalance &e) {
    return e.elastic + e.plastic + e.friction + e.contact + e.regularisation + e.released;
  };
  const EnergyBalance &a = run.samples[first].energy, &b = run.samples[last].energy;
  found.balance = std::abs((held(b) - held(a)) / (b.ram_work - a.ram_work) - 1);
  return found;
}

/// Coupon and fixture of Kestrel Haven's sound pass, the coupon as thick as told [mm], with
/// a ram that takes it through (invented).
inline Case over_thick(double thickness)
{
  Case c             = reference_case(); // the same but for thickness and ram
  c.title            = "over-thick coupon";
  c.coupon.thickness = thickness;
  c.ram.capacity     = 300e3;
  c.ram.stroke       = 86;
  return c;
}
} // namespace throughbend
