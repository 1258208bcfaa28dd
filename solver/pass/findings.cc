#include "solver/pass/findings.h"

#include "meshes/fixture_profiles.h"
#include "solver/pass/pass_tools.h"

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
  // An end that still bears on the plate with a tenth of the ram force is what holds it.
  const auto holds = [&](ToolRole plate, const Leg &leg)
  {
    return now.tool(plate).normal > 0.1 * now.ram_force &&
           std::abs(leg.tip_x) > c.fixture.frame.distance;
  };
  const bool right = holds(ToolRole::right_frame, now.right),
             left  = holds(ToolRole::left_frame, now.left);
  if (!right && !left)
    return std::nullopt;
  const bool   both = right && left;
  const Leg   &leg  = right ? now.right : now.left;
  const double force =
      now.tool(right ? ToolRole::right_frame : ToolRole::left_frame).normal;
  JamEvidence evidence;
  evidence.kind  = JamKind::hooked;
  evidence.where = both    ? "both frame plates"
                   : right ? "right frame plate"
                           : "left frame plate";
  evidence.account << (both ? "The coupon's ends still reach "
                            : "The coupon's end still reaches ");
  evidence.account.add(Measure::length, std::abs(leg.tip_x) - c.fixture.frame.distance)
      << " past the inside of the plate and " << (both ? "press" : "presses")
      << " on the opening's edge with ";
  evidence.account.add(Measure::force, force) << (both ? " on the right." : ".");
  return evidence;
}

std::optional<JamEvidence> squeezed(const Case &c, const std::vector<PassSample> &samples)
{
  const PassSample &now  = samples.back();
  const double      t    = c.coupon.thickness;
  const double      room = tool_distance(c, now.travel);
  // Two hundredths of the thickness is more than bending itself changes it.
  if (room > 0.98 * t && !(room < t && now.left.angle > 60 && now.right.angle > 60))
    return std::nullopt;
  const double right   = now.tool(ToolRole::right_shoulder).normal,
               left    = now.tool(ToolRole::left_shoulder).normal;
  const bool   touches = now.tool(ToolRole::plunger).normal > 0 && (right > 0 || left > 0);
  const double span    = 0.2 * t;
  if (!touches || late_slope(samples, span) <= 0)
    return std::nullopt;
  constexpr double harder = 1.5; // times the other side: then it is this one
  JamEvidence      evidence;
  evidence.kind  = JamKind::squeezed;
  evidence.where = left > harder * right   ? "left leg"
                   : right > harder * left ? "right leg"
                                           : "both legs";
  evidence.account << "A leg is ";
  evidence.account.add(Measure::room, t) << " thick where plunger and shoulder leave ";
  evidence.account.add(Measure::room, room) << ", and the force has risen by ";
  evidence.account.add(Measure::force_rise, late_slope(samples, span)) << " over the last ";
  evidence.account.add(Measure::length, span) << " of travel.";
  return evidence;
}

/// "legs 41.0 deg and 42.5 deg from flat", "both legs 41.0 deg from flat"
Evidence legs(const PassSample &now)
{
  const bool alike = std::abs(now.left.angle - now.right.angle) < 0.05;
  Evidence   account(alike ? "both legs " : "legs ");
  if (!alike)
    account.add(Measure::angle, now.left.angle) << " and ";
  account.add(Measure::angle, now.right.angle) << " from flat";
  return account;
}

/// Which of the ways out of solver/pass/exit it was.
std::string way_out(const Case &c, const PassSample &now)
{
  const double last = last_tangent_level(c.fixture.shoulders);
  const bool   left = now.left.tip_y < last, right = now.right.tip_y < last;
  if (left && right)
    return "Both ends are past the shoulders";
  return left || right ? "One end is past the shoulders, and no force is left that could "
                         "hold the other"
                       : "No force is left that could hold the ends between the shoulders";
}

/// The ram has given all it has, and no jam holds the coupon yet.
void run_out_of_force(const Case &c, const PassSample &now, Finding &finding)
{
  finding.outcome = Outcome::over_capacity;
  finding.account << "The ram is at its capacity of ";
  finding.account.add(Measure::force, c.ram.capacity);
  const double room = (c.fixture.shoulders.opening - c.fixture.plunger.width) / 2;
  if (room >= c.coupon.thickness)
  {
    finding.account << " while nothing but the bending itself resists; " << legs(now)
                    << ".";
    return;
  }
  finding.ahead = JamKind::squeezed;
  finding.account << ", " << legs(now) << ". A leg, ";
  finding.account.add(Measure::room, c.coupon.thickness)
      << " thick, will not fit the room of ";
  finding.account.add(Measure::room, room)
      << " that the fixture leaves beside the plunger: more force would lead into a "
         "squeeze.";
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

std::optional<std::size_t> shut_flaw(const Case &c, const PassSample &sample)
{
  std::optional<std::size_t> shut;
  double                     deepest = shut_overlap * c.coupon.thickness;
  for (std::size_t i = 0; i < sample.flaws.size(); ++i)
    if (sample.flaws[i].overlap > deepest)
    {
      shut    = i;
      deepest = sample.flaws[i].overlap;
    }
  return shut;
}

Finding decide(const Case &c, const std::vector<PassSample> &samples, StopReason reason)
{
  Finding finding;
  if (samples.empty())
  {
    finding.account << "No step was accepted.";
    finding.evidence = finding.account.text(UnitSystem::metric);
    return finding;
  }
  const PassSample &now = samples.back();
  finding.travel        = now.travel;
  finding.force         = now.ram_force;
  const auto jam        = jam_evidence(c, samples);
  const auto take       = [&](const JamEvidence &evidence)
  {
    finding.outcome = Outcome::jammed;
    finding.jam     = evidence.kind;
    finding.where   = evidence.where;
    finding.account = evidence.account;
  };

  switch (reason)
  {
  case StopReason::out:
    if (std::min(now.left.angle, now.right.angle) < unbent_angle)
    {
      finding.outcome = Outcome::dropped;
      finding.account << "The coupon left the shoulders hardly bent, " << legs(now) << ".";
    }
    else
    {
      finding.outcome = Outcome::through;
      finding.account << way_out(c, now) << ", " << legs(now)
                      << "; the largest ram force on the way was ";
      finding.account.add(Measure::force, largest_force(samples)) << ".";
    }
    break;
  case StopReason::force_limit:
    if (jam)
    {
      take(*jam);
      finding.account << " The ram is at its capacity of ";
      finding.account.add(Measure::force, c.ram.capacity) << " as well.";
    }
    else
      run_out_of_force(c, now, finding);
    break;
  case StopReason::stroke_end:
    finding.outcome = Outcome::stroke_out;
    finding.account << "The ram is at the end of its stroke of ";
    finding.account.add(Measure::length, c.ram.stroke)
        << ", " << legs(now) << " and still between the shoulders.";
    if (jam)
      finding.jam = jam->kind;
    break;
  case StopReason::stuck:
    if (jam)
      take(*jam);
    else
      finding.account << "No equilibrium was found for a further step, and there is no "
                         "physical evidence of a jam.";
    break;
  case StopReason::flaw_shut:
    if (const auto shut = shut_flaw(c, now))
    {
      // Flaws are numbered without gaps: the place in the sample is that in the case.
      finding.where = flaw_section(*shut);
      finding.account << "The lips of " << flaw_section(*shut) << " have closed and run ";
      finding.account.add(Measure::room, now.flaws[*shut].overlap)
          << " into each other, deeper than the springs between them should let them: what "
             "would follow is not physical. The record holds up to here.";
    }
    break;
  case StopReason::step_limit:
    finding.account << "More steps than solver.step_limit allows.";
    break;
  case StopReason::failed:
    finding.account << "The computation broke down.";
    break;
  }
  finding.evidence = finding.account.text(UnitSystem::metric);
  return finding;
}
} // namespace throughbend
