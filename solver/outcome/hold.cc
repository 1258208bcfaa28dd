#include "solver/outcome/hold.h"

#include "solver/outcome/nip.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
using Measure = Evidence::Measure;

/// Rise of the ram force over the last `span` [mm] of travel [N/mm].
double late_slope(const std::vector<PassSample> &samples, double span)
{
  const PassSample &last = samples.back();
  for (auto before = samples.rbegin(); before != samples.rend(); ++before)
    if (before->travel <= last.travel - span)
      return (last.ram_force - before->ram_force) / (last.travel - before->travel);
  return 0;
}

std::optional<Hold> hooked(const PassSetup &setup, const std::vector<PassSample> &samples)
{
  if (!setup.has_tool(tool_at::right_frame))
    return std::nullopt;
  const PassSample &now    = samples.back();
  const double      inside = setup.tool(tool_at::right_frame).gauge.flank;
  // An end that still bears on the plate with a tenth of the ram force is what holds it.
  const auto holds = [&](ToolPlace plate, const Leg &leg)
  { return now.tool(plate).normal > 0.1 * now.ram_force && std::abs(leg.tip_x) > inside; };
  const bool right = holds(tool_at::right_frame, now.right),
             left  = holds(tool_at::left_frame, now.left);
  if (!right && !left)
    return std::nullopt;
  const bool both = right && left;
  const auto tell = [&](Evidence &account, const double on_left, const double on_right,
                        const Measure measure)
  {
    if (!both)
      account.add(measure, right ? on_right : on_left);
    else if (std::abs(on_left - on_right) <= 1e-3 * std::max(on_left, on_right))
      account.add(measure, on_right) << " each";
    else
    {
      account.add(measure, on_left) << " (left) and ";
      account.add(measure, on_right) << " (right)";
    }
  };
  Hold hold;
  hold.kind  = JamKind::hooked;
  hold.where = both    ? "both frame plates"
               : right ? "right frame plate"
                       : "left frame plate";
  hold.account << (both ? "The coupon's ends still reach "
                        : "The coupon's end still reaches ");
  tell(hold.account, std::abs(now.left.tip_x) - inside, std::abs(now.right.tip_x) - inside,
       Measure::length);
  hold.account << " past the inside of the plate and " << (both ? "press" : "presses")
               << " on the opening's edge with ";
  tell(hold.account, now.tool(tool_at::left_frame).normal,
       now.tool(tool_at::right_frame).normal, Measure::force);
  hold.account << ".";
  return hold;
}

std::optional<Hold> squeezed(const PassSetup &setup, const std::vector<PassSample> &samples)
{
  const PassSample &now        = samples.back();
  const double      room       = setup.room(now.travel);
  const Nip         nip        = nipped_legs(setup, samples).back();
  const double      left_thick = setup.passing_thickness(ToolSide::left, now.travel),
               right_thick     = setup.passing_thickness(ToolSide::right, now.travel);
  double t                     = std::max(left_thick, right_thick);
  // Two hundredths of the thickness is more than bending itself changes it.
  if (room > 0.98 * t && !(room < t && now.left.angle > 60 && now.right.angle > 60) &&
      !nip.left && !nip.right)
    return std::nullopt;
  const double right   = now.tool(tool_at::right_shoulder).normal,
               left    = now.tool(tool_at::left_shoulder).normal;
  const bool   touches = now.tool(tool_at::plunger).normal > 0 && (right > 0 || left > 0);
  const double span    = 0.2 * setup.coupon.thickness;
  if (!touches || late_slope(samples, span) <= 0)
    return std::nullopt;
  constexpr double harder = 1.5; // times the other side: then it is this one
  Hold             hold;
  hold.kind  = JamKind::squeezed;
  hold.where = left > harder * right   ? "left leg"
               : right > harder * left ? "right leg"
                                       : "both legs";
  if (hold.where != "both legs")
    t = hold.where == "left leg" ? left_thick : right_thick;
  const bool on_cap = room > t && setup.coupon.over_weld > setup.coupon.thickness;
  hold.account << (on_cap ? "A leg with what stands on its weld is " : "A leg is ");
  hold.account.add(Measure::room, on_cap ? setup.coupon.over_weld : t)
      << " thick where plunger and shoulder leave ";
  hold.account.add(Measure::room, room)
      << (room > t && !on_cap ? ", which the curl of the bend fills" : "")
      << ", and the force has risen by ";
  hold.account.add(Measure::force_rise, late_slope(samples, span)) << " over the last ";
  hold.account.add(Measure::length, span) << " of travel.";
  return hold;
}

} // namespace

std::optional<Hold> what_holds(const PassSetup               &setup,
                               const std::vector<PassSample> &samples)
{
  if (samples.empty())
    return std::nullopt;
  if (auto hold = hooked(setup, samples))
    return hold;
  return squeezed(setup, samples);
}
} // namespace throughbend
