#include "solver/pass/findings.h"

#include "solver/pass/pass_tools.h"

#include <algorithm>
#include <cmath>
#include <cstdarg>
#include <cstdio>

namespace throughbend
{
namespace
{
__attribute__((format(printf, 1, 2))) std::string text(const char *format, ...)
{
  char    buffer[512];
  va_list values;
  va_start(values, format);
  std::vsnprintf(buffer, sizeof buffer, format, values);
  va_end(values);
  return buffer;
}

/// Rise of the ram force over the last `span` [mm] of travel [N/mm].
double late_slope(const std::vector<PassSample> &samples, double span)
{
  const PassSample &last = samples.back();
  for (auto before = samples.rbegin(); before != samples.rend(); ++before)
    if (before->travel <= last.travel - span)
      return (last.ram_force - before->ram_force) / (last.travel - before->travel);
  return 0;
}

double largest_force(const std::vector<PassSample> &samples)
{
  double largest = 0;
  for (const PassSample &sample : samples)
    largest = std::max(largest, sample.ram_force);
  return largest;
}

std::optional<JamEvidence> hooked(const Case &c, const std::vector<PassSample> &samples)
{
  const PassSample &now = samples.back();
  for (const auto &[role, leg] : {std::pair{ToolRole::right_frame, &now.right},
                                  std::pair{ToolRole::left_frame, &now.left}})
  {
    const ToolContact &frame = now.tool(role);
    // An end that still bears on the plate with a tenth of the ram force is what holds it.
    if (frame.normal > 0.1 * now.ram_force &&
        std::abs(leg->tip_x) > c.fixture.frame.distance)
      return JamEvidence{
          JamKind::hooked,
          role == ToolRole::right_frame ? "right frame plate" : "left frame plate",
          text("The coupon's end still reaches %.1f mm past the inside of the plate and "
               "presses "
               "on the opening's edge with %.1f kN.",
               std::abs(leg->tip_x) - c.fixture.frame.distance, frame.normal / 1000)};
  }
  return std::nullopt;
}

std::optional<JamEvidence> squeezed(const Case &c, const std::vector<PassSample> &samples)
{
  const PassSample &now  = samples.back();
  const double      t    = c.coupon.thickness;
  const double      room = tool_distance(c, now.travel);
  // Two hundredths of the thickness is more than bending itself changes it.
  if (room > 0.98 * t && !(room < t && now.left.angle > 60 && now.right.angle > 60))
    return std::nullopt;
  const bool touches = now.tool(ToolRole::plunger).normal > 0 &&
                       (now.tool(ToolRole::right_shoulder).normal > 0 ||
                        now.tool(ToolRole::left_shoulder).normal > 0);
  const double span = 0.2 * t;
  if (!touches || late_slope(samples, span) <= 0)
    return std::nullopt;
  const bool left = now.tool(ToolRole::left_shoulder).normal >
                    1.5 * now.tool(ToolRole::right_shoulder).normal;
  return JamEvidence{JamKind::squeezed,
                     left ? "left leg, between plunger and shoulder"
                          : "between plunger and shoulders",
                     text("A leg is %.2f mm thick where plunger and shoulder leave %.2f "
                          "mm, and the force has "
                          "risen by %.1f kN per mm over the last %.1f mm of travel.",
                          t, room, late_slope(samples, span) / 1000, span)};
}
} // namespace

std::optional<JamEvidence> jam_evidence(const Case                    &c,
                                        const std::vector<PassSample> &samples)
{
  if (samples.empty())
    return std::nullopt;
  if (auto evidence = hooked(c, samples))
    return evidence;
  return squeezed(c, samples);
}

Finding decide(const Case &c, const std::vector<PassSample> &samples, StopReason reason)
{
  Finding finding;
  if (samples.empty())
  {
    finding.evidence = "No step was accepted.";
    return finding;
  }
  const PassSample &now = samples.back();
  finding.travel        = now.travel;
  finding.force         = now.ram_force;
  const auto jam        = jam_evidence(c, samples);
  const auto take       = [&](const JamEvidence &evidence)
  {
    finding.jam      = evidence.kind;
    finding.where    = evidence.where;
    finding.evidence = evidence.text;
  };

  switch (reason)
  {
  case StopReason::out:
  {
    const double least = std::min(now.left.angle, now.right.angle);
    if (least < unbent_angle)
    {
      finding.outcome = Outcome::dropped;
      finding.evidence =
          text("The coupon left the shoulders with a leg only %.0f deg from flat.", least);
    }
    else
    {
      finding.outcome = Outcome::through;
      finding.evidence =
          text("Both ends are past the shoulders with legs %.1f and %.1f deg from "
               "flat; the largest ram force on the way was %.1f kN.",
               now.left.angle, now.right.angle, largest_force(samples) / 1000);
    }
    break;
  }
  case StopReason::force_limit:
    if (jam)
    {
      finding.outcome = Outcome::jammed;
      take(*jam);
      finding.evidence +=
          text(" The ram is at its capacity of %.1f kN as well.", c.ram.capacity / 1000);
    }
    else
    {
      finding.outcome  = Outcome::over_capacity;
      finding.evidence = text("The ram is at its capacity of %.1f kN while nothing but the "
                              "bending itself resists; legs %.1f and %.1f deg from flat.",
                              c.ram.capacity / 1000, now.left.angle, now.right.angle);
    }
    break;
  case StopReason::stroke_end:
    finding.outcome = Outcome::stroke_out;
    finding.evidence =
        text("The ram is at the end of its stroke of %.1f mm with the legs %.1f "
             "and %.1f deg from flat and still between the shoulders.",
             c.ram.stroke, now.left.angle, now.right.angle);
    if (jam)
      finding.jam = jam->kind;
    break;
  case StopReason::stuck:
    if (jam)
    {
      finding.outcome = Outcome::jammed;
      take(*jam);
      break;
    }
    finding.evidence =
        "No equilibrium was found for a further step, and there is no physical "
        "evidence of a jam.";
    break;
  case StopReason::step_limit:
    finding.evidence = "More steps than solver.step_limit allows.";
    break;
  case StopReason::failed:
    finding.evidence = "The computation broke down.";
    break;
  }
  return finding;
}
} // namespace throughbend
