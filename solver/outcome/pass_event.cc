#include "solver/outcome/pass_event.h"

#include "solver/outcome/exit.h"
#include "solver/outcome/force_course.h"
#include "solver/outcome/nip.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double same_event = 0.1; // of the thickness, of travel

/// What an event is at one sample: the normal forces on its left and right tool [N].
struct Pressing
{
  double left = 0, right = 0;
};

Pressing pressing(const PassSetup &setup, const PassSample &now, const Nip &nip,
                  const EventKind kind)
{
  const auto normal = [&](ToolPlace place) { return now.tool(place).normal; };
  switch (kind)
  {
  case EventKind::frame_touched:
    return {normal(tool_at::left_frame), normal(tool_at::right_frame)};
  case EventKind::ironed:
  {
    // The leg that is squeezed is upright; a flat one crosses the gap at a slant.
    constexpr double upright    = 45;
    const auto       is_thicker = [&](const ToolSide side, const Leg &leg)
    {
      return normal(tool_at::plunger) > 0 && leg.angle > upright &&
             setup.room(now.travel) < setup.passing_thickness(side, now.travel);
    };
    const bool left  = nip.left || is_thicker(ToolSide::left, now.left),
               right = nip.right || is_thicker(ToolSide::right, now.right);
    return {left ? normal(tool_at::left_shoulder) : 0.,
            right ? normal(tool_at::right_shoulder) : 0.};
  }
  case EventKind::nose_corner:
  {
    // A half round nose has no corner; on a flat one, touching at a slant is touching one.
    constexpr double slant = 10; // [deg] of wrap, both sides together
    const ToolGauge &nose  = setup.tool(tool_at::plunger).gauge;
    const bool       flat  = nose.round < 0.98 * nose.flank;
    // The patch that bears the most: there is a corner on either side. Of a body its load
    // is that of the worst strip across the width, so this is a bound.
    const double patch = now.tool(tool_at::plunger).line_load * setup.coupon.width;
    const double force =
        flat && now.wrap > slant ? std::min(patch, normal(tool_at::plunger)) : 0.;
    return {force, force};
  }
  case EventKind::shoulder_underside:
    return {now.tool(tool_at::left_shoulder).from_below,
            now.tool(tool_at::right_shoulder).from_below};
  case EventKind::bent_short:
    break; // is no contact
  }
  return {};
}

std::string side_words(const EventKind kind, const bool left, const bool right)
{
  if (kind == EventKind::nose_corner)
    return "";
  return left && right ? "both sides" : left ? "left" : "right";
}

void add_events(const PassSetup &setup, const std::vector<PassSample> &samples,
                const std::vector<Nip> &nips, const EventKind kind,
                const std::vector<CoursePoint> &course, std::vector<PassEvent> &events)
{
  // An end that leaves brushes the wall's lower edge, for an instant and with next to
  // nothing.
  constexpr double brushes = 0.01; // of the bending force
  const double least = kind == EventKind::shoulder_underside ? brushes * setup.force.bending
                                                             : setup.force.nothing;
  double       before = 0;
  bool         open = false, left = false, right = false;
  for (std::size_t i = 0; i < samples.size(); ++i)
  {
    const PassSample &now = samples[i];
    if (now.kind == StepKind::release)
      break;
    const Pressing press = pressing(setup, now, nips[i], kind);
    if (std::max(press.left, press.right) > least)
    {
      if (!open)
      {
        events.push_back(
            {kind, "", now.travel, now.travel, before, course[i].force, now.travel, 0});
        left = right = false;
      }
      open             = true;
      PassEvent &event = events.back();
      left             = left || press.left > least;
      right            = right || press.right > least;
      event.where      = side_words(kind, left, right);
      event.to         = now.travel;
      if (course[i].force > event.largest_force)
      {
        event.largest_force = course[i].force;
        event.at            = now.travel;
      }
      event.tool_force = std::max({event.tool_force, press.left, press.right});
    }
    else if (open && now.travel > events.back().to + same_event * setup.coupon.thickness)
      open = false;
    before = course[i].force;
  }
}

void add_bent_short(const PassSetup &setup, const std::vector<PassSample> &samples,
                    std::vector<PassEvent> &events)
{
  const auto pushed = [](const PassSample &s) { return s.kind != StepKind::release; };
  const auto end    = std::find_if(samples.rbegin(), samples.rend(), pushed);
  if (end == samples.rend() || is_held(setup, *end) || has_an_end_up(setup, *end) ||
      std::min(end->left.angle, end->right.angle) < unbent_angle)
    return;
  const auto last = std::find_if(end, samples.rend(),
                                 [&](const PassSample &s) { return is_loaded(setup, s); });
  if (last == samples.rend())
    return;
  // When it is out, too: a leg that lost its shoulder does not stand up any more.
  const bool then = !is_full_u(*last);
  if (!then && is_full_u(*end))
    return;
  const PassSample &seen = then ? *last : *end;
  const double      left = seen.left.angle, right = seen.right.angle;
  PassEvent         event;
  event.kind         = EventKind::bent_short;
  event.where        = side_words(event.kind, left < formed_leg, right < formed_leg);
  event.from         = last->travel;
  event.to           = end->travel;
  event.force_before = last->ram_force;
  event.at           = last->travel;
  for (auto s = end; s != last; ++s)
  {
    if (s->ram_force > event.largest_force)
    {
      event.largest_force = s->ram_force;
      event.at            = s->travel;
    }
    event.tool_force = std::max({event.tool_force, s->tool(tool_at::left_shoulder).normal,
                                 s->tool(tool_at::right_shoulder).normal});
  }
  events.push_back(event);
}
} // namespace

bool is_full_u(const PassSample &now)
{
  const double left = now.left.angle, right = now.right.angle;
  const bool   leans = std::abs(left - right) / 2 > upright_lean;
  return left + right >= full_bend || std::min(left, right) >= formed_leg ||
         (!leans && left + right >= 2 * formed_leg);
}

bool has_event(const std::vector<PassEvent> &events, const EventKind kind)
{
  return std::any_of(events.begin(), events.end(),
                     [&](const PassEvent &event) { return event.kind == kind; });
}

std::vector<PassEvent> pass_events(const PassSetup               &setup,
                                   const std::vector<PassSample> &samples)
{
  std::vector<PassEvent>         events;
  const std::vector<CoursePoint> course = force_course(setup, samples);
  const std::vector<Nip>         nips   = nipped_legs(setup, samples);
  for (const EventKind kind : {EventKind::frame_touched, EventKind::ironed,
                               EventKind::nose_corner, EventKind::shoulder_underside})
    add_events(setup, samples, nips, kind, course, events);
  add_bent_short(setup, samples, events);
  std::stable_sort(events.begin(), events.end(),
                   [](const PassEvent &a, const PassEvent &b) { return a.from < b.from; });
  return events;
}
} // namespace throughbend
