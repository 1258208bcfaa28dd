#include "postprocess/runs/run_stretch.h"

#include <cmath>
#include <limits>

namespace throughbend
{
RunStretch run_stretch(const RunRecord &run)
{
  const auto key = [&](const char *name)
  { return run.number(std::string("key_figures.") + name); };
  const std::string width = "across_the_width.peak_face_strain_";
  const double      most  = run.number(width + "log");

  RunStretch stretch;
  stretch.wide        = std::isfinite(most);
  stretch.middle      = key("peak_outer_strain_log");
  stretch.largest     = key("peak_face_strain_log");
  stretch.largest_at  = key("peak_outer_strain_position_mm");
  stretch.from_middle = std::numeric_limits<double>::quiet_NaN();
  if (!std::isfinite(stretch.largest)) // format 1.0
    stretch.largest = stretch.wide ? std::fmax(most, stretch.middle) : stretch.middle;
  if (!stretch.wide)
    return stretch;
  stretch.from_middle = 0;
  if (!(most < stretch.middle))
  {
    stretch.largest_at  = run.number(width + "position_mm");
    stretch.from_middle = run.number(width + "from_mid_width_mm");
  }
  return stretch;
}
} // namespace throughbend
