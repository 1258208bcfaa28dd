#include "solver/outcome/findings.h"

#include "solver/outcome/closeness.h"
#include "solver/outcome/exit.h"
#include "solver/outcome/force_course.h"
#include "solver/outcome/hold.h"
#include "solver/outcome/verdict.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace throughbend
{
namespace
{
using Measure = Evidence::Measure;

/// "78.1 kN", and where the force ripples there "78.1 kN (+- 1.2 kN of ripple)".
void add_peak(const CoursePeak &peak, Evidence &text)
{
  text.add(Measure::force, peak.force);
  if (peak.band > 0)
  {
    text << " (smooth course; the computed force ripples by ";
    text.add(Measure::force, peak.band) << " about it)";
  }
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

std::string elongation_text(const double log_strain)
{
  char text[32];
  std::snprintf(text, sizeof text, "%.1f %%", 100 * std::expm1(log_strain));
  return text;
}

std::string finer_cells_text(const PassSetup &setup)
{
  if (setup.coupon.dimension == 3)
    return " With finer cells that force is larger by an amount that is not known.";
  return " With finer cells and steps that force is up to " +
         std::to_string(std::lround(100 * lack_of_ironing_force(setup))) + " % larger.";
}

/// What a stronger ram would do, and what would come of tools and coupon.
Evidence beyond_text(const PassSetup &setup, const BeyondCapacity &beyond)
{
  Evidence text;
  if (beyond.end == BeyondEnd::not_known)
  {
    text << " What more force would do is not known";
    if (beyond.force > 0)
      text << ": it was followed up to ", text.add(Measure::force, beyond.force) << " only";
    text << ".";
    return text;
  }
  text << (beyond.end == BeyondEnd::through
               ? " A stronger ram pushes it through; the largest force is "
           : beyond.end == BeyondEnd::stroke_end
               ? " A stronger ram comes to the end of its stroke with the coupon not yet "
                 "through; the largest force is "
               : " With a stronger ram the coupon drops unbent; the largest force is ");
  add_peak({beyond.force, beyond.force_at, beyond.force_band}, text);
  text << ", at ";
  text.add(Measure::length, beyond.force_at) << " of travel.";
  if (beyond.leg_ironed)
    text << " A leg is ironed on the way." << finer_cells_text(setup);
  text << " On the way one shoulder bears ";
  text.add(Measure::force, beyond.shoulder);
  if (beyond.frame > 0)
    text << ", one frame plate ", text.add(Measure::force, beyond.frame);
  text << ", and the convex face is stretched by " << elongation_text(beyond.face_strain)
       << ".";
  return text;
}

/// What came of the pass beyond the ram's capacity.
void follow_beyond(const PassSetup &setup, const std::vector<PassSample> &samples,
                   const BeyondRecord &record, Finding &finding)
{
  finding.beyond = beyond_capacity(setup, record.samples, record.reason);
  if (!record.samples.empty())
  {
    // What tools and face bear on the way may have been largest before the ram gave out;
    // and the course of the force is that of the whole pass.
    std::vector<PassSample> all = samples;
    all.insert(all.end(), record.samples.begin(), record.samples.end());
    const BeyondEnd end        = finding.beyond->end;
    finding.beyond             = beyond_capacity(setup, all, record.reason);
    finding.beyond->end        = end;
    finding.beyond->leg_ironed = has_event(pass_events(setup, all), EventKind::ironed);
    if (finding.beyond->leg_ironed && setup.coupon.dimension == 2)
      finding.beyond->force_lack = lack_of_ironing_force(setup);
  }
  // The ram has stopped: less than its capacity does not push it through.
  if (finding.beyond->end != BeyondEnd::not_known)
    finding.beyond->force = std::max(finding.beyond->force, setup.ram.capacity);
  if (finding.beyond->end != BeyondEnd::wrecked)
    finding.account << beyond_text(setup, *finding.beyond);
}

/// The ram has given all it has.
void run_out_of_force(const PassSetup &setup, const std::vector<PassSample> &samples,
                      const std::optional<BeyondRecord> &record, Finding &finding)
{
  const PassSample &now  = samples.back();
  const auto        hold = what_holds(setup, samples);
  finding.outcome        = Outcome::over_capacity;
  finding.force          = setup.ram.capacity; // to the tolerance of the search for it
  finding.account << "The ram is at its capacity of ";
  finding.account.add(Measure::force, setup.ram.capacity) << ", " << legs(now) << ".";
  if (hold)
  {
    finding.held  = hold->kind;
    finding.where = hold->where;
    finding.account << " " << hold->account;
  }
  const double     room     = setup.least_room();
  const double     thickest = std::max(setup.thickest_of_leg(ToolSide::left, now.travel),
                                       setup.thickest_of_leg(ToolSide::right, now.travel));
  constexpr double fits     = 1e-3; // [mm] of room that a leg needs to pass by itself
  if (!hold && room < thickest + fits)
  {
    finding.account << " A leg is ";
    finding.account.add(Measure::room, thickest)
        << " thick, and the fixture leaves a room of ";
    finding.account.add(Measure::room, room)
        << " beside the plunger: further on it is squeezed.";
  }
  else if (!hold)
    finding.account << " Nothing but the bending itself resists.";
  if (!record)
  {
    finding.account << " What more force would do was not computed.";
    return;
  }
  follow_beyond(setup, samples, *record, finding);
}

/// The coupon has not gone on at any force up to the wrecking one.
void jam(const PassSetup &setup, const std::vector<PassSample> &samples, Finding &finding)
{
  finding.outcome = Outcome::jammed;
  finding.held.reset();
  const auto hold = what_holds(setup, samples);
  finding.jam     = hold ? hold->kind : JamKind::other;
  finding.where   = hold ? hold->where : "";
  Evidence account;
  if (hold)
    account << hold->account << " ";
  account << "The coupon does not move on at any force up to ";
  account.add(Measure::force, setup.force.wrecking)
      << ", twenty times the largest force of a plain pass: coupon or fixture would be "
         "wrecked first.";
  if (setup.ram.capacity < setup.force.wrecking)
  {
    account << " The ram stops at its capacity of ";
    account.add(Measure::force, setup.ram.capacity) << ".";
  }
  finding.account = account;
}

// A coupon that turned by more on its way out did not just drop [deg].
constexpr double tipped_over = 15;
// Bent the other way by more it lies over a shoulder [deg].
constexpr double draped = 5;

/// What turned the coupon as a whole, half the difference of its legs' angles, and what
/// bent each leg, their mean [deg].
double tipped(const PassSample &now)
{
  return std::abs(now.left.angle - now.right.angle) / 2;
}
double bent(const PassSample &now)
{
  return (now.left.angle + now.right.angle) / 2;
}

void leave(const std::vector<PassSample> &samples, const CoursePeak &peak, Finding &finding)
{
  const PassSample &now = samples.back();
  if (std::min(now.left.angle, now.right.angle) < unbent_angle)
  {
    finding.outcome = Outcome::dropped;
    if (tipped(now) > tipped_over)
    {
      finding.account << "The coupon tipped over to one side by ";
      finding.account.add(Measure::angle, tipped(now))
          << " and left the shoulders with each leg bent by ";
      finding.account.add(Measure::angle, bent(now)) << ": " << legs(now) << ".";
    }
    else
      finding.account << "The coupon left the shoulders before it was bent to a U, "
                      << legs(now) << ".";
    return;
  }
  finding.outcome = Outcome::through;
  finding.account << "Both ends are past the shoulders, " << legs(now)
                  << "; the largest ram force on the way was ";
  add_peak(peak, finding.account);
  finding.account << ".";
}

/// "One end is past its shoulder, the other is 65.0 mm above the last point ..."
void at_the_end_of_the_stroke(const PassSetup               &setup,
                              const std::vector<PassSample> &samples, Finding &finding)
{
  const PassSample &now  = samples.back();
  const double      last = setup.last_tangent();
  const double      high = std::max(now.left.tip_y, now.right.tip_y);
  const bool        one  = std::min(now.left.tip_y, now.right.tip_y) < last;
  // It stands on end between the shoulders: more stroke would not bend it.
  if (one && tipped(now) > tipped_over && bent(now) > -draped && bent(now) < unbent_angle)
  {
    finding.outcome = Outcome::dropped;
    finding.hangs   = true;
    finding.account << "The coupon tipped over to one side by ";
    finding.account.add(Measure::angle, tipped(now)) << ", each leg bent by ";
    finding.account.add(Measure::angle, bent(now))
        << ": " << legs(now)
        << ". One end is past its shoulder, and at the end of the stroke of ";
    finding.account.add(Measure::length, setup.ram.stroke)
        << " the coupon hangs between the shoulders. More stroke does not bend it.";
    return;
  }
  finding.outcome = Outcome::stroke_out;
  finding.account << "The ram is at the end of its stroke of ";
  finding.account.add(Measure::length, setup.ram.stroke) << ", " << legs(now);
  if (high > last)
  {
    finding.account << (one ? "; one end is past its shoulder, the other is "
                            : "; the higher end is ");
    finding.account.add(Measure::length, high - last)
        << " above the last point where the shoulder can hold it.";
  }
  else
    finding.account << "; both ends are past the shoulders, which still press on the legs.";
  if (const auto hold = what_holds(setup, samples))
  {
    finding.held  = hold->kind;
    finding.where = hold->where;
    finding.account << " " << hold->account;
  }
  else if (!is_held(setup, now))
    finding.account
        << " Nothing presses on it any more: it may fall out by its own weight at "
           "any moment.";
}

// Of a shoulder's force: a ram that bears less does not hold the coupon [-].
constexpr double clamped_share = 0.1;

/// "Over 65.0 mm to 80.2 mm of travel a leg (both sides) is ironed ..."
Evidence event_text(const PassSetup &setup, const PassEvent &event)
{
  Evidence text(" From ");
  text.add(Measure::length, event.from) << " to ";
  text.add(Measure::length, event.to) << " of travel ";
  const bool both = event.where == "both sides";
  switch (event.kind)
  {
  case EventKind::frame_touched:
    text << (both ? "the ends press on both frame plates"
                  : "the " + event.where + " end presses on its frame plate");
    break;
  case EventKind::ironed:
    text << (both ? "both legs are ironed" : "the " + event.where + " leg is ironed")
         << " between plunger and shoulder";
    break;
  case EventKind::nose_corner:
    text << "the coupon is bent over a corner of the nose, which is not a half round";
    break;
  case EventKind::shoulder_underside:
    text << (both ? "the coupon presses on both shoulders from below"
                  : "the coupon presses on the " + event.where + " shoulder from below");
    break;
  case EventKind::bent_short:
    text << (both ? "both ends lose their shoulders"
                  : "the " + event.where + " end loses its shoulder")
         << " before the legs stand: it is not a full U";
    break;
  }
  const bool short_bend = event.kind == EventKind::bent_short;
  text << (!short_bend ? ", with up to "
           : both      ? ". A shoulder then bears up to "
                       : ". The other shoulder then bears up to ");
  text.add(Measure::force, event.tool_force)
      << (event.kind == EventKind::nose_corner || short_bend ? "" : " on one of them")
      << "; ram force ";
  text.add(Measure::force, event.force_before) << " before it, ";
  text.add(Measure::force, event.largest_force) << " at most during it.";
  // The walls hold it, not the ram: letting the pressure off does not free it.
  if (short_bend && both && event.largest_force < clamped_share * event.tool_force)
    text << " The coupon is clamped between the shoulders while the ram bears next to "
            "nothing: it can snap out at any moment.";
  if (event.kind == EventKind::ironed)
    text << finer_cells_text(setup);
  return text;
}

void stop_without_finding(const PassSetup &setup, const std::vector<PassSample> &samples,
                          const StopReason reason, Finding &finding)
{
  if (reason == StopReason::stuck)
  {
    finding.account << "No equilibrium was found for a further step";
    if (const auto hold = what_holds(setup, samples))
      finding.account << ". Whether more force would push it on is not known. "
                      << hold->account;
    else
      finding.account << ", and nothing in the record says what holds the coupon.";
  }
  else if (reason == StopReason::flaw_shut)
  {
    if (const auto shut = shut_flaw(setup, samples.back()))
    {
      // Flaws are numbered without gaps: the place in the sample is that in the case.
      finding.where = flaw_section(*shut);
      finding.account << "The lips of " << flaw_section(*shut)
                      << " have closed, and points that faced each other at first overlap "
                         "by ";
      finding.account.add(Measure::room, samples.back().flaws[*shut].overlap)
          << ". Either the lips are pressed together harder than their contact springs "
             "hold, or they slide along each other farther than this model follows. A "
             "continuation would not be physical. The record is valid up to here.";
    }
  }
  else if (reason == StopReason::step_limit)
    finding.account << "More steps than solver.step_limit allows.";
  else
    finding.account << "The pass was stopped by its user before it had ended.";
}

/// A finding that rests on figures which contradict each other, or that no metal bears, is
/// none.
void weigh_accuracy(Finding &finding)
{
  const Accuracy &accuracy = finding.accuracy;
  if (accuracy.trust != Trust::broken || finding.outcome == Outcome::undecided)
    return;
  Evidence account(accuracy.overstrained
                       ? "The calculated strains are more than metals bear: "
                       : "The record contradicts itself: ");
  for (std::size_t i = 0; i < accuracy.breaking; ++i)
    account << (i > 0 ? "; " : "") << accuracy.reasons[i];
  if (accuracy.overstrained)
    account << ". A real coupon tears before that, or the cells are too long for a corner "
               "that they lie on. There is no finding. Without a tear it would have been: ";
  else
    account << ". There is no finding. It would have been: ";
  account << to_text(finding.outcome) + ". " << finding.account;
  finding.account = account;
  finding.outcome = Outcome::undecided;
  finding.jam.reset();
  finding.held.reset();
  finding.close.clear();
}
} // namespace

std::optional<std::size_t> shut_flaw(const PassSetup &setup, const PassSample &sample)
{
  std::optional<std::size_t> shut;
  double                     deepest = shut_overlap * setup.coupon.thickness;
  for (std::size_t i = 0; i < sample.flaws.size(); ++i)
    if (sample.flaws[i].overlap > deepest)
    {
      shut    = i;
      deepest = sample.flaws[i].overlap;
    }
  return shut;
}

BeyondCapacity beyond_capacity(const PassSetup               &setup,
                               const std::vector<PassSample> &beyond,
                               const StopReason               reason)
{
  BeyondCapacity result;
  if (beyond.empty())
    return result;
  const PassSample &end = beyond.back();
  result.travel         = end.travel;
  const CoursePeak peak = course_peak(setup, beyond);
  result.force          = peak.force;
  result.force_at       = peak.travel;
  result.force_band     = peak.band;
  for (const PassSample &sample : beyond)
  {
    result.shoulder = std::max({result.shoulder, sample.tool(tool_at::left_shoulder).normal,
                                sample.tool(tool_at::right_shoulder).normal});
    result.frame    = std::max({result.frame, sample.tool(tool_at::left_frame).normal,
                                sample.tool(tool_at::right_frame).normal});
    result.face_strain = std::max(result.face_strain, sample.outer_strain);
    if (sample.width)
      result.face_strain = std::max(result.face_strain, sample.width->largest_strain);
  }
  const bool bent = std::min(end.left.angle, end.right.angle) >= unbent_angle;
  result.end = reason == StopReason::out ? bent ? BeyondEnd::through : BeyondEnd::dropped
               : reason == StopReason::stroke_end  ? BeyondEnd::stroke_end
               : reason == StopReason::force_limit ? BeyondEnd::wrecked
                                                   : BeyondEnd::not_known;
  if (accuracy(setup, beyond, setup.force.wrecking).trust == Trust::broken)
    result.end = BeyondEnd::not_known;
  return result;
}

Finding decide(const PassSetup &setup, const std::vector<PassSample> &samples,
               const StopReason reason, const std::optional<BeyondRecord> &beyond)
{
  Finding finding;
  if (samples.empty())
  {
    finding.account << "No step was accepted.";
    finding.evidence = finding.account.text(UnitSystem::metric);
    finding.verdict  = verdict(finding);
    return finding;
  }
  const PassSample &now = samples.back();
  finding.travel        = now.travel;
  finding.force         = now.ram_force;
  finding.accuracy =
      accuracy(setup, samples, std::min(setup.ram.capacity, setup.force.wrecking));
  finding.events    = pass_events(setup, samples);
  finding.part_bent = reason == StopReason::out
                          ? has_event(finding.events, EventKind::bent_short)
                          : !is_full_u(now);
  // Whether the ripple turns a finding shows on all that was computed.
  std::vector<PassSample> all = samples;
  if (beyond)
    all.insert(all.end(), beyond->samples.begin(), beyond->samples.end());
  const CoursePeak peak = course_peak(setup, all);

  switch (reason)
  {
  case StopReason::out:
    leave(samples, peak, finding);
    break;
  case StopReason::force_limit:
    if (setup.ram.capacity >= setup.force.wrecking)
      jam(setup, samples, finding);
    else
    {
      run_out_of_force(setup, samples, beyond, finding);
      if (finding.beyond && finding.beyond->end == BeyondEnd::wrecked)
        jam(setup, beyond->samples, finding);
    }
    break;
  case StopReason::stroke_end:
    at_the_end_of_the_stroke(setup, samples, finding);
    break;
  case StopReason::stuck:
  case StopReason::flaw_shut:
  case StopReason::step_limit:
  case StopReason::interrupted:
    stop_without_finding(setup, samples, reason, finding);
    break;
  }
  for (const PassEvent &event : finding.events)
    finding.account << event_text(setup, event);
  if (finding.outcome != Outcome::undecided)
    weigh_closeness(setup, peak, now, finding);
  weigh_accuracy(finding);
  finding.evidence = finding.account.text(UnitSystem::metric);
  finding.verdict  = verdict(finding);
  return finding;
}
} // namespace throughbend
